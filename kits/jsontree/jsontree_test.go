package jsontree_test

import (
	"encoding/json"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"hoistbook/kits/jsontree"
)

const sample = `{
  "format": "x/1",
  "parts": { "A/B~": { "mass": "85 g" } },
  "list": [1.50, true,
    null]
}`

func parse(t *testing.T, name, text string) *jsontree.Node {
	t.Helper()
	n, err := jsontree.Parse(name, []byte(text))
	if err != nil {
		t.Fatalf("Parse(%s) = %v", text, err)
	}
	return n
}

func TestEveryValueKnowsItsPlace(t *testing.T) {
	root := parse(t, "kit.json", sample)
	for pointer, want := range map[string]string{
		"":                    "kit.json:1:1",
		"/format":             "kit.json:2:13",
		"/parts":              "kit.json:3:12",
		"/parts/A~1B~0/mass":  "kit.json:3:32",
		"/list/0":             "kit.json:4:12",
		"/list/2":             "kit.json:5:5",
		"/list/3":             "",
		"/list/01":            "",
		"/list/-1":            "",
		"/format/deeper":      "",
		"parts":               "",
		"/parts/A~1B~0/miss/": "",
	} {
		n, got := root.At(pointer), ""
		if n != nil {
			got = n.Place().String()
		}
		if got != want {
			t.Errorf("At(%q) stands at %q, want %q", pointer, got, want)
		}
	}
	for pointer, want := range map[string]string{
		"/parts/A~1B~0/mass":    "kit.json:3:24",
		"/parts/A~1B~0/missing": "kit.json:3:14",
		"/list/1":               "kit.json:4:18",
	} {
		if got := root.PlaceOf(pointer).String(); got != want {
			t.Errorf("PlaceOf(%q) = %s, want %s", pointer, got, want)
		}
	}
}

func TestWhatParseRefuses(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"nothing":         {" \n", "f:1:1: the file is empty"},
		"UTF-16":          {"\xff\xfe{\x00}\x00", "f:1:1: the file is UTF-16"},
		"mark":            {"\xef\xbb\xbf{}", "f:1:1: the file starts with a byte order mark"},
		"open":            {"{\"a\": [1", "f:1:9: the JSON text ends too early"},
		"comma":           {"{\n\"a\": 1,\n}", "remove the comma before the closing bracket"},
		"no comma":        {"{\n\"a\": 1\n\"b\": 2}", "separate values with a comma"},
		"comment":         {"{\n// note\n\"a\": 1}", "JSON has no comments"},
		"quotes":          {"{'a': 1}", "double quotation marks"},
		"bytes":           {"{\"a\": \"\xff\"}", "f:1:"},
		"lone surrogate":  {`{"a": "\ud800"}`, "f:1:"},
		"late comma":      {"{},", "f:1:3: something follows"},
		"two values":      {"{} {}", "f:1:4: something follows"},
		"same key":        {"{\"a\": 1,\n \"b\": 2, \"a\": 3}", "f:2:10: the key \"a\" stands here again; keep one of the two, the first is at f:1:2"},
		"long number":     {"[" + strings.Repeat("9", 33) + "]", "f:1:2: the number"},
		"huge exponent":   {"[1e10000000]", "f:1:2: the number"},
		"beyond a double": {"[1e400]", "f:1:2: the number"},
		"depth":           {strings.Repeat("[", 100) + strings.Repeat("]", 100), "levels deep"},
		"size":            {"\"" + strings.Repeat("x", jsontree.MaxBytes) + "\"", "f: the file has"},
		"count":           {"[" + strings.Repeat("1,", jsontree.MaxValues) + "1]", "more than 100000 values"},
	} {
		n, err := jsontree.Parse("f", []byte(c.text))
		if err == nil || n != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: Parse = %v, %v; want an error with %q", name, n, err, c.want)
		}
	}
}

func TestAllRepeatedKeysAreToldInOneRun(t *testing.T) {
	_, err := jsontree.Parse("f", []byte(`{"a": {"x": 1, "x": 2}, "b": 1, "b": 2, "c": 1e999}`))
	if got := strings.Count(err.Error(), "\n") + 1; got != 3 {
		t.Errorf("got %d problems, want 3:\n%v", got, err)
	}
}

// The cases are those of RFC 7396, appendix A.
func TestMergePatch(t *testing.T) {
	for _, c := range [][3]string{
		{`{"a":"b"}`, `{"a":"c"}`, `{"a":"c"}`},
		{`{"a":"b"}`, `{"b":"c"}`, `{"a":"b","b":"c"}`},
		{`{"a":"b"}`, `{"a":null}`, `{}`},
		{`{"a":"b","b":"c"}`, `{"a":null}`, `{"b":"c"}`},
		{`{"a":["b"]}`, `{"a":"c"}`, `{"a":"c"}`},
		{`{"a":"c"}`, `{"a":["b"]}`, `{"a":["b"]}`},
		{`{"a":{"b":"c"}}`, `{"a":{"b":"d","c":null}}`, `{"a":{"b":"d"}}`},
		{`{"a":[{"b":"c"}]}`, `{"a":[1]}`, `{"a":[1]}`},
		{`["a","b"]`, `["c","d"]`, `["c","d"]`},
		{`{"a":"b"}`, `["c"]`, `["c"]`},
		{`{"a":"foo"}`, `null`, `null`},
		{`{"a":"foo"}`, `"bar"`, `"bar"`},
		{`{"e":null}`, `{"a":1}`, `{"e":null,"a":1}`},
		{`[1,2]`, `{"a":"b","c":null}`, `{"a":"b"}`},
		{`{}`, `{"a":{"bb":{"ccc":null}}}`, `{"a":{"bb":{}}}`},
	} {
		target := parse(t, "t", c[0])
		if got := string(jsontree.Merge(target, parse(t, "p", c[1])).JSON()); got != c[2] {
			t.Errorf("%s patched with %s = %s, want %s", c[0], c[1], got, c[2])
		}
		if got := string(target.JSON()); got != c[0] {
			t.Errorf("the patch changed its target %s into %s", c[0], got)
		}
	}
}

