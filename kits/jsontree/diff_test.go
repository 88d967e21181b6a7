package jsontree_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/jsontree"
)

func tree(t testing.TB, text string) *jsontree.Node {
	t.Helper()
	n, err := jsontree.Parse("test.json", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestDiff(t *testing.T) {
	for name, c := range map[string]struct {
		before, after string
		want          []string
	}{
		"nothing":           {`{"a": 1, "b": [1, {"c": null}]}`, `{"b": [1, {"c": null}], "a": 1}`, nil},
		"a value":           {`{"a": {"b": "85 g"}}`, `{"a": {"b": "90 g"}}`, []string{`/a/b: "85 g" "90 g"`}},
		"a kind":            {`{"a": {"b": 1}}`, `{"a": "x"}`, []string{`/a: {"b":1} "x"`}},
		"a new object":      {`{}`, `{"a": {"b": 1, "c": 2}}`, []string{`/a: - {"b":1,"c":2}`}},
		"a lost key":        {`{"a/b": 1, "c": 2}`, `{"c": 2}`, []string{`/a~1b: 1 -`}},
		"a list":            {`{"a": [1, 2]}`, `{"a": [2, 1]}`, []string{`/a: [1,2] [2,1]`}},
		"written otherwise": {`{"a": 1}`, `{"a": 1.0}`, []string{`/a: 1 1.0`}},
		"null and nothing":  {`{"a": null}`, `{}`, []string{`/a: null -`}},
		"first order, new behind": {`{"a": 1, "b": 1}`, `{"c": 1, "b": 2, "a": 2}`,
			[]string{`/a: 1 2`, `/b: 1 2`, `/c: - 1`}},
	} {
		var got []string
		for _, d := range jsontree.Diff(tree(t, c.before), tree(t, c.after)) {
			got = append(got, d.Pointer+": "+said(d.Before)+" "+said(d.After))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", name, got, c.want)
		}
	}
}

func said(n *jsontree.Node) string {
	if n == nil {
		return "-"
	}
	return string(n.JSON())
}

func TestWithoutLeavesTheTreeAlone(t *testing.T) {
	n := tree(t, `{"a": 1, "b": 2, "c": 3}`)
	if got := said(n.Without("a", "c", "d")); got != `{"b":2}` || said(n) != `{"a":1,"b":2,"c":3}` {
		t.Errorf("got %s of %s", got, said(n))
	}
}

// What differs, laid over the first tree as a merge patch, gives the second one, as long as nothing in it is null.
func TestDiffIsWhatAPatchHasToSay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before, after := object(3).Draw(t, "before"), object(3).Draw(t, "after")
		n, m := parsed(before), parsed(after)
		for _, d := range jsontree.Diff(n, m) {
			if d.Before != n.At(d.Pointer) || d.After != m.At(d.Pointer) {
				t.Fatalf("%s is not what stands at %s", said(d.After), d.Pointer)
			}
		}
		if (len(jsontree.Diff(n, m)) == 0) != n.Same(m) || n.Same(m) != m.Same(n) {
			t.Fatalf("%s and %s: same %v, and %d differences", before, after, n.Same(m), len(jsontree.Diff(n, m)))
		}
		if len(jsontree.Diff(n, parsed(before))) > 0 {
			t.Fatalf("%s differs from itself", before)
		}
	})
}

func parsed(text string) *jsontree.Node {
	n, err := jsontree.Parse("drawn", []byte(text))
	if err != nil {
		panic(err)
	}
	return n
}

// object draws the text of an object.
func object(depth int) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		text := "{"
		for i, name := range rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"a", "b", "c", "d/e"}), 0, 4, rapid.ID).Draw(t, "names") {
			if i > 0 {
				text += ","
			}
			value := rapid.SampledFrom([]string{"1", `"x"`, "[1,2]", "[2]", "true"}).Draw(t, "value")
			if depth > 0 && rapid.Bool().Draw(t, "deeper") {
				value = object(depth-1).Draw(t, "inner")
			}
			text += `"` + name + `":` + value
		}
		return text + "}"
	})
}
