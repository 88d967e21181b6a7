package whole

import (
	"os"
	"path/filepath"
	"testing"
)

func TestWriteReplacesAll(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	if err := os.WriteFile(a, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := Write(File{Path: a, Data: []byte("new a")}, File{Path: b, Data: []byte("new b")}); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{a: "new a", b: "new b"} {
		if got, err := os.ReadFile(path); err != nil || string(got) != want {
			t.Errorf("%s: got %q, %v, want %q", path, got, err, want)
		}
	}
	if info, err := os.Stat(a); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode of a replaced file: got %v, %v, want 0600", info.Mode(), err)
	}
}

func TestWriteAllOrNothing(t *testing.T) {
	dir := t.TempDir()
	a := filepath.Join(dir, "a")
	if err := os.WriteFile(a, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := Write(File{Path: a, Data: []byte("new")}, File{Path: filepath.Join(dir, "missing", "b"), Data: []byte("x")}); err == nil {
		t.Fatal("got no error for a folder that is not there")
	}
	if got, _ := os.ReadFile(a); string(got) != "old" {
		t.Errorf("a: got %q, want the old bytes", got)
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("got %v, %v, want nothing but a left behind", entries, err)
	}
}
