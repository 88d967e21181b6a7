package main

import (
	"os"
	"path/filepath"
	"testing"
)

func TestBenchReadsWhatGoTestPrints(t *testing.T) {
	m := measurement{rows: map[string]string{"parts=": "%s parts", "help": "help"}, floor: "floor"}
	rows, err := m.read("goos: linux\nBenchmarkX/parts=10-2         \t       2\t 516643574 ns/op\t         5.99 %saved\t         0.32 ms-floor\t        99.85 ms-ours\nBenchmarkX/help \t 1\t 5 ns/op\t 4 ms-floor\t 6 ms-ours\nPASS\n")
	if err != nil || len(rows) != 2 {
		t.Fatal(rows, err)
	}
	for i, want := range []string{"| 10 parts | 99.8 | floor | 0.32 | 312 | 6.0 % cheaper |", "| help | 6 | floor | 4 | 1.5 |  |"} {
		if got := rows[i].String(); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
	for _, wrong := range []string{"PASS\n", "BenchmarkX/other-2 \t 1\t 5 ns/op\t 4 ms-floor\t 6 ms-ours\n", "BenchmarkX/help-2 \t 1\t 5 ns/op\t 6 ms-ours\n"} {
		if rows, err := m.read(wrong); err == nil {
			t.Errorf("%q: got %v", wrong, rows)
		}
	}
}

// The guide has a place for the table, and every benchmark that stands in it is there.
func TestTheTableOfBenchmarksHasItsPlace(t *testing.T) {
	file := filepath.Join(t.TempDir(), "guide.md")
	data, err := os.ReadFile(filepath.Join(root(), "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := writeBetween(file, "bench", "the table\n"); err != nil {
			t.Fatal(err)
		}
	}
	if err := writeBetween(file, "nothing", ""); err == nil {
		t.Error("a place that is not there is found")
	}
	for _, m := range measurements {
		if found, err := filepath.Glob(filepath.Join(root(), m.dir, "*bench_test.go")); err != nil || len(found) == 0 {
			t.Errorf("%s has no benchmarks", m.dir)
		}
	}
}
