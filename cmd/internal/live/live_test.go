package live

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"hoistbook/cmd/internal/logbook"
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/walk"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

func theKit(t *testing.T) *walk.Kit {
	t.Helper()
	s, _ := kits.Demo("marsh-data")
	m, err := manifest.Load(s)
	if err != nil {
		t.Fatal(err)
	}
	p, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		t.Fatal(err)
	}
	return &walk.Kit{Manifest: m, Packs: p, Program: "test"}
}

// opened begins or goes on with a record.
func opened(t *testing.T, path, list string, now func() time.Time) (*Session, []string, error) {
	t.Helper()
	k := theKit(t)
	return Open(path, list, func() (*walk.Kit, error) { return k, nil }, func(o *walk.Opening) (*walk.Kit, error) { return walk.KitOf(o, k.Packs, "test") }, now)
}

func do(t *testing.T, s *Session, inputs ...walk.Input) {
	t.Helper()
	for _, in := range inputs {
		if _, err := s.Do(in); err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
	}
}

// What is not on the disk has not happened: the state stays, and nobody is told of a change.
func TestWhatIsNotRecordedHasNotHappened(t *testing.T) {
	s, _, err := opened(t, filepath.Join(t.TempDir(), "r.jsonl"), walk.Preflight, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	do(t, s, walk.Input{Do: walk.Join, Name: "Ada", Lead: true})
	before, changed := s.View()
	if err := s.Close(); err != nil { // the disk is gone
		t.Fatal(err)
	}
	_, err = s.Do(walk.Input{Do: walk.Note, Who: "Ada", Text: "lost"})
	if err == nil || !strings.Contains(err.Error(), "not recorded") {
		t.Errorf("got %v", err)
	}
	after, _ := s.View()
	if after.N != before.N || after.Check != before.Check {
		t.Errorf("entry %d (%s) has become %d (%s)", before.N, before.Check, after.N, after.Check)
	}
	select {
	case <-changed:
		t.Error("a change is told that never happened")
	default:
	}
}

func TestManyAtOnceComeOneAfterTheOther(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.jsonl")
	s, _, err := opened(t, path, walk.Preflight, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	do(t, s, walk.Input{Do: walk.Join, Name: "Ada", Lead: true})
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 20 {
				if _, err := s.Do(walk.Input{Do: walk.Note, Who: "Ada", Text: "x"}); err != nil {
					t.Error(err)
				}
				if shown, _ := s.View(); shown.N < 3 {
					t.Errorf("the view is of entry %d", shown.N)
				}
			}
		})
	}
	all.Wait()
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	r, err := logbook.Read(path)
	if err != nil || len(r.Entries) != 162 {
		t.Errorf("the record has %d entries, %v; want 162", len(r.Entries), err)
	}
}

func TestGoingOn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.jsonl")
	s, _, err := opened(t, path, walk.Preflight, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	do(t, s, walk.Input{Do: walk.Join, Name: "Ada", Lead: true})
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	yesterday := func() time.Time { return time.Now().Add(-24 * time.Hour) }
	s, notes, err := opened(t, path, walk.Recovery, yesterday)
	if err != nil {
		t.Fatal(err)
	}
	if shown, _ := s.View(); shown.List != walk.Recovery || shown.Leader != "Ada" {
		t.Errorf("it goes on with %s under %q", shown.List, shown.Leader)
	}
	if shown, _ := s.View(); len(notes) != 0 || !strings.Contains(shown.Clock, "it was set back; set it right") {
		t.Errorf("with yesterday's clock it says %v and %q", notes, shown.Clock)
	}
	if _, _, err := opened(t, path, walk.Recovery, time.Now); err == nil || !strings.Contains(err.Error(), "another program") {
		t.Errorf("a second program: got %v", err)
	}
	do(t, s, walk.Input{Do: walk.Close, Who: "Ada", Text: "rain"})
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := opened(t, path, walk.Preflight, time.Now); err == nil || !strings.Contains(err.Error(), "way home") {
		t.Errorf("back to the preflight: got %v", err)
	}
	s, notes, err = opened(t, path, walk.Recovery, time.Now)
	if err != nil || len(notes) != 1 || !strings.Contains(notes[0], "closed") {
		t.Fatalf("a closed record: %v, %v", notes, err)
	}
	var refusal *walk.Refusal
	if _, err := s.Do(walk.Input{Do: walk.Note, Who: "Ada", Text: "x"}); !errors.As(err, &refusal) {
		t.Errorf("more in a closed record: %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
		t.Errorf("looking at a closed record has changed it (%v)", err)
	}
}
