package logbook

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/walk"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// childFile names the record that a child process of a test writes on until it is killed.
const childFile = "HOISTBOOK_TEST_RECORD"

func TestMain(m *testing.M) {
	if path := os.Getenv(childFile); path != "" {
		scribble(path)
		return
	}
	os.Exit(m.Run())
}

func theKit() (*walk.Kit, error) {
	s, _ := kits.Demo("marsh-data")
	m, err := manifest.Load(s)
	if err != nil {
		return nil, err
	}
	p, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	return &walk.Kit{Manifest: m, Packs: p, Program: "test"}, err
}

// goOn opens a record and makes the state it has led to; a new one is begun.
func goOn(path string, k *walk.Kit) (*Book, walk.State, *walk.Record, error) {
	b, r, err := Open(path)
	if err != nil {
		return nil, walk.State{}, nil, err
	}
	if len(r.Entries) > 0 {
		s, differs, err := walk.Again(k, r.Entries)
		if len(differs) > 0 {
			err = errors.Join(err, errors.New(differs[0]))
		}
		return b, s, r, err
	}
	s, e, err := walk.Start(k, walk.Preflight, time.Now())
	if err == nil {
		err = b.Append(e)
	}
	if err == nil {
		s, e, err = s.Next(walk.Input{Do: walk.Join, Name: "Ada", Lead: true}, time.Now())
	}
	if err == nil {
		err = b.Append(e)
	}
	return b, s, r, err
}

// scribble adds entries as fast as it can and says of each that it is recorded.
func scribble(path string) {
	k, err := theKit()
	if err != nil {
		panic(err)
	}
	b, s, _, err := goOn(path, k)
	for err == nil {
		var e walk.Entry
		if s, e, err = s.Next(walk.Input{Do: walk.Note, Who: "Ada", Text: strings.Repeat("a line that somebody types ", 8)}, time.Now()); err == nil {
			err = b.Append(e)
		}
		fmt.Println(e.N)
	}
	panic(err)
}

// A record killed at random moments has every line that was said to be recorded, and goes on.
func TestKilledAndGoneOnWith(t *testing.T) {
	times := 12
	if os.Getenv("CI") != "" {
		times = 200
	}
	k, err := theKit()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "record.jsonl")
	torn, grew := 0, 0
	for round := range times {
		said := killed(t, path, time.Duration(rand.IntN(40))*time.Millisecond)
		b, s, r, err := goOn(path, k)
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		if len(r.Entries) < said {
			t.Fatalf("round %d: %d entries were said to be recorded, and %d are there", round, said, len(r.Entries))
		}
		if r.Torn > 0 {
			torn++
		}
		if said > 0 {
			grew++
		}
		if _, e, err := s.Next(walk.Input{Do: walk.Resume}, time.Now()); err != nil {
			t.Fatal(err)
		} else if err := b.Append(e); err != nil {
			t.Fatal(err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		if len(r.Entries) > 250 { // what is long takes long to do again
			if err := os.Remove(path); err != nil {
				t.Fatal(err)
			}
		}
	}
	t.Logf("killed %d times, %d of them while it wrote, %d in the middle of a line", times, grew, torn)
	if grew < times/2 {
		t.Errorf("only %d of %d were killed while they wrote", grew, times)
	}
}

// killed lets a child write and kills it some time after its first line. It returns the last entry said to be recorded.
func killed(t *testing.T, path string, after time.Duration) (said int) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(self)
	c.Env = append(os.Environ(), childFile+"="+path)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	var timer *time.Timer
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if timer == nil {
			timer = time.AfterFunc(after, func() { _ = c.Process.Kill() })
		}
		if said, err = strconv.Atoi(lines.Text()); err != nil {
			t.Fatal(err)
		}
	}
	_ = c.Wait()
	return said
}

