//go:build unix

package main

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
)

// Two deliveries that are put on one shelf at the same moment: the second is refused, or comes on top of the first.
func TestTwoDeliveriesOnOneShelf(t *testing.T) {
	rounds := 4
	if os.Getenv("CI") != "" {
		rounds = 25
	}
	after := map[string]string{} // the shelf after a delivery for so many kits
	order := func(dir, kits string) error {
		c := exec.Command("hoistbook", "order", "demo:fen-relay", "--kits", kits, "--stock", "shelf.csv", "--receive", "shelf.csv", "--in-place")
		c.Dir = dir
		out, err := c.CombinedOutput()
		if err != nil && (c.ProcessState.ExitCode() != 2 || !strings.Contains(string(out), "has changed since it was read")) {
			t.Errorf("%v\n%s", err, out)
		}
		return err
	}
	shelf := func() string {
		dir := t.TempDir()
		put(t, dir, "shelf.csv", "reference,quantity\n")
		return dir
	}
	read := func(dir string) string {
		files, beside := held(t, dir)
		if len(files) != 1 || beside != 0 {
			t.Errorf("there are %d files and %d beside them", len(files), beside)
		}
		return files["shelf.csv"]
	}
	for _, kits := range []string{"3", "5"} {
		dir := shelf()
		if err := order(dir, kits); err != nil {
			t.Fatal(err)
		}
		after[kits] = read(dir)
	}
	refused := 0
	for range rounds {
		dir := shelf()
		done := map[string]error{}
		var both sync.WaitGroup
		var lock sync.Mutex
		for _, kits := range []string{"3", "5"} {
			both.Go(func() {
				err := order(dir, kits)
				lock.Lock()
				done[kits] = err
				lock.Unlock()
			})
		}
		both.Wait()
		got := read(dir)
		switch {
		case done["3"] != nil && done["5"] != nil:
			t.Error("both are refused")
		case done["5"] == nil: // alone, or with that for three before it or, as nothing was missing any more, after it
			if got != after["5"] {
				t.Errorf("after deliveries for 3 kits (%v) and 5 the shelf holds\n%s", done["3"], got)
			}
		case got != after["3"]:
			t.Errorf("after a delivery for 3 kits the shelf holds\n%s", got)
		}
		if done["3"] != nil || done["5"] != nil {
			refused++
		}
	}
	t.Logf("%d of %d times the second was refused", refused, rounds)
}

// Two crews print into one folder at the same moment: every file is whole, and of one of the two.
func TestTwoBooksInOneFolder(t *testing.T) {
	a := staged(t, jobs[0])
	dir := t.TempDir()
	put(t, dir, "older.json", a.old["older.json"])
	var both sync.WaitGroup
	for _, more := range [][]string{nil, {"--with", "older.json"}} {
		both.Go(func() {
			c := exec.Command("hoistbook", append([]string{"book", "demo:fen-relay", "-o", "."}, more...)...)
			c.Dir = dir
			if out, err := c.CombinedOutput(); err != nil {
				t.Errorf("%v\n%s", err, out)
			}
		})
	}
	both.Wait()
	got, beside := held(t, dir)
	if len(got) != len(a.new) || beside > 0 {
		t.Errorf("there are %d files and %d beside them, want %d", len(got), beside, len(a.new))
	}
	for name, text := range got {
		if text != a.old[name] && text != a.new[name] {
			t.Errorf("%s is of neither", name)
		}
	}
}

// What cannot be printed is told, whatever was to be printed: a verdict that nobody reads is none.
func TestNobodyReads(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip(err)
	}
	defer full.Close()
	dir := t.TempDir()
	hoistbook(t, dir, "", "book", "-o", ".")
	hoistbook(t, dir, "", "extract", "book.pdf", "-o", "ours.json")
	hoistbook(t, dir, "Ada\n\n", "walk", "recovery", "--log", "home.jsonl")
	for _, line := range []string{
		"check", "check --json", "check .", "explain lift.gross_kg", "size", "compare demo:fen-relay demo:marsh-data", "order", "order --json", "schema report", "licences",
		"--help", "order --help", "--version", "book -o other", "extract book.pdf", "extract book.pdf -o kit.json", "verify book.pdf", "record home.jsonl", "new their --name A --maintainer B", "completion bash",
		"weigh --serial 1 BAT1=300g -o as-built.json",
	} {
		c := exec.Command("hoistbook", strings.Fields(line)...)
		c.Dir, c.Stdout = dir, full
		var errs bytes.Buffer
		c.Stderr = &errs
		_ = c.Run()
		if status := c.ProcessState.ExitCode(); status != 2 || !strings.Contains(errs.String(), "no space left on device") {
			t.Errorf("%s: it ends with %d and says %q", line, status, errs.String())
		}
	}
}
