package doc

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/unit"
	"hoistbook/render/page"
	"hoistbook/render/pdf"
)

// names strain a layout: one letter, long words, many words, other alphabets.
var names = rapid.OneOf(
	rapid.SampledFrom([]string{
		"x", "Überlandleitungsträgerbefestigungsschraubensatz", strings.Repeat("long", 25), "ein Relais für die Flußwacht, wasserdicht, 3.3 V",
		"реле для болота", "φίλτρο υψηλών συχνοτήτων",
	}),
	rapid.StringMatching(`[A-Za-z0-9 ,.Ωµ°-]{1,100}`).Filter(func(s string) bool { return strings.TrimSpace(s) != "" }),
)

// texts are names, and notes of several lines.
var texts = rapid.OneOf(names, rapid.Just(strings.Repeat("what is long takes many lines and is read all the same; ", 5)+"or not"))

// kit draws a manifest with any number of parts of any kind.
func kit(t *rapid.T, least, most int) []byte {
	parts := map[string]any{}
	n := rapid.IntRange(least, most).Draw(t, "parts")
	for i := range n {
		p := map[string]any{"name": names.Draw(t, "name"), "place": rapid.SampledFrom([]string{"aloft", "ground"}).Draw(t, "place")}
		if rapid.Bool().Draw(t, "weighed") {
			p["mass"], p["mass_basis"] = fmt.Sprintf("%d g", rapid.IntRange(1, 90000).Draw(t, "mass")), "weighed"
		}
		if rapid.Bool().Draw(t, "many") {
			p["quantity"] = rapid.IntRange(1, 9999).Draw(t, "quantity")
		}
		if rapid.Bool().Draw(t, "noted") {
			p["note"], p["packed_in"] = texts.Draw(t, "note"), names.Draw(t, "box")
		}
		if rapid.Bool().Draw(t, "offered") {
			p["offers"] = []any{map[string]any{"supplier": "S1", "order_code": names.Draw(t, "code"), "price": "1234567.89"}}
		}
		if rapid.IntRange(0, 3).Draw(t, "load") == 0 {
			p["place"] = "aloft" // where its battery is
			p["load"] = map[string]any{"rail": rapid.SampledFrom([]string{"BAT", "5V"}).Draw(t, "rail"), "rated": "4 V to 16 V",
				"current": map[string]any{"transmit": "20 mA", "receive": "10 mA", "standby": "5 mA"}, "wire": map[string]any{"gauge": "AWG 24", "length": "20 cm"}}
		}
		parts[fmt.Sprintf("P%03d", i)] = p
	}
	parts["BAT"] = map[string]any{"name": "battery", "place": "aloft", "mass": "100 g", "battery": map[string]any{"chemistry": "li-ion", "cells_in_series": 3, "capacity": "5 Ah", "rail": "BAT"}}
	parts["REG"] = map[string]any{"name": "converter", "place": "aloft", "mass": "10 g", "converter": map[string]any{"kind": "buck", "from": "BAT", "to": "5V", "output": "5 V", "tolerance": "2 %", "efficiency": "90 %",
		"input": "6 V to 24 V", "headroom": "0.7 V", "greatest_current": "3 A", "quiescent": "5 mA"}}
	steps := []any{}
	for i := range rapid.IntRange(0, 12).Draw(t, "steps") {
		steps = append(steps, map[string]any{"id": fmt.Sprintf("s%d", i), "text": texts.Draw(t, "step"), "hold": rapid.Bool().Draw(t, "hold"), "note": texts.Draw(t, "note"), "roles": []string{names.Draw(t, "role")}})
	}
	document := map[string]any{
		"format": "hoistbook-manifest/1", "kit": map[string]any{"id": "k", "name": names.Draw(t, "kit"), "revision": "1.0.0", "summary": texts.Draw(t, "summary")},
		"parts": parts, "suppliers": map[string]any{"S1": map[string]any{"name": "store"}}, "budget": map[string]any{"currency": "EUR", "tax": "19 %", "per_kit": "10.00"},
		"steps":    map[string]any{"assembly": steps, "preflight": steps, "recovery": steps},
		"cautions": []any{map[string]any{"signal": "danger", "hazard": texts.Draw(t, "hazard"), "consequence": texts.Draw(t, "consequence"), "avoidance": texts.Draw(t, "avoidance"), "before": []string{"preflight", "recovery"}}},
	}
	data, err := json.Marshal(document)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Whatever a kit is called and however many parts it has, every document is set, inside its margins, with every brace filled.
func TestAnyKitIsSet(t *testing.T) {
	all := builtIn(t)
	rapid.Check(t, func(r *rapid.T) {
		facts := read(r, "kit.json", kit(r, 1, 12))
		in := Gather(facts, all, rapid.SampledFrom([]unit.System{unit.SI, unit.US}).Draw(r, "system"), words(r, rapid.SampledFrom(Languages()).Draw(r, "language")))
		in.Paper = rapid.SampledFrom([]page.Paper{page.A4, page.Letter}).Draw(r, "paper")
		sound(r, in)
	})
}

// sound composes the book, which has every document, and looks at every page.
func sound(t rapid.TB, in *Input) {
	t.Helper()
	book, err := Book(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := book.Check(); err != nil {
		t.Fatal(err)
	}
	for i, p := range book.Pages {
		inside := page.SheetMargins.Inside(p.Paper)
		inside = page.Box{X: inside.X - 0.5, Y: 10, W: inside.W + 1, H: p.Paper.Height - 16}
		for it := range p.All() {
			if box, ok := page.Bounds(it, in.Fonts); ok && !inside.Holds(box) {
				t.Errorf("page %d: %+v stands outside the margins", i+1, it)
			}
			if text, ok := it.(page.Text); ok && strings.ContainsAny(text.Text, "{}") {
				t.Errorf("page %d: a brace was not filled in %q", i+1, text.Text)
			}
		}
	}
}

// Two hundred parts and one part alone are set too, and every part stands in the bill.
func TestFewAndManyParts(t *testing.T) {
	all := builtIn(t)
	for _, n := range []int{1, 200} {
		const seed = 1
		facts := read(t, "kit.json", rapid.Custom(func(r *rapid.T) []byte { return kit(r, n, n) }).Example(seed))
		in := Gather(facts, all, unit.SI, words(t, "en"))
		sound(t, in)
		bill, err := billOfMaterials.Compose(in)
		text := dumped(t, bill, err)
		for i := range n {
			if ref := fmt.Sprintf(`"P%03d"`, i); !strings.Contains(text, ref) {
				t.Errorf("%d parts: the bill does not list %s", n, ref)
			}
		}
	}
}

// The same input gives the same pages and the same bytes.
func TestSameInputSamePages(t *testing.T) {
	all := builtIn(t)
	bytes := func() string {
		in := Gather(demo(t, "fen-relay"), all, unit.SI, words(t, "en"))
		book, err := Book(in)
		if err != nil {
			t.Fatal(err)
		}
		data, err := pdf.Bytes(book)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	first, second := bytes(), bytes()
	if first != second {
		t.Error("two books of one input differ")
	}
}

// A kit of which next to nothing is known has every document all the same, and not one that says GO.
func TestSilentKit(t *testing.T) {
	facts := read(t, "kit.json", []byte(`{"format": "hoistbook-manifest/1", "kit": {"id": "k", "name": "K", "revision": "1.0.0"}, "parts": {"A": {"name": "a"}}}`))
	in := Gather(facts, builtIn(t), unit.SI, words(t, "en"))
	sound(t, in)
	first, err := summary.Compose(in)
	if text := dumped(t, first, err); !strings.Contains(text, `"NO-GO"`) || strings.Contains(text, `"GO"`) || !strings.Contains(text, "not shown") {
		t.Errorf("the summary of a kit that says nothing: %s", text)
	}
	none := Gather(facts, nil, unit.SI, words(t, "en"))
	sound(t, none)
}
