package manifest_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/schemas"
)

// What is put in the place of every value of the example, one at a time.
var replacements = []string{`null`, `true`, `-1`, `1.5`, `100000000`, `""`, `"85 g"`, `"x y"`, `[]`, `["a", "a"]`, `{}`, `{"a": 1}`}

// Load tells everything that violates the published schema, in words of its own and at the same place; what the schema
// accepts, only a check of values and names refuses.
func TestSchemaAndLoadAgree(t *testing.T) {
	for text, violations := range variants(t) {
		_, err := manifest.Load(manifest.Source{Name: "f", Data: []byte(text)})
		var told diag.Problems
		if err != nil && !errors.As(err, &told) {
			t.Fatal(err)
		}
		for _, v := range violations {
			if !tells(t, text, told, v) {
				t.Errorf("Load has no words for %+v:\n%v", v, err)
			}
		}
		if err != nil && len(violations) == 0 && !onlyMeaning(err.Error()) {
			t.Errorf("the schema accepts what Load refuses:\n%v", err)
		}
	}
}

// tells reports whether one of the problems is at the place of a violation: at the key, the value, or one of a list's items.
func tells(t *testing.T, text string, told diag.Problems, v schemas.Violation) bool {
	tree, err := jsontree.Parse("f", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	places := []diag.Place{tree.PlaceOf(v.Pointer)}
	if n := tree.At(v.Pointer); n != nil && !v.Key {
		places = []diag.Place{n.Place()}
		for _, item := range n.Items {
			places = append(places, item.Place())
		}
	}
	return slices.ContainsFunc(told, func(p diag.Problem) bool {
		return slices.Contains(places, p.Place) && !strings.Contains(p.What, "does not fit the schema")
	})
}

// onlyMeaning reports whether all problems are of those that no schema can see.
func onlyMeaning(text string) bool {
	for line := range strings.Lines(text) {
		seen := false
		for _, words := range []string{"there is no part", "there is no rail", "there is no supplier", "has no facet", "add up to", "has two sources",
			"in a circle", "is too large; write at most", "is too small; write more than", "is too small; write at least", "runs backwards", "warmer than", "runs from",
			"is not a currency", "a second ", "pieces of the one", "stays on the ground", "are called", "on one rail"} {
			seen = seen || strings.Contains(line, words)
		}
		if !seen {
			return false
		}
	}
	return true
}

// variants makes the example with one value replaced, one key taken out or one misspelt, with what the schema says.
func variants(t *testing.T) map[string][]schemas.Violation {
	var root any
	numbers := json.NewDecoder(bytes.NewReader(full(t).Data))
	numbers.UseNumber()
	if err := numbers.Decode(&root); err != nil {
		t.Fatal(err)
	}
	all := map[string][]schemas.Violation{}
	turn := 0
	note := func() {
		text, err := json.Marshal(root)
		if err != nil {
			t.Fatal(err)
		}
		all[string(text)] = schemas.Validate("manifest", root)
	}
	var visit func(value any, set func(any))
	visit = func(value any, set func(any)) {
		for range 2 { // two of the replacements for each value, in turn
			var other any
			replacement := json.NewDecoder(strings.NewReader(replacements[turn%len(replacements)]))
			replacement.UseNumber()
			if err := replacement.Decode(&other); err != nil {
				t.Fatal(err)
			}
			turn++
			set(other)
			note()
		}
		set(value)
		switch v := value.(type) {
		case map[string]any:
			for _, key := range slices.Sorted(maps.Keys(v)) {
				inner := v[key]
				visit(inner, func(other any) { v[key] = other })
				delete(v, key)
				note()
				v[key+" q"] = inner
				note()
				delete(v, key+" q")
				v[key] = inner
			}
		case []any:
			for i, inner := range v {
				visit(inner, func(other any) { v[i] = other })
			}
		}
	}
	visit(root, func(any) {})
	if len(all) < 500 {
		t.Fatalf("only %d variants", len(all))
	}
	return all
}

func FuzzLoad(f *testing.F) {
	f.Add(full(f).Data, []byte(`{"parts": {"TX1": null}}`))
	f.Add([]byte(`{"format": "hoistbook-manifest/1", "kit": {"id": "a", "name": "a", "revision": "1.0.0"}, "parts": {"A": {"name": "a"}}}`), []byte(`{}`))
	f.Fuzz(func(t *testing.T, base, patch []byte) {
		m, err := manifest.Load(manifest.Source{Name: "base", Data: base}, manifest.Source{Name: "patch", Data: patch})
		if (m == nil) == (err == nil) {
			t.Fatalf("Load returns %v and %v", m, err)
		}
		if err != nil {
			if strings.Contains(err.Error(), "does not fit the schema") {
				t.Fatal(err)
			}
			return
		}
		again, err := manifest.Load(manifest.Source{Name: "again", Data: m.JSON()})
		if err != nil || again.Digest() != m.Digest() {
			t.Fatalf("the canonical form of a manifest is not the manifest: %v", err)
		}
	})
}
