package schemas

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func TestEverySchemaIsPublishedAndCompiles(t *testing.T) {
	names := Names()
	if !slices.Contains(names, "manifest") || !slices.IsSorted(names) {
		t.Fatalf("the names are %q", names)
	}
	for _, name := range names {
		text, ok := Text(name)
		if !ok {
			t.Errorf("%s has a lean form and is not published", name)
			continue
		}
		compileText(home+name+suffix, text)
		compiled(name)
		for _, word := range []string{`"https://json-schema.org/draft/2020-12/schema"`, `"` + home + name + suffix + `"`} {
			if !strings.Contains(string(text), word) {
				t.Errorf("%s does not say %s", name, word)
			}
		}
	}
	if _, ok := Text("nothing"); ok {
		t.Error("there is a schema of nothing")
	}
}

// The lean form in draft-07 and the published one in 2020-12 must refuse the same files.
func TestLeanAndPublishedAgree(t *testing.T) {
	text, _ := Text("manifest")
	published := compileText(home+"manifest"+suffix, text)
	lean := compiled("manifest")
	paths, err := filepath.Glob("../kits/manifest/testdata/wrong/*.json")
	if err != nil || len(paths) < 30 {
		t.Fatalf("%d files, %v", len(paths), err)
	}
	refused := 0
	for _, path := range append(paths, "../kits/manifest/testdata/full.json") {
		value, err := decode(t, path)
		if err != nil {
			continue // broken grammar is no matter of schemas
		}
		one, other := published.Validate(value), lean.Validate(value)
		if (one == nil) != (other == nil) {
			t.Errorf("%s: the published schema says %v, the lean one %v", path, one, other)
		}
		if one != nil {
			refused++
		}
	}
	if refused < 20 {
		t.Errorf("only %d files were refused", refused)
	}
}

func decode(t *testing.T, path string) (value any, err error) {
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	err = decoder.Decode(&value)
	return value, err
}

func TestViolationsPointAtWhatIsWrong(t *testing.T) {
	part := func(rest string) string {
		return `{"format": "hoistbook-manifest/1", "kit": {"id": "a", "name": "a", "revision": "1.0.0"}, "parts": ` + rest + `}`
	}
	for text, want := range map[string][]Violation{
		part(`{"A": {"name": "a", "x-b/c": 1}, "x-~": {}}`): nil,
		part(`{"A": {"name": "a", "mass": "85 m"}}`):        {{"/parts/A/mass", false, "pattern", "/$defs/mass/pattern"}},
		part(`{"A": {"name": "a", "b/c": 1, "d": 2}}`): {
			{"/parts/A/b~1c", true, "additionalProperties", "/$defs/part/additionalProperties"},
			{"/parts/A/d", true, "additionalProperties", "/$defs/part/additionalProperties"}},
		part(`{"A 1~": {"name": "a"}}`): {{"/parts/A 1~0", true, "pattern", "/$defs/part-map/propertyNames/pattern"}},
		part(`{"A": {}, "B": 3}`): {
			{"/parts/A", false, "required", "/$defs/part/required"},
			{"/parts/B", false, "type", "/$defs/part/type"}},
		part(`{"A": {"name": "a", "offers": [{"supplier": "S", "price": "1", "pack": 0}]}}`): {
			{"/parts/A/offers/0/pack", false, "minimum", "/$defs/offer/properties/pack/minimum"}},
	} {
		decoder := json.NewDecoder(strings.NewReader(text))
		decoder.UseNumber()
		var value any
		if err := decoder.Decode(&value); err != nil {
			t.Fatal(err)
		}
		if got := Validate("manifest", value); !slices.Equal(got, want) {
			t.Errorf("%s violates\n%+v\nwant\n%+v", text, got, want)
		}
	}
}

func TestPrepareCompilesOnce(t *testing.T) {
	Prepare("manifest")
	if first := compiled("manifest"); first != compiled("manifest") {
		t.Error("the schema was compiled twice")
	}
}
