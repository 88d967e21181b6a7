// Package whole writes files whole or not at all: into a temporary neighbour first, then flushed, then renamed into place.
package whole

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// A File is what is to be written.
type File struct {
	Path string
	Data []byte
}

// Write writes the files. Until every one of them stands complete beside its place, none is put there; should a rename fail
// all the same, those already renamed are whole, and the error names the rest. Existing files are replaced.
func Write(files ...File) (err error) {
	var staged []string
	defer func() {
		for _, name := range staged {
			if e := os.Remove(name); e != nil && !errors.Is(e, fs.ErrNotExist) {
				err = errors.Join(err, e)
			}
		}
	}()
	for _, f := range files {
		name, err := stage(f)
		if name != "" {
			staged = append(staged, name)
		}
		if err != nil {
			return err
		}
	}
	for i, f := range files {
		if err := os.Rename(staged[i], f.Path); err != nil {
			return err
		}
	}
	for _, f := range files {
		if err := settle(filepath.Dir(f.Path)); err != nil {
			return err
		}
	}
	return nil
}

// stage writes a file's bytes beside its place and flushes them to the disk.
func stage(f File) (name string, err error) {
	dir, base := filepath.Split(f.Path)
	if dir == "" {
		dir = "."
	}
	temp, err := os.CreateTemp(dir, "."+base+".*")
	if err != nil {
		return "", err
	}
	_, err = temp.Write(f.Data)
	if err == nil {
		err = temp.Chmod(mode(f.Path))
	}
	if err == nil {
		err = temp.Sync()
	}
	return temp.Name(), errors.Join(err, temp.Close())
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
