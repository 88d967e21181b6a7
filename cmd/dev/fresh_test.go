package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

func TestGeneratedTypesAreFresh(t *testing.T) {
	want, err := unitSource()
	if err != nil {
		t.Fatal(err)
	}
	fresh(t, "kits/unit/types_gen.go", want)
}

func TestGeneratedSchemasAreFresh(t *testing.T) {
	for _, p := range publications {
		files, err := p.files(root())
		if err != nil {
			t.Fatal(err)
		}
		for name, want := range files {
			fresh(t, name, want)
		}
	}
}

func TestNoSchemaIsLeftOver(t *testing.T) {
	known := map[string]bool{}
	for _, p := range publications {
		known[p.name+".schema.json"], known[filepath.Join("lean", p.name+".json")] = true, true
	}
	for _, pattern := range []string{"*.json", "lean/*.json"} {
		found, err := filepath.Glob(filepath.Join(root(), "schemas", pattern))
		if err != nil || len(found) == 0 {
			t.Fatalf("%s: %d files, %v", pattern, len(found), err)
		}
		for _, path := range found {
			name, err := filepath.Rel(filepath.Join(root(), "schemas"), path)
			if err != nil || !known[name] {
				t.Errorf("nothing makes schemas/%s", name)
			}
		}
	}
}

// fresh compares a file of the module with what its generator makes now.
func fresh(t *testing.T, name string, want []byte) {
	t.Helper()
	got, err := os.ReadFile(filepath.Join(root(), name))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is stale: run go run ./cmd/dev", name)
	}
}
