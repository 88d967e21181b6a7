package kits_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// searched are the beginnings of the ids of facts that a root search leads to. It starts from other last bits when the units
// are others, and stops somewhere else within what it promises; everything else is good to 1e-9.
var searched = map[string]float64{
	"wind.greatest": 1e-4, "lift.neck_needed": 1e-4, "gas.fill_needed": 1e-4, "gas.top_up": 1e-3,
	"tether.": 1e-6, "wind.": 1e-6, "anchor.": 1e-6, "radio.links": 3e-9, "radio.coverage": 3e-9,
}

func closeness(id string) float64 {
	best, within := "", 1e-9
	for start, w := range searched {
		if strings.HasPrefix(id, start) && len(start) > len(best) {
			best, within = start, w
		}
	}
	return within
}

// sameFacts holds two assessments against each other; renamed maps subjects of the one to those of the other.
func sameFacts(t *rapid.T, want, got *kits.Facts, renamed func(string) string) {
	t.Helper()
	if len(want.All) != len(got.All) {
		t.Fatalf("%d facts, want %d", len(got.All), len(want.All))
	}
	for _, w := range want.All {
		id := fact.Fill(w.Entry.ID, renamed(w.Subject))
		g, ok := got.Find(id)
		switch {
		case !ok || g.Value.Known() != w.Value.Known():
			t.Fatalf("%s: got %+v, want %+v", id, g.Value, w.Value)
		case !w.Value.Known(), strings.HasPrefix(w.Entry.ID, "kit.unused"): // steps name parts in their text, which stays
		case w.Value.Kind == fact.Number:
			have, wish := g.Value.Quantity.SI, w.Value.Quantity.SI
			if !(math.Abs(have-wish) <= closeness(id)*max(math.Abs(have), math.Abs(wish))) {
				t.Fatalf("%s: got %.12g, want %.12g", id, have, wish)
			}
		case w.Value.Kind == fact.YesNo && g.Value.Yes != w.Value.Yes, w.Value.Kind == fact.Money && g.Value.Text != w.Value.Text:
			t.Fatalf("%s: got %+v, want %+v", id, g.Value, w.Value)
		case w.Value.Kind == fact.Word && w.Entry.ID != "packing.*.list" && g.Value.Text != w.Value.Text: // that one names the parts
			t.Fatalf("%s: got %q, want %q", id, g.Value.Text, w.Value.Text)
		}
	}
}

// inOtherUnits writes a quantity in a unit drawn from those of its dimension in which twelve decimals keep it to 1e-13.
func inOtherUnits(t *rapid.T, q unit.Quantity, name string) string {
	var texts []string
	for _, u := range q.Dim.Info().Units {
		n := q.In(u.Symbol)
		digits := strconv.FormatFloat(n, 'f', 12, 64)
		if kept, err := strconv.ParseFloat(digits, 64); err != nil || math.Abs(n) > 1e11 || math.Abs(kept-n) > 1e-13*math.Abs(n) {
			continue
		}
		if u.Prefix {
			texts = append(texts, u.Symbol+" "+digits)
		} else {
			texts = append(texts, strings.TrimSpace(digits+" "+u.Symbol))
		}
	}
	if len(texts) == 0 {
		return q.Exact()
	}
	return rapid.SampledFrom(texts).Draw(t, name)
}

func reload(t *rapid.T, text []byte) *manifest.Manifest {
	t.Helper()
	m, err := manifest.Load(manifest.Source{Name: "rewritten", Data: text})
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return m
}

func TestUnitsChangedFactsUnchanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := demoKits()[rapid.SampledFrom(kits.Demos()).Draw(t, "kit")]
		tree, err := jsontree.Parse("kit", m.JSON())
		if err != nil {
			t.Fatal(err)
		}
		low := ""
		for _, n := range m.Numbers() {
			if n.Value.Dim == unit.DimCount {
				continue
			}
			text := inOtherUnits(t, n.Value, n.Pointer+" "+n.End)
			switch n.End {
			case "low":
				low = text
				continue
			case "high":
				text = low + " to " + text
			}
			tree = tree.With(n.Pointer, text)
		}
		sameFacts(t, kits.Assess(m), kits.Assess(reload(t, tree.JSON())), func(s string) string { return s })
	})
}

// Parts and rails, written in another order and under other names.
func TestNamesAndOrderChangedFactsUnchanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := demoKits()[rapid.SampledFrom(kits.Demos()).Draw(t, "kit")]
		names := map[string]string{}
		for i, ref := range rapid.Permutation(slices.Sorted(maps.Keys(m.Parts))).Draw(t, "order") {
			names[string(ref)] = fmt.Sprintf("Part%d", i)
		}
		rails := kits.Assess(m).Subjects("power.rails")
		for i, rail := range rapid.Permutation(rails).Draw(t, "order of rails") {
			names[rail] = fmt.Sprintf("Rail%d", i)
		}
		tree, err := jsontree.Parse("kit", m.JSON())
		if err != nil {
			t.Fatal(err)
		}
		rewritten := renamedTree(t, tree, names)
		sameFacts(t, kits.Assess(m), kits.Assess(reload(t, rewritten.JSON())), func(s string) string {
			if other, ok := names[s]; ok {
				return other
			}
			return s
		})
	})
}

// renamedTree puts names in the place of others wherever they stand alone, and shuffles the keys of objects.
func renamedTree(t *rapid.T, n *jsontree.Node, names map[string]string) *jsontree.Node {
	out := *n
	if other, ok := names[n.Text]; ok && n.Kind == jsontree.String {
		out.Text = other
	}
	out.Items, out.Members = nil, nil
	for _, item := range n.Items {
		out.Items = append(out.Items, renamedTree(t, item, names))
	}
	members := n.Members
	if len(members) > 1 {
		members = rapid.Permutation(members).Draw(t, "keys")
	}
	for _, m := range members {
		if other, ok := names[m.Name]; ok {
			m.Name = other
		}
		m.Value = renamedTree(t, m.Value, names)
		out.Members = append(out.Members, m)
	}
	return &out
}
