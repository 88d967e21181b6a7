package shelf

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"hoistbook/kits"
	"hoistbook/kits/jsontree"
)

// stock makes a folder with so many files, some deeper than others.
func stock(t testing.TB, n int) (dir string, names []string) {
	t.Helper()
	dir = t.TempDir()
	for i := range n {
		name := filepath.Join(dir, fmt.Sprintf("%02d", i%7), fmt.Sprintf("kit-%05d.json", i))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte("{}"), 0o600); err != nil {
			t.Fatal(err)
		}
		names = append(names, name)
	}
	slices.Sort(names)
	return dir, names
}

// Results come in the order of the names, whichever is ready first, and only a few wait at a time.
func TestEachKeepsTheOrderAndHoldsLittle(t *testing.T) {
	dir, want := stock(t, 500)
	var done, taken, most atomic.Int64
	var got []string
	err := Each([]string{dir}, func(path string) string {
		time.Sleep(time.Duration(rand.IntN(300)) * time.Microsecond)
		if waiting := done.Add(1) - taken.Load(); waiting > most.Load() {
			most.Store(waiting)
		}
		return path
	}, func(path string) error {
		taken.Add(1)
		got = append(got, path)
		return nil
	})
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%v; %d names, want %d in their order", err, len(got), len(want))
	}
	if limit := int64(6*runtime.GOMAXPROCS(0) + 2); most.Load() > limit {
		t.Errorf("%d results waited at a time, want at most %d", most.Load(), limit)
	}
}

func TestEachEndsAtTheFirstError(t *testing.T) {
	dir, _ := stock(t, 300)
	var worked atomic.Int64
	full := errors.New("the disk is full")
	err := Each([]string{dir}, func(path string) int { worked.Add(1); return 0 }, func(int) error { return full })
	if !errors.Is(err, full) || worked.Load() > 100 {
		t.Errorf("%v after %d files", err, worked.Load())
	}
	if err := Each([]string{filepath.Join(dir, "missing")}, func(string) int { return 0 }, func(int) error { return nil }); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a folder that is not there: %v", err)
	}
}

func TestEachLeavesOutWhatIsHidden(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"kit.json", "KIT2.JSON", "notes.txt", ".git/kit.json", "deep/er/kit.json", "book.pdf"} {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var got []string
	err := Each([]string{dir, filepath.Join(dir, "notes.txt")}, func(path string) string { return path }, func(path string) error {
		name, err := filepath.Rel(dir, path)
		got = append(got, filepath.ToSlash(name))
		return err
	})
	want := []string{"KIT2.JSON", "deep/er/kit.json", "kit.json", "notes.txt"} // what is named itself is taken whatever it is called
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%v: got %q, want %q", err, got, want)
	}
}

func TestRead(t *testing.T) {
	demo, _ := kits.Demo("fen-relay")
	for name, c := range map[string]struct {
		text   string
		is     bool
		broken bool
	}{
		"a manifest":               {string(demo.Data), true, false},
		"of a later format":        {`{"format": "hoistbook-manifest/9"}`, true, false},
		"without a format":         {`{"kit": {"id": "a"}, "parts": {}}`, true, false},
		"an overlay":               {`{"format": "hoistbook-overlay/1", "kit": {"id": "a"}, "parts": {}}`, false, false},
		"a bare overlay":           {`{"kit": {"maintainer": "a"}, "parts": {}}`, false, false},
		"a pack":                   {`{"format": "hoistbook-pack/1"}`, false, false},
		"something else":           {`{"name": "left-pad", "version": "1.0.0"}`, false, false},
		"a list":                   {`[1, 2]`, false, false},
		"a report that quotes one": {`{"format": "hoistbook-report/1", "x": {"format": "hoistbook-manifest/1"}}`, false, false},
		"broken":                   {`{"format": `, true, true},
		"empty":                    {``, true, true},
		"too large":                {`{"x-a": "` + strings.Repeat("a", jsontree.MaxBytes) + `"}`, true, true},
	} {
		path := filepath.Join(t.TempDir(), "file.json")
		if err := os.WriteFile(path, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		_, is, err := Read(path)
		if is != c.is || (err != nil) != c.broken {
			t.Errorf("%s: a manifest %v (%v), want %v", name, is, err, c.is)
		}
	}
	if _, is, err := Read(filepath.Join(t.TempDir(), "missing")); !is || err == nil {
		t.Error("a file that is not there is no problem")
	}
}
