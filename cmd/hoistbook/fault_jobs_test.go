//go:build unix

package main

import (
	"crypto/ed25519"
	"encoding/pem"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/crypto/ssh"
)

// A job is a command that writes files, mostly in the place of others.
type job struct {
	name   string
	args   []string
	before func(t *testing.T, dir string) // puts there what the command reads and what it replaces
}

var jobs = []job{
	{"book", []string{"book", "demo:fen-relay", "-o", "."}, func(t *testing.T, dir string) {
		hoistbook(t, dir, "", "book", "demo:fen-relay", "--with", put(t, dir, "older.json", `{"kit": {"revision": "1.0.0"}}`), "-o", ".")
	}},
	{"order", []string{"order", "demo:fen-relay", "--kits", "3", "--stock", "shelf.csv", "--receive", "shelf.csv", "--in-place", "-o", "o.pdf", "-o", "o.xlsx", "-o", "o.csv"}, func(t *testing.T, dir string) {
		put(t, dir, "shelf.csv", "reference,quantity\nBAT1,1\n")
		hoistbook(t, dir, "", "order", "demo:fen-relay", "--kits", "1", "-o", "o.pdf", "-o", "o.xlsx", "-o", "o.csv")
	}},
	{"record", []string{"record", "home.jsonl", "-o", "home.pdf", "--stock", "after.csv"}, func(t *testing.T, dir string) {
		hoistbook(t, dir, "Ada\n\ncount ANC1 1\ncount LMP1 2\n", "walk", "recovery", "--log", "home.jsonl")
		put(t, dir, "home.pdf", "what stood there before")
		put(t, dir, "after.csv", "reference,quantity\n")
	}},
	{"weigh", []string{"weigh", "demo:fen-relay", "--serial", "0001", "BAT1=302g", "-o", "as-built.json"}, func(t *testing.T, dir string) {
		hoistbook(t, dir, "", "weigh", "demo:fen-relay", "--serial", "0001", "BAT1=301g", "-o", "as-built.json")
	}},
	{"sign", []string{"sign", "ours.json", "theirs.json", "--key", "key"}, func(t *testing.T, dir string) {
		seed := make([]byte, ed25519.SeedSize)
		block, err := ssh.MarshalPrivateKey(ed25519.NewKeyFromSeed(seed), "")
		if err != nil {
			t.Fatal(err)
		}
		put(t, dir, "key", string(pem.EncodeToMemory(block)))
		for _, name := range []string{"ours.json", "theirs.json"} {
			put(t, dir, name, `{"parts": {"BAT1": {"mass": "320 g"}}}`)
			put(t, dir, name+".sig", "what stood there before")
		}
	}},
	{"new", []string{"new", "ours", "--name", "Our relay", "--maintainer", "Our club"}, nil},
	{"extract", []string{"extract", "bill-of-materials.pdf", "-o", "kit.json"}, func(t *testing.T, dir string) {
		hoistbook(t, dir, "", "book", "demo:fen-relay", "-o", ".")
		put(t, dir, "kit.json", "what stood there before")
	}},
	{"compare", []string{"compare", "demo:fen-relay", "changed.json", "-o", "sheet.pdf"}, func(t *testing.T, dir string) {
		put(t, dir, "changed.json", `{"parts": {"BAT1": {"mass": "320 g"}}}`)
		put(t, dir, "sheet.pdf", "what stood there before")
	}},
}

// hoistbook runs the program in a folder to its end. It may judge what it reads, and not find it unusable.
func hoistbook(t *testing.T, dir, typed string, args ...string) {
	t.Helper()
	c := exec.Command("hoistbook", args...)
	c.Dir, c.Stdin = dir, strings.NewReader(typed)
	if out, err := c.CombinedOutput(); err != nil && c.ProcessState.ExitCode() != 1 {
		t.Fatalf("%q: %v\n%s", args, err, out)
	}
}

func put(t *testing.T, dir, name, text string) string {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// held are the files below a folder, and how many others a killed program has left beside them.
func held(t *testing.T, dir string) (files map[string]string, beside int) {
	t.Helper()
	files = map[string]string{}
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		if strings.HasPrefix(entry.Name(), ".") {
			beside++
			return nil
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		files[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files, beside
}

// A stage is a job with what its folder holds before it and after it.
type stage struct {
	job
	old, new map[string]string
}

func staged(t *testing.T, j job) stage {
	t.Helper()
	dir := t.TempDir()
	s := stage{job: j}
	if j.before != nil {
		j.before(t, dir)
	}
	s.old, _ = held(t, dir)
	hoistbook(t, dir, "", j.args...)
	s.new, _ = held(t, dir)
	if fmt.Sprint(s.old) == fmt.Sprint(s.new) {
		t.Fatalf("%s changes nothing", j.name)
	}
	return s
}

// fresh is a new folder as it is before the job.
func (s stage) fresh(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range s.old {
		put(t, dir, name, text)
	}
	return dir
}

// untouched holds a folder against what it was.
func (s stage) untouched(t *testing.T, dir, why string) {
	t.Helper()
	got, beside := held(t, dir)
	if beside > 0 {
		t.Errorf("%s: %d files are left beside the others", why, beside)
	}
	for name := range got {
		if got[name] != s.old[name] {
			t.Errorf("%s: %s is not what it was", why, name)
		}
	}
	if len(got) != len(s.old) {
		t.Errorf("%s: there are %d files, and there were %d", why, len(got), len(s.old))
	}
}
