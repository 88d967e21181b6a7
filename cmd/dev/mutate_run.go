package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"sync"
	"time"
)

// command runs gently: the machine is shared, and a change may ask for memory and for work without end. work is in seconds of
// processor time, which no other load changes; 0 is without a limit.
func command(ctx context.Context, dir string, work int, args ...string) *exec.Cmd {
	limits := "ulimit -v 8000000; "
	if work > 0 {
		limits += fmt.Sprintf("ulimit -t %d; ", work)
	}
	c := exec.CommandContext(ctx, "nice", append([]string{"-n", "10", "sh", "-c", limits + `exec "$@"`, "sh"}, args...)...)
	c.Dir = dir
	c.WaitDelay = time.Second
	return c
}

// run tries every mutant and says what became of it.
func (s *subject) run() (tally, error) {
	work, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return tally{}, err
	}
	defer os.RemoveAll(work)

	var inside, outside []*mutant
	for _, m := range s.mutants {
		if m.in != nil {
			inside = append(inside, m)
		} else {
			outside = append(outside, m)
		}
	}
	binary := filepath.Join(work, "all.test")
	inside, err = s.compileAll(work, binary, inside)
	if err != nil {
		return tally{}, err
	}
	failed, took := s.test(binary, 0, 0)
	if failed {
		return tally{}, errors.New("the tests fail without any change")
	}
	most := 3 + int(10*took.Seconds())

	killed := map[int]bool{}
	var lock sync.Mutex
	each(inside, func(m *mutant) {
		dead, _ := s.test(binary, m.id, most)
		lock.Lock()
		killed[m.id] = dead
		lock.Unlock()
	})
	each(outside, func(m *mutant) {
		one := filepath.Join(work, fmt.Sprintf("mutant%d.test", m.id))
		lock.Lock() // printing changes the tree for a moment
		text, err := s.alone(m)
		lock.Unlock()
		if err != nil || s.compile(work, one, map[string][]byte{m.file.name: text}) != "" {
			return
		}
		dead, _ := s.test(one, 0, most)
		os.Remove(one)
		lock.Lock()
		killed[m.id] = dead
		lock.Unlock()
	})
	return tallied(s.mutants, killed), nil
}

// each calls do for every mutant, on every core.
func each(mutants []*mutant, do func(*mutant)) {
	queue := make(chan *mutant)
	var wait sync.WaitGroup
	for range runtime.NumCPU() {
		wait.Go(func() {
			for m := range queue {
				do(m)
			}
		})
	}
	for _, m := range mutants {
		queue <- m
	}
	close(queue)
	wait.Wait()
}

var blamed = regexp.MustCompile(`mutant(\d+)\.go:\d+`)

// compileAll compiles the test binary with all mutants in it, and drops those that the compiler refuses.
func (s *subject) compileAll(work, binary string, mutants []*mutant) ([]*mutant, error) {
	for {
		overlay := map[string][]byte{s.dir + "/mutant_switch.go": fmt.Appendf(nil, switchFile, s.files[0].tree.Name.Name)}
		for _, file := range s.files {
			text, err := s.withMutants(file, mutants)
			if err != nil {
				return nil, err
			}
			overlay[file.name] = text
		}
		said := s.compile(work, binary, overlay)
		if said == "" {
			return mutants, nil
		}
		refused := map[int]bool{}
		for _, m := range blamed.FindAllStringSubmatch(said, -1) {
			id, _ := strconv.Atoi(m[1])
			refused[id] = true
		}
		if len(refused) == 0 {
			return nil, errors.New(said)
		}
		var left []*mutant
		for _, m := range mutants {
			if !refused[m.id] {
				left = append(left, m)
			}
		}
		mutants = left
	}
}

// compile makes a test binary of the package with some of its files replaced, and returns what the compiler says.
func (s *subject) compile(work, binary string, files map[string][]byte) string {
	dir, err := os.MkdirTemp(work, "overlay")
	if err != nil {
		return err.Error()
	}
	defer os.RemoveAll(dir)
	replace := map[string]string{}
	for name, text := range files {
		copied := filepath.Join(dir, filepath.Base(name))
		if err := os.WriteFile(copied, text, 0o644); err != nil {
			return err.Error()
		}
		replace[filepath.Join(s.root, name)] = copied
	}
	list, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return err.Error()
	}
	overlay := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(overlay, list, 0o644); err != nil {
		return err.Error()
	}
	out, err := command(context.Background(), s.root, 0, "go", "test", "-c", "-gcflags=-e", "-overlay", overlay, "-o", binary, "./"+s.dir).CombinedOutput()
	if err != nil {
		return err.Error() + "\n" + string(out)
	}
	return ""
}

// test runs a test binary with a mutant switched on and reports whether it failed, and how long processors worked. Who works
// for longer than work, in seconds, has failed; one that waits for ever is given an hour. The properties get the same random
// input each time, so that a share can be compared with the last one.
func (s *subject) test(binary string, id, work int) (failed bool, took time.Duration) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Hour)
	defer cancel()
	args := []string{binary, "-test.failfast", "-test.short"}
	if bytes.Contains(s.readTests(), []byte(`"pgregory.net/rapid"`)) {
		args = append(args, "-rapid.seed=1", "-rapid.nofailfile", "-rapid.checks=500") // of which short tests make a fifth
	}
	c := command(ctx, filepath.Join(s.root, s.dir), work, args...)
	c.Env = append(os.Environ(), "MUTANT="+strconv.Itoa(id))
	failed = c.Run() != nil
	if c.ProcessState == nil { // it has not even begun
		return failed, 0
	}
	return failed, c.ProcessState.UserTime() + c.ProcessState.SystemTime()
}

// readTests is the text of the package's tests.
func (s *subject) readTests() []byte {
	var all []byte
	found, _ := filepath.Glob(filepath.Join(s.root, s.dir, "*_test.go"))
	for _, name := range found {
		text, _ := os.ReadFile(name)
		all = append(all, text...)
	}
	return all
}
