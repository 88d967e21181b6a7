package manifest_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hoistbook/kits/manifest"
)

var update = flag.Bool("update", false, "write what is printed now into the .want files")

// Each wrong/NAME.json, with the overlay NAME.with.json where there is one, prints what NAME.want says.
func TestWrongManifests(t *testing.T) {
	paths, err := filepath.Glob("testdata/wrong/*.json")
	if err != nil || len(paths) < 30 {
		t.Fatalf("%d wrong manifests, %v", len(paths), err)
	}
	for _, path := range paths {
		if strings.HasSuffix(path, ".with.json") {
			continue
		}
		name := strings.TrimSuffix(filepath.Base(path), ".json")
		t.Run(name, func(t *testing.T) {
			var overlays []manifest.Source
			if _, err := os.Stat("testdata/wrong/" + name + ".with.json"); err == nil {
				overlays = append(overlays, source(t, name+".with.json"))
			}
			m, err := manifest.Load(source(t, name+".json"), overlays...)
			if err == nil || m != nil {
				t.Fatal("nothing is said")
			}
			golden(t, "testdata/wrong/"+name+".want", err.Error()+"\n")
		})
	}
}

func source(t *testing.T, name string) manifest.Source {
	s := read(t, "testdata/wrong/"+name)
	s.Name = name
	return s
}

func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

func TestEveryGoldenIsUsed(t *testing.T) {
	for _, suffix := range []string{".want", ".with.json"} {
		paths, err := filepath.Glob("testdata/wrong/*" + suffix)
		if err != nil || len(paths) == 0 {
			t.Fatalf("*%s: %d files, %v", suffix, len(paths), err)
		}
		for _, path := range paths {
			if _, err := os.Stat(strings.TrimSuffix(path, suffix) + ".json"); err != nil {
				t.Errorf("%s belongs to nothing", path)
			}
		}
	}
}
