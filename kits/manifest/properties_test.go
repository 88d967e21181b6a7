package manifest_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

func TestAnOverlayOfNothingChangesNothing(t *testing.T) {
	want := load(t, full(t))
	for _, nothing := range []string{`{}`, `{"parts": {}}`, `{"kit": {}, "parts": {"TX1": {"load": {}}}}`} {
		if got := load(t, full(t), overlay(nothing)); got.Digest() != want.Digest() || !reflect.DeepEqual(got.Document, want.Document) {
			t.Errorf("%s changes the manifest", nothing)
		}
	}
	if again := load(t, full(t), overlay(string(full(t).Data))); again.Digest() != want.Digest() {
		t.Error("a manifest laid over itself changes")
	}
}

func TestDigestKnowsNoOrderAndNoWhiteSpace(t *testing.T) {
	want := load(t, full(t))
	var value any
	numbers := json.NewDecoder(bytes.NewReader(full(t).Data))
	numbers.UseNumber()
	if err := numbers.Decode(&value); err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		var text strings.Builder
		shuffled(t, &text, value)
		m, err := manifest.Load(manifest.Source{Name: "shuffled", Data: []byte(text.String())})
		if err != nil {
			t.Fatal(err)
		}
		if m.Digest() != want.Digest() || !reflect.DeepEqual(m.Document, want.Document) {
			t.Fatalf("the same values in another order are another manifest:\n%s", text.String())
		}
	})
}

// shuffled writes a JSON value with its keys in any order and any white space.
func shuffled(t *rapid.T, to *strings.Builder, value any) {
	space := func() { to.WriteString(rapid.SampledFrom([]string{"", " ", "\n", "\t", "\r\n"}).Draw(t, "space")) }
	space()
	switch v := value.(type) {
	case map[string]any:
		to.WriteByte('{')
		for i, key := range rapid.Permutation(slices.Sorted(maps.Keys(v))).Draw(t, "order") {
			if i > 0 {
				to.WriteByte(',')
			}
			space()
			fmt.Fprintf(to, "%q", key)
			space()
			to.WriteByte(':')
			shuffled(t, to, v[key])
		}
		to.WriteByte('}')
	case []any:
		to.WriteByte('[')
		for i, item := range v {
			if i > 0 {
				to.WriteByte(',')
			}
			shuffled(t, to, item)
		}
		to.WriteByte(']')
	default:
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		to.Write(text)
	}
	space()
}

// A key that the example does not have is a key that no test reads.
func TestTheExampleHasEveryKey(t *testing.T) {
	var value any
	if err := json.Unmarshal(full(t).Data, &value); err != nil {
		t.Fatal(err)
	}
	written := map[reflect.Type]map[string]bool{}
	keysByType(reflect.TypeFor[manifest.Document](), value, written)
	for _, of := range slices.SortedFunc(maps.Keys(written), func(a, b reflect.Type) int { return strings.Compare(a.Name(), b.Name()) }) {
		for i := range of.NumField() {
			if name, _, _ := strings.Cut(of.Field(i).Tag.Get("json"), ","); !written[of][name] {
				t.Errorf("testdata/full.json never has %q of %s", name, of.Name())
			}
		}
	}
	if len(written) < 25 {
		t.Errorf("only %d types were visited", len(written))
	}
}

func keysByType(of reflect.Type, value any, written map[reflect.Type]map[string]bool) {
	for of.Kind() == reflect.Pointer {
		of = of.Elem()
	}
	switch v := value.(type) {
	case map[string]any:
		if of.Kind() == reflect.Map {
			for _, inner := range v {
				keysByType(of.Elem(), inner, written)
			}
			return
		}
		if written[of] == nil {
			written[of] = map[string]bool{}
		}
		for i := range of.NumField() {
			name, _, _ := strings.Cut(of.Field(i).Tag.Get("json"), ",")
			if inner, ok := v[name]; ok {
				written[of][name] = true
				keysByType(of.Field(i).Type, inner, written)
			}
		}
	case []any:
		for _, inner := range v {
			if of.Kind() == reflect.Slice {
				keysByType(of.Elem(), inner, written)
			}
		}
	}
}

func TestEveryBoundIsAQuantityOfItsField(t *testing.T) {
	seen, done := 0, map[reflect.Type]bool{}
	var visit func(reflect.Type)
	visit = func(of reflect.Type) {
		switch of.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Map:
			visit(of.Elem())
			return
		case reflect.Struct:
		default:
			return
		}
		if done[of] {
			return
		}
		done[of] = true
		for i := range of.NumField() {
			f := of.Field(i)
			visit(f.Type)
			held := f.Type
			for held.Kind() == reflect.Pointer || held.Kind() == reflect.Map {
				held = held.Elem()
			}
			for _, tag := range []string{"above", "least", "most"} {
				limit, ok := f.Tag.Lookup(tag)
				if !ok {
					continue
				}
				seen++
				if held.Kind() == reflect.Struct && held.NumField() == 2 { // a range
					held = held.Field(0).Type
				}
				if held.Kind() == reflect.Float64 && held.PkgPath() == "" {
					held = reflect.TypeFor[unit.Count]()
				}
				q, isQuantity := reflect.Zero(held).Interface().(interface{ Dimension() unit.Dimension })
				if !isQuantity {
					t.Errorf("%s.%s has a bound and is no quantity", of.Name(), f.Name)
				} else if _, err := unit.ParseQuantity(q.Dimension(), limit); err != nil {
					t.Errorf("%s.%s: %v", of.Name(), f.Name, err)
				}
			}
		}
	}
	visit(reflect.TypeFor[manifest.Document]())
	if seen < 40 {
		t.Errorf("only %d bounds were visited", seen)
	}
}
