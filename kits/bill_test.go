package kits

import (
	"math"
	"testing"

	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
)

func demo(t testing.TB, id string) *Facts {
	t.Helper()
	source, ok := Demo(id)
	if !ok {
		t.Fatalf("there is no demonstration kit %q", id)
	}
	m, err := manifest.Load(source)
	if err != nil {
		t.Fatal(err)
	}
	return Assess(m)
}

// The lines of the mass aloft add up to the facts that the lift is computed with.
func TestWeighingsAddUp(t *testing.T) {
	for _, id := range Demos() {
		facts := demo(t, id)
		var nominal, worst float64
		lines := facts.Weighings()
		for _, l := range lines {
			nominal += float64(l.Quantity) * l.Each.Quantity.SI
			worst += l.Worst.Quantity.SI
		}
		for _, c := range []struct {
			fact string
			got  float64
		}{{"mass.aloft_kg", nominal}, {"mass.aloft_worst_kg", worst}, {"mass.aloft_worst_kg", lines[len(lines)-1].Running.Quantity.SI}} {
			want, _ := facts.Lookup(c.fact)
			if math.Abs(c.got-want.Quantity.SI) > 1e-9 {
				t.Errorf("%s: the lines add up to %.9f kg, want %s = %.9f kg", id, c.got, c.fact, want.Quantity.SI)
			}
		}
	}
}

// A part whose mass nobody says leaves every total from there on not shown.
func TestWeighingsUnknown(t *testing.T) {
	m, err := manifest.Load(manifest.Source{Name: "kit.json", Data: []byte(`{"format": "hoistbook-manifest/1",
		"kit": {"id": "k", "name": "K", "revision": "1.0.0"},
		"parts": {"A": {"name": "a", "place": "aloft", "mass": "10 g"}, "B": {"name": "b", "place": "aloft"}, "C": {"name": "c", "place": "aloft", "mass": "1 g"}}}`)})
	if err != nil {
		t.Fatal(err)
	}
	want := []bool{true, false, false}
	for i, l := range Assess(m).Weighings() {
		if l.Running.Known() != want[i] {
			t.Errorf("running total of %s: known %v, want %v", l.Ref, l.Running.Known(), want[i])
		}
		if known := l.Ref != "B"; l.Worst.Known() != known || l.Worst.Kind != fact.Number {
			t.Errorf("worst mass of %s: %+v, want known %v", l.Ref, l.Worst, known)
		}
	}
}

// The bill's lines add up to its net, and its total is the fact that the budget is held against.
func TestCostsAddUp(t *testing.T) {
	for _, id := range Demos() {
		facts := demo(t, id)
		bill := facts.Costs()
		total, _ := facts.Lookup("cost.all_sets")
		if last := bill.Lines[len(bill.Lines)-1]; last.Running.Text != bill.Net.Text || !bill.Net.Known() || bill.Total.Text != total.Text {
			t.Errorf("%s: running %+v, net %+v, total %+v, want cost.all_sets %+v", id, last.Running, bill.Net, bill.Total, total)
		}
		if len(bill.Lines) != len(facts.Manifest.Parts) {
			t.Errorf("%s: %d lines, want one for each of %d parts", id, len(bill.Lines), len(facts.Manifest.Parts))
		}
	}
}
