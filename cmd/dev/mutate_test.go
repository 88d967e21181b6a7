package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// writeModule makes a module of one package in a temporary folder.
func writeModule(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

const changed = `package p

const limit = 2.5

var table = []int{1, 2}

type box struct{ n int }

func (b box) over(_ string, more ...int) (yes bool, err error) {
	total := b.n
	for i := range more {
		total += more[i]
	}
	total = total - 1
	return float64(total) > limit && !b.empty(), nil
}

func (box) empty() bool {
	return min(1, 2) == 3
}

func reset(b *box) {
	if b.n < 0 {
		b.n++
	}
	switch b.n {
	case 4:
		b.n = -1
	}
}
`

// Every kind of change is found, and what it does and undoes leaves the code as it was.
func TestPoints(t *testing.T) {
	dir := writeModule(t, map[string]string{"go.mod": "module m\n\ngo 1.26\n", "p/p.go": changed})
	s, err := readSubject(dir, "p")
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, m := range s.mutants {
		found = append(found, m.what)
		text, err := s.alone(m)
		if err != nil {
			t.Fatal(err)
		}
		again, err := s.alone(&mutant{file: m.file, do: func() {}, undo: func() {}})
		if err != nil || string(again) != changed {
			t.Fatalf("%s: the code is not what it was:\n%s", m, again)
		}
		if string(text) == changed {
			t.Errorf("%s: nothing has changed", m)
		}
	}
	for _, want := range []string{
		"2.5 becomes 2.525", "1 becomes 2", "+= becomes -=", "- becomes +", "the statement is left out", "> becomes >=", "&& becomes ||",
		"! is left out", "result 1 is zero", "min becomes max", "== becomes !=", "the condition always holds", "the condition never holds",
		"< becomes <=", "++ becomes --", "the case does nothing",
	} {
		if !slices.Contains(found, want) {
			t.Errorf("no change %q among %q", want, found)
		}
	}
}

// What is drawn is the same each time, and in the order of the code.
func TestDraw(t *testing.T) {
	dir := writeModule(t, map[string]string{"go.mod": "module m\n\ngo 1.26\n", "p/p.go": changed})
	drawn := func(n int) (ids []int) {
		s, err := readSubject(dir, "p")
		if err != nil {
			t.Fatal(err)
		}
		s.draw(n)
		for _, m := range s.mutants {
			ids = append(ids, m.id)
		}
		return ids
	}
	all := drawn(0)
	if some := drawn(7); len(some) != 7 || !slices.IsSorted(some) || !slices.Equal(some, drawn(7)) || slices.Equal(some, all[:7]) {
		t.Errorf("7 of %v are %v", all, some)
	}
	if more := drawn(len(all) + 1); !slices.Equal(more, all) {
		t.Errorf("more than there are: %v", more)
	}
}

// A package with a test that looks at half of it: what the test looks at is killed, the rest is told, and what does not
// compile is not counted.
func TestMutate(t *testing.T) {
	dir := writeModule(t, map[string]string{
		"go.mod":      "module m\n\ngo 1.26\n",
		"p/p.go":      "package p\n\nconst step = 2\n\nfunc add(a, _ int) int { return a + step }\n\nfunc unseen(s string) string { return s + \"x\" }\n",
		"p/p_test.go": "package p\n\nimport \"testing\"\n\nfunc TestAdd(t *testing.T) {\n\tif add(3, 0) != 5 {\n\t\tt.Error(add(3, 0))\n\t}\n}\n",
	})
	s, err := readSubject(dir, "p")
	if err != nil {
		t.Fatal(err)
	}
	got, err := s.run()
	if err != nil {
		t.Fatal(err)
	}
	// Killed: the constant, + and the result of add. Alive: the result of unseen; its + does not compile as a -.
	if got.killed != 3 || len(got.survivors) != 1 || !strings.Contains(got.survivors[0].String(), "p/p.go:7:") || got.share() != 0.75 {
		t.Errorf("%s, alive %v", got, got.survivors)
	}
}
