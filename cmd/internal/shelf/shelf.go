// Package shelf checks all kits in a folder. As many are under way as there are cores, results come in the order of the names, and no
// more than a few are held at a time: a shelf of ten thousand kits takes the memory of one of a hundred, but for the names.
package shelf

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
)

const suffix = ".json"

// Each hands every JSON file in the folders and among the files to work, side by side, and what comes of it to take, in the order of the
// names. Folders whose names begin with a dot are left out, and links to folders are not followed. The first error of take
// or of the walk ends it.
func Each[T any](names []string, work func(path string) T, take func(T) error) error {
	workers := runtime.GOMAXPROCS(0)
	type job struct {
		path string
		done chan T
	}
	jobs := make(chan job)
	order := make(chan chan T, 4*workers) // how many results may wait for an earlier one
	stop := make(chan struct{})
	var walked error
	go func() {
		defer close(order)
		defer close(jobs)
		walked = walk(names, func(path string) bool {
			j := job{path, make(chan T, 1)}
			select {
			case order <- j.done:
			case <-stop:
				return false
			}
			select {
			case jobs <- j:
				return true
			case <-stop:
				close(j.done)
				return false
			}
		})
	}()
	var working sync.WaitGroup
	for range workers {
		working.Go(func() {
			for j := range jobs {
				j.done <- work(j.path)
			}
		})
	}
	var failed error
	for done := range order {
		if failed == nil {
			if failed = take(<-done); failed != nil {
				close(stop)
			}
		}
	}
	working.Wait()
	if failed != nil {
		return failed
	}
	return walked
}

// walk visits the JSON files until visit has had enough.
func walk(names []string, visit func(path string) bool) error {
	for _, name := range names {
		info, err := os.Stat(name)
		if err != nil {
			return err
		}
		if !info.IsDir() {
			if !visit(name) {
				return nil
			}
			continue
		}
		err = filepath.WalkDir(name, func(path string, entry fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case entry.IsDir() && path != name && strings.HasPrefix(entry.Name(), "."):
				return filepath.SkipDir
			case entry.IsDir() || !strings.EqualFold(filepath.Ext(path), suffix):
				return nil
			case !visit(path):
				return filepath.SkipAll
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}
