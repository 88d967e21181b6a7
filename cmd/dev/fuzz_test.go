package main

import (
	"slices"
	"testing"
)

// Every target that is named for a kind of input is there, and every one that is there is named.
func TestWhateverComesFromStrangersIsFuzzed(t *testing.T) {
	found, err := fuzzTargets(root())
	if err != nil {
		t.Fatal(err)
	}
	named := map[fuzzTarget]bool{}
	for kind, targets := range strangers {
		for _, target := range targets {
			named[target] = true
			if !slices.Contains(found, target) {
				t.Errorf("%s: there is no %s in %s", kind, target.name, target.dir)
			}
		}
	}
	for _, target := range found {
		if !named[target] {
			t.Errorf("%s in %s is named for no kind of input", target.name, target.dir)
		}
	}
	for _, kind := range []string{"quantities", "manifests", "overlays", "packs", "stock files", "records", "PDFs in"} {
		if len(strangers[kind]) == 0 {
			t.Errorf("nothing is named for %s", kind)
		}
	}
}

func TestLastFuzzLine(t *testing.T) {
	out := "fuzz: elapsed: 0s, gathering baseline coverage: 0/2 completed\nfuzz: elapsed: 1s, execs: 200 (150/sec), new interesting: 3 (total: 5)\nPASS\nok\n"
	if got := lastFuzzLine(out); got != "  elapsed: 1s, execs: 200 (150/sec), new interesting: 3 (total: 5)" {
		t.Errorf("got %q", got)
	}
}
