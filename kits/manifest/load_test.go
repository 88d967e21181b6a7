package manifest_test

import (
	"os"
	"testing"

	"hoistbook/kits/manifest"
)

func read(t testing.TB, path string) manifest.Source {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return manifest.Source{Name: path, Data: text}
}

func load(t testing.TB, base manifest.Source, overlays ...manifest.Source) *manifest.Manifest {
	t.Helper()
	m, err := manifest.Load(base, overlays...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestFullLoads(t *testing.T) {
	load(t, read(t, "testdata/full.json"))
}
