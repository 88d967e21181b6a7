// Package whole writes files whole or not at all: into a temporary neighbour first, then flushed, then renamed into place.
//
// A program that is killed leaves every file as it was or as it was to be, and perhaps a neighbour whose name begins with a
// point and ends with a number; of several files some may then be old and others new.
package whole

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
)

// A File is what is to be written.
type File struct {
	Path string
	Data []byte
	// From are the bytes that the new ones were made of, where a file is replaced by what came of it: it must still hold them.
	// Nil asks nothing.
	From []byte
}

// disk is what is asked of the system; tests let it fail.
type disk interface {
	create(dir, pattern string) (temporary, error)
	rename(from, to string) error
}

type temporary interface {
	Name() string
	Write([]byte) (int, error)
	Chmod(fs.FileMode) error
	Sync() error
	Close() error
}

type system struct{}

func (system) create(dir, pattern string) (temporary, error) { return os.CreateTemp(dir, pattern) }
func (system) rename(from, to string) error                  { return os.Rename(from, to) }

// Write writes the files. Until every one of them stands complete beside its place, none is put there; should a rename fail
// all the same, those already renamed are whole, and the error names the rest. Existing files are replaced.
func Write(files ...File) error { return write(system{}, files) }

func write(d disk, files []File) (err error) {
	var staged []temporary
	defer func() {
		for _, temp := range staged {
			if e := os.Remove(temp.Name()); e != nil && !errors.Is(e, fs.ErrNotExist) {
				err = errors.Join(err, e)
			}
		}
	}()
	for _, f := range files {
		if info, err := os.Stat(f.Path); err == nil && !info.Mode().IsRegular() {
			return errors.Join(fmt.Errorf("%s is no file that could be replaced; name another one", f.Path), shut(staged))
		}
		temp, err := stage(d, f)
		if temp != nil {
			staged = append(staged, temp)
		}
		if err != nil {
			return errors.Join(err, shut(staged))
		}
	}
	if err := errors.Join(flush(staged), shut(staged)); err != nil {
		return err
	}
	if err := place(d, files, staged); err != nil {
		return err
	}
	settled := map[string]bool{}
	for _, f := range files {
		dir := filepath.Dir(f.Path)
		if settled[dir] {
			continue
		}
		if err := settle(dir); err != nil {
			return err
		}
		settled[dir] = true
	}
	return nil
}

// flush brings all files to the disk at the same time: it then waits once for what one after the other would wait for each time.
func flush(staged []temporary) error {
	faults := make([]error, len(staged))
	var flushing sync.WaitGroup
	for i, temp := range staged {
		flushing.Go(func() { faults[i] = temp.Sync() })
	}
	flushing.Wait()
	return errors.Join(faults...)
}

func shut(staged []temporary) error {
	var faults []error
	for _, temp := range staged {
		faults = append(faults, temp.Close())
	}
	return errors.Join(faults...)
}

// place renames what is staged. Programs that replace what they have read take turns at it.
func place(d disk, files []File, staged []temporary) error {
	held := map[string]bool{}
	for _, f := range files {
		if f.From == nil {
			continue
		}
		if dir := filepath.Dir(f.Path); !held[dir] {
			release, err := hold(dir)
			if err != nil {
				return err
			}
			defer release()
			held[dir] = true
		}
		if now, err := os.ReadFile(f.Path); err != nil {
			return err
		} else if !bytes.Equal(now, f.From) {
			return fmt.Errorf("%s has changed since it was read, and nothing is written; do it again", f.Path)
		}
	}
	for i, f := range files {
		if err := d.rename(staged[i].Name(), f.Path); err != nil {
			return errors.Join(err, fmt.Errorf("%s is not written", names(files[i:])))
		}
	}
	return nil
}

func names(files []File) string {
	var all []string
	for _, f := range files {
		all = append(all, f.Path)
	}
	return strings.Join(all, ", ")
}

// stage writes a file's bytes beside its place. What it has made it returns, with an error too.
func stage(d disk, f File) (temporary, error) {
	dir, base := filepath.Split(f.Path)
	if dir == "" {
		dir = "."
	}
	temp, err := d.create(dir, "."+base+".*")
	if err != nil {
		return nil, err
	}
	if _, err = temp.Write(f.Data); err == nil {
		err = temp.Chmod(mode(f.Path))
	}
	return temp, err
}

// mode is that of the file to be replaced, or what a new file is usually given.
func mode(path string) fs.FileMode {
	if info, err := os.Stat(path); err == nil {
		return info.Mode().Perm()
	}
	return 0o644
}

// settle flushes a folder, so that a rename outlives a power cut. Systems that cannot open folders do without.
func settle(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return nil
	}
	_ = d.Sync()
	return d.Close()
}