func TestATornFileIsGoneOnWithAtItsLastWholeLine(t *testing.T) {
	k, err := theKit()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "whole.jsonl")
	b, s, _, err := goOn(path, k)
	for i := 0; err == nil && i < 20; i++ {
		var e walk.Entry
		if s, e, err = s.Next(walk.Input{Do: walk.Note, Who: "Ada", Text: "note " + strconv.Itoa(i)}, time.Now()); err == nil {
			err = b.Append(e)
		}
	}
	if err = errors.Join(err, b.Close()); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for range 200 {
		cut := rand.IntN(len(data))
		torn := filepath.Join(dir, "torn.jsonl")
		if err := os.WriteFile(torn, data[:cut], 0o644); err != nil {
			t.Fatal(err)
		}
		b, _, err := Open(torn)
		if err != nil {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		left, err := os.ReadFile(torn)
		if err := errors.Join(err, b.Close()); err != nil {
			t.Fatal(err)
		}
		if want := data[:strings.LastIndexByte(string(data[:cut]), '\n')+1]; string(left) != string(want) {
			t.Fatalf("cut at %d: %d bytes are left, want %d", cut, len(left), len(want))
		}
	}
}

func TestASecondProgramIsKeptOut(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.jsonl")
	b, _, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := Open(path); err == nil || !strings.Contains(err.Error(), "another program has this record open") {
		t.Errorf("a second program: got %v", err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if b, _, err = Open(path); err != nil {
		t.Fatalf("after the first has ended: %v", err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestWhatIsNoRecordIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "letter.txt")
	for _, text := range []string{"dear club\n", "dear club", "{}\n"} {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		_, _, err := Open(path)
		left, readErr := os.ReadFile(path)
		if err == nil || readErr != nil || string(left) != text {
			t.Errorf("%q: got %v, and %q is left (%v)", text, err, left, readErr)
		}
	}
	if _, _, err := Open(filepath.Join(t.TempDir(), "no-such-folder", "r.jsonl")); err == nil {
		t.Error("a record in no folder opens")
	}
}

// A faulty disk is full after some bytes, or cannot confirm, or cannot even cut off what it wrote.
type faulty struct {
	disk
	room               int
	noSync, noTruncate bool
}

func (f *faulty) WriteAt(line []byte, at int64) (int, error) {
	if len(line) > f.room {
		n, _ := f.disk.WriteAt(line[:f.room], at)
		return n, syscall.ENOSPC
	}
	return f.disk.WriteAt(line, at)
}

func (f *faulty) Sync() error {
	if f.noSync {
		return io.ErrUnexpectedEOF
	}
	return f.disk.Sync()
}

func (f *faulty) Truncate(size int64) error {
	if f.noTruncate {
		return syscall.EIO
	}
	return f.disk.Truncate(size)
}

func TestAFullDiskLosesOnlyTheLine(t *testing.T) {
	k, err := theKit()
	if err != nil {
		t.Fatal(err)
	}
	for name, f := range map[string]faulty{
		"full": {room: 40}, "not confirmed": {room: 1 << 20, noSync: true}, "full and broken": {room: 40, noTruncate: true},
	} {
		path := filepath.Join(t.TempDir(), "r.jsonl")
		b, s, _, err := goOn(path, k)
		if err != nil {
			t.Fatal(err)
		}
		sound := b.disk
		f.disk = sound
		b.disk = &f
		_, e, err := s.Next(walk.Input{Do: walk.Note, Who: "Ada", Text: "lost"}, time.Now())
		if err != nil {
			t.Fatal(err)
		}
		fix := "make room on the disk, and answer again"
		if f.noSync {
			fix = "see to the disk, and answer again"
		}
		for try := range 2 {
			if err := b.Append(e); err == nil || try == 0 && !strings.Contains(err.Error(), fix) {
				t.Errorf("%s: of the line it says %v", name, err)
			}
		}
		b.disk = sound
		if _, e, err = s.Next(walk.Input{Do: walk.Note, Who: "Ada", Text: "there is room again"}, time.Now()); err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(b.Append(e), b.Close()); err != nil {
			t.Fatalf("%s: with room again: %v", name, err)
		}
		r, err := Read(path)
		if err != nil || r.Torn != 0 || len(r.Entries) != 3 || r.Entries[2].Text != "there is room again" {
			t.Errorf("%s: the record reads %+v, %v", name, r, err)
		}
	}
}
