package doc

import (
	"fmt"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/page"
)

// ordered sets an order in one language on one paper and looks at every page of it.
func ordered(t *testing.T, m *manifest.Manifest, plan kits.OrderPlan, language string, paper page.Paper) *page.Document {
	t.Helper()
	o, err := kits.OrderFor(m, plan)
	if err != nil {
		t.Fatal(err)
	}
	d, err := Order(&Input{Facts: &kits.Facts{Manifest: m}, Words: words(t, language), Paper: paper}, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	for i, p := range d.Pages {
		inside := page.SheetMargins.Inside(p.Paper)
		inside = page.Box{X: inside.X - 0.5, Y: 10, W: inside.W + 1, H: p.Paper.Height - 16}
		for it := range p.All() {
			if box, ok := page.Bounds(it, nil); ok && !inside.Holds(box) {
				t.Errorf("page %d: %+v stands outside the margins", i+1, it)
			}
			if text, ok := it.(page.Text); ok && strings.ContainsAny(text.Text, "{}") {
				t.Errorf("page %d: a brace was not filled in %q", i+1, text.Text)
			}
		}
	}
	return d
}

func textsOf(d *page.Document) map[string]int {
	found := map[string]int{}
	for _, p := range d.Pages {
		for it := range p.All() {
			if text, ok := it.(page.Text); ok {
				found[text.Text]++
			}
		}
	}
	return found
}

// Every demonstration kit is ordered on both papers in every language: a sheet a supplier, and a label for every bag of
// every kit.
func TestOrdersAreSet(t *testing.T) {
	for _, id := range kits.Demos() {
		m := demo(t, id).Manifest
		for _, language := range Languages() {
			for i, paper := range []page.Paper{page.A4, page.Letter} {
				plan := kits.OrderPlan{Kits: []int{13, 1}[i], FirstSerial: 5}
				d := ordered(t, m, plan, language, paper)
				found := textsOf(d)
				serial := fmt.Sprintf("%s-%02d", id, 5+plan.Kits-1)
				if got := found[serial]; got < len(m.Parts) {
					t.Errorf("%s: %d labels for %s, want %d", id, got, serial, len(m.Parts))
				}
			}
		}
	}
}

// Three hundred parts with the longest names, from a single supplier, one of them not to be had.
func TestOrderOfManyLongNames(t *testing.T) {
	var parts []string
	for i := range 300 {
		offers := fmt.Sprintf(`[ { "supplier": "S1", "order_code": "%s", "price": "%d.123456", "pack": %d } ]`, strings.Repeat("C", i%60), i+1, i%7+1)
		if i == 7 {
			offers = "[]"
		}
		parts = append(parts, fmt.Sprintf(`"%s%03d": { "name": "%s", "place": "ground", "quantity": %d, "packed_in": "%s", "offers": %s }`,
			strings.Repeat("R", i%29), i, strings.Repeat("long-", i%24)+"part", i+1, strings.Repeat("box ", i%9), offers))
	}
	text := `{ "format": "hoistbook-manifest/1", "kit": { "id": "k", "name": "` + strings.Repeat("kit ", 29) + `", "revision": "1.0.0" }, "parts": { ` + strings.Join(parts, ",") + ` },
		"budget": { "currency": "EUR", "tax": "19 %", "per_kit": "1.00" }, "suppliers": { "S1": { "name": "` + strings.Repeat("supplier ", 13) + `", "postage": "9.00", "least_order": "99999999.00", "contact": "` + strings.Repeat("window ", 30) + `" } } }`
	text = strings.NewReplacer(` "packed_in": "",`, "", ` "order_code": "",`, "", ` ", `, `", `).Replace(text)
	m := read(t, "kit.json", []byte(text)).Manifest
	d := ordered(t, m, kits.OrderPlan{Kits: 3}, "en", page.A4)
	if found := textsOf(d); found["NOT COMPLETE"] != 1 || found["COMPLETE"] != 0 {
		t.Errorf("the order is called complete: %v", found["COMPLETE"])
	}
}

// The order sheet of a kit says what an order would need to know.
func TestOrderSheetOfSilentKit(t *testing.T) {
	m := read(t, "kit.json", []byte(`{ "format": "hoistbook-manifest/1", "kit": { "id": "k", "name": "k", "revision": "1.0.0" },
		"parts": { "A": { "name": "a", "place": "ground", "offers": [ { "supplier": "S1", "price": "1.00" } ] } }, "suppliers": { "S1": { "name": "s" } } }`)).Manifest
	d, err := orderSheet.Compose(&Input{Facts: kits.Assess(m), Words: words(t, "en"), Paper: page.A4})
	text := dumped(t, d, err)
	for _, want := range []string{"/budget/currency", "/budget/tax", "/suppliers/S1,", "does not say what the postage"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not ask for %s", want)
		}
	}
}
