package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
)

// A broken disk fails at one call of one kind; calls are counted from 1.
type broken struct {
	system
	call  string
	at    int
	lock  sync.Mutex // files are flushed side by side
	count int
}

func (b *broken) fails(call string, why error) error {
	if call != b.call {
		return nil
	}
	b.lock.Lock()
	defer b.lock.Unlock()
	if b.count++; b.count == b.at {
		return why
	}
	return nil
}

func (b *broken) create(dir, pattern string) (temporary, error) {
	if err := b.fails("create", syscall.EROFS); err != nil {
		return nil, err
	}
	f, err := b.system.create(dir, pattern)
	return breakable{f, b}, err
}

func (b *broken) rename(from, to string) error {
	if err := b.fails("rename", syscall.EIO); err != nil {
		return err
	}
	return b.system.rename(from, to)
}

type breakable struct {
	temporary
	disk *broken
}

func (f breakable) Write(p []byte) (int, error) {
	if err := f.disk.fails("write", syscall.ENOSPC); err != nil {
		n, _ := f.temporary.Write(p[:len(p)/2])
		return n, err
	}
	return f.temporary.Write(p)
}

func (f breakable) Chmod(mode fs.FileMode) error {
	return errors.Join(f.disk.fails("chmod", syscall.EPERM), f.temporary.Chmod(mode))
}

func (f breakable) Sync() error {
	return errors.Join(f.disk.fails("sync", syscall.EIO), f.temporary.Sync())
}

func (f breakable) Close() error {
	return errors.Join(f.temporary.Close(), f.disk.fails("close", syscall.EDQUOT))
}

// Whichever call fails for whichever of three files: it is told, what stands there is old and whole, and nothing is left beside
// it. Only where renaming fails are those before it new, and the error names the others.
func TestEveryCallThatCanFail(t *testing.T) {
	for _, call := range []string{"create", "write", "chmod", "sync", "close", "rename"} {
		for at := 1; at <= 3; at++ {
			t.Run(fmt.Sprint(call, at), func(t *testing.T) {
				dir := t.TempDir()
				var files []File
				for i := range 3 {
					path := filepath.Join(dir, fmt.Sprint("file", i+1))
					if err := os.WriteFile(path, fmt.Append(nil, "old ", i+1), 0o644); err != nil {
						t.Fatal(err)
					}
					files = append(files, File{Path: path, Data: fmt.Append(nil, "new ", i+1)})
				}
				err := write(&broken{call: call, at: at}, files)
				if err == nil {
					t.Fatal("nothing is told")
				}
				for i, f := range files {
					want := "old"
					if call == "rename" && i+1 < at {
						want = "new"
					}
					if got, _ := os.ReadFile(f.Path); string(got) != fmt.Sprint(want, " ", i+1) {
						t.Errorf("%s holds %q, want the %s bytes", f.Path, got, want)
					}
					if call == "rename" && strings.Contains(err.Error(), f.Path) != (want == "old") {
						t.Errorf("of %s, which is %s, the error says: %v", f.Path, want, err)
					}
				}
				left, err := os.ReadDir(dir)
				if err != nil || len(left) != 3 {
					t.Errorf("left behind: %v, %v", left, err)
				}
			})
		}
	}
}

// What was made of a file that somebody has changed since does not replace it.
func TestAFileThatHasChangedSinceIsLeftAlone(t *testing.T) {
	dir := t.TempDir()
	list, other := filepath.Join(dir, "list"), filepath.Join(dir, "other")
	write := func(text string) {
		if err := os.WriteFile(list, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("as read")
	files := []File{{Path: other, Data: []byte("new")}, {Path: list, Data: []byte("new"), From: []byte("as read")}, {Path: list, Data: []byte("newer"), From: []byte("as read")}}
	if err := Write(files...); err != nil { // two of one folder do not wait for each other
		t.Fatal(err)
	}
	write("as somebody else has written")
	if err := os.Remove(other); err != nil {
		t.Fatal(err)
	}
	if err := Write(files...); err == nil || !strings.Contains(err.Error(), "has changed since it was read") {
		t.Errorf("got %v", err)
	}
	if got, _ := os.ReadFile(list); string(got) != "as somebody else has written" {
		t.Errorf("it holds %q", got)
	}
	if left, _ := os.ReadDir(dir); len(left) != 1 {
		t.Errorf("there are %v", left)
	}
	if err := os.Remove(list); err != nil {
		t.Fatal(err)
	}
	if err := Write(files...); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("of a file that is gone: %v", err)
	}
}

func TestWhatIsNoFileIsNotReplaced(t *testing.T) {
	dir := t.TempDir()
	a, folder := filepath.Join(dir, "a"), filepath.Join(dir, "folder")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{folder, os.DevNull} {
		if err := Write(File{Path: a, Data: []byte("x")}, File{Path: path, Data: []byte("x")}); err == nil || !strings.Contains(err.Error(), "no file that could be replaced") {
			t.Errorf("%s: got %v", path, err)
		}
		if _, err := os.Stat(a); err == nil {
			t.Errorf("%s: the other file is written", path)
		}
	}
}