func TestMergeKeepsPlaces(t *testing.T) {
	merged := jsontree.Merge(parse(t, "kit.json", sample), parse(t, "club.json", `{"parts": {"C": {"mass": "1 g"}}, "format": "y/1"}`))
	for pointer, want := range map[string]string{
		"/format": "club.json:1:45", "/parts": "kit.json:3:12", "/parts/C/mass": "club.json:1:26", "/parts/A~1B~0/mass": "kit.json:3:32",
	} {
		if got := merged.At(pointer).Place().String(); got != want {
			t.Errorf("At(%q) stands at %s, want %s", pointer, got, want)
		}
	}
}

// The example is that of RFC 8785, section 3.2.2 and 3.2.3.
func TestCanonicalForm(t *testing.T) {
	n := parse(t, "f", `{
  "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
  "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
  "literals": [null, true, false]
}`)
	want := `{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`
	if got, err := n.Canonical(); err != nil || string(got) != want {
		t.Errorf("Canonical = %s, %v; want %s", got, err, want)
	}
}

// The bits and their texts are those of RFC 8785, appendix B, from memory.
func TestCanonicalNumbers(t *testing.T) {
	for bits, want := range map[uint64]string{
		0x0000000000000000: "0", 0x8000000000000000: "0", 0x0000000000000001: "5e-324", 0x8000000000000001: "-5e-324",
		0x7fefffffffffffff: "1.7976931348623157e+308", 0x4340000000000000: "9007199254740992", 0x4430000000000000: "295147905179352830000",
		0x44b52d02c7e14af5: "9.999999999999997e+22", 0x44b52d02c7e14af6: "1e+23", 0x44b52d02c7e14af7: "1.0000000000000001e+23",
		0x444b1ae4d6e2ef4e: "999999999999999700000", 0x444b1ae4d6e2ef4f: "999999999999999900000", 0x444b1ae4d6e2ef50: "1e+21",
		0x3eb0c6f7a0b5ed8c: "9.999999999999997e-7", 0x3eb0c6f7a0b5ed8d: "0.000001", 0x41b3de4355555555: "333333333.3333333",
		0xbecbf647612f3696: "-0.0000033333333333333333", 0x43143ff3c1cb0959: "1424953923781206.2",
	} {
		text := strconv.FormatFloat(math.Float64frombits(bits), 'e', 16, 64)
		if got, err := parse(t, "f", text).Canonical(); err != nil || string(got) != want {
			t.Errorf("%x, written %s, has the canonical form %s, %v; want %s", bits, text, got, err, want)
		}
	}
}

// The keys are those of RFC 8785, section 3.2.3: they are sorted by their UTF-16 code units.
func TestCanonicalOrderOfKeys(t *testing.T) {
	got, err := parse(t, "f", `{"\u20ac": 1, "\r": 2, "\ufb33": 3, "1": 4, "\ud83d\ude00": 5, "\u0080": 6, "\u00f6": 7}`).Canonical()
	if want := "{\"\\r\":2,\"1\":4,\"\u0080\":6,\"\u00f6\":7,\"\u20ac\":1,\"\U0001f600\":5,\"\ufb33\":3}"; err != nil || string(got) != want {
		t.Errorf("got %q, %v; want %q", got, err, want)
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(sample))
	f.Add([]byte(`{"a":[1e5,"\u00e9"],"b":{}}`))
	f.Add([]byte("{\"a\":1,}"))
	f.Fuzz(func(t *testing.T, text []byte) {
		n, err := jsontree.Parse("f", text)
		if err != nil {
			if n != nil || err.Error() == "" {
				t.Fatalf("an error with a tree, or without words: %v, %v", n, err)
			}
			return
		}
		// Another parser of JSON must read the same values out of what we write.
		var want, got any
		if json.Unmarshal(text, &want) != nil {
			t.Fatalf("read what encoding/json refuses: %q", text)
		}
		if err := json.Unmarshal(n.JSON(), &got); err != nil || !reflect.DeepEqual(got, want) {
			t.Fatalf("wrote %s for %q: %v", n.JSON(), text, err)
		}
		if _, err := n.Canonical(); err != nil {
			t.Fatalf("no canonical form for %q: %v", text, err)
		}
	})
}

func TestWithChangesOneTextAndSharesTheRest(t *testing.T) {
	tree := parse(t, "kit.json", `{"a": {"b~c": ["x", "y"], "n": 3}, "d": "z"}`)
	changed := tree.With("/a/b~0c/1", "new").With("/a/n", "4").With("/a", "an object stays").With("/e/f", "nothing is there").With("no pointer", "nor there")
	if got, want := string(changed.JSON()), `{"a":{"b~c":["x","new"],"n":4},"d":"z"}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got, want := string(tree.JSON()), `{"a":{"b~c":["x","y"],"n":3},"d":"z"}`; got != want {
		t.Errorf("the tree itself became %s, want %s", got, want)
	}
	if changed.At("/d") != tree.At("/d") || changed.At("/a/n").Place() != tree.At("/a/n").Place() {
		t.Error("what did not change is not shared, or has moved")
	}
}
