package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// leaves may be imported from anywhere, and import only each other.
var leaves = []string{"kits/unit", "kits/diag", "kits/source", "kits/fact", "kits/jsontree"}

// house says what of ours each room may import. A name that ends in /… stands for everything under it.
var house = []struct {
	room string
	may  []string
}{
	{"schemas", nil},
	{"kits/unit", nil}, {"kits/diag", nil}, {"kits/source", nil},
	{"kits/fact", []string{"kits/unit"}}, {"kits/jsontree", []string{"kits/unit", "kits/diag"}},
	{"kits/manifest", append([]string{"schemas"}, leaves...)},
	{"kits/air", leaves}, {"kits/lift", leaves}, {"kits/tether", leaves}, {"kits/power", leaves}, {"kits/radio", leaves},
	{"kits/cost", leaves}, {"kits/plan", leaves}, {"kits/stock", leaves},
	{"kits/internal/…", leaves},
	{"kits", []string{"kits/…"}},
	{"rules/packs", append([]string{"rules"}, leaves...)},
	{"rules", append([]string{"schemas"}, leaves...)},
	{"render/page", nil},
	{"render/pdf", []string{"render/page", "render/pdf/…"}},
	{"render/internal/…", []string{"render/…"}},
	{"render/…", append([]string{"kits", "kits/…", "rules", "rules/…", "render/…"}, leaves...)},
	{"cmd/…", []string{"…"}},
}

func TestImportsKeepTheHouse(t *testing.T) {
	top := root()
	seen := map[string]bool{}
	err := filepath.WalkDir(top, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := entry.Name()
		if entry.IsDir() && path != top && (strings.HasPrefix(name, ".") || name == "testdata") {
			return filepath.SkipDir
		}
		if entry.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		dir, err := filepath.Rel(top, filepath.Dir(path))
		if err != nil {
			return err
		}
		room := filepath.ToSlash(dir)
		seen[room] = true
		checkRoom(t, path, room)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(seen) < 15 {
		t.Errorf("only %d rooms were found: the walk went astray", len(seen))
	}
}

func checkRoom(t *testing.T, path, room string) {
	t.Helper()
	at := slices.IndexFunc(house, func(h struct {
		room string
		may  []string
	}) bool {
		return covers(h.room, room)
	})
	if at < 0 {
		t.Errorf("%s: the house has no room %q", path, room)
		return
	}
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
	if err != nil {
		t.Error(err)
		return
	}
	for _, spec := range file.Imports {
		imported, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			t.Error(err)
			continue
		}
		if ours, ok := strings.CutPrefix(imported, "hoistbook/"); ok && !slices.ContainsFunc(house[at].may, func(may string) bool { return covers(may, ours) }) {
			t.Errorf("%s: %s may not import %s", path, room, ours)
		}
	}
}

func covers(pattern, room string) bool {
	prefix, wide := strings.CutSuffix(pattern, "…")
	return wide && strings.HasPrefix(room+"/", prefix) || pattern == room
}

func TestTopLevelIsFixed(t *testing.T) {
	fixed := []string{"kits", "rules", "render", "cmd", "schemas", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md"}
	made := []string{"hoistbook", "kit-book"} // what the README's commands leave here, and git ignores
	entries, err := filepath.Glob(filepath.Join(root(), "[^.]*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if name := filepath.Base(e); !slices.Contains(fixed, name) && !slices.Contains(made, name) {
			t.Errorf("%q stands at the top level, where only %v may", name, fixed)
		}
	}
}
