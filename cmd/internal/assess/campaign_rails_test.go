package assess

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/rules"
)

// A breakage is something in the wiring of a kit that is wrong.
type breakage struct {
	of    *subject
	what  string
	patch string
	out   outcome
}

// breakages lists what can go wrong with every rail of a kit, and with the place of every part: its feeder is gone, reversed, or another one; what it feeds
// hangs on another rail, on one that there is not, or on none; two of what there may be one of.
func breakages(s *subject) []*breakage {
	var list []*breakage
	add := func(what string, names []string, value any) {
		var patch any = value
		for i := len(names) - 1; i >= 0; i-- {
			patch = map[string]any{names[i]: patch}
		}
		text, err := json.Marshal(patch)
		if err != nil {
			panic(err) // maps and texts
		}
		list = append(list, &breakage{of: s, what: what, patch: string(text)})
	}
	var rails []string
	for _, p := range manifest.Sorted(s.kit.Parts) {
		if p.Battery != nil {
			rails = append(rails, string(p.Battery.Rail))
		}
		if p.Converter != nil {
			rails = append(rails, string(p.Converter.To))
		}
	}
	rails = append(rails, "nowhere", "")
	for ref, p := range manifest.Sorted(s.kit.Parts) {
		at := func(names ...string) []string { return append([]string{"parts", string(ref)}, names...) }
		move := func(what string, now manifest.Ref, names ...string) {
			for _, rail := range rails {
				if rail != string(now) {
					add(fmt.Sprintf("%s %s %q", ref, what, rail), at(names...), rail)
				}
			}
			add(fmt.Sprintf("%s %s nothing", ref, what), at(names...), nil)
		}
		if p.Place == manifest.Aloft {
			what := "stays on the ground"
			if p.Battery == nil && p.Converter == nil && p.Load == nil && p.Fuse == nil && p.Antenna == nil && p.Filter == nil && p.Envelope == nil {
				what = "is put down as staying on the ground, and does nothing that is modelled"
			}
			add(fmt.Sprintf("%s %s", ref, what), at("place"), "ground")
		}
		switch {
		case p.Battery != nil:
			move("feeds", p.Battery.Rail, "battery", "rail")
			add(fmt.Sprintf("%s is gone", ref), at(), nil)
			add(fmt.Sprintf("%s is of another chemistry", ref), at("battery", "chemistry"), "lead-acid")
			add(fmt.Sprintf("%s has one cell more", ref), at("battery", "cells_in_series"), *p.Battery.CellsInSeries+1)
			add(fmt.Sprintf("%s has a brother on its rail with other cells", ref), []string{"parts", "EXTRA"}, map[string]any{
				"name": "another pack", "place": "aloft", "mass": "1 g", "battery": map[string]any{"chemistry": "nimh", "cells_in_series": 4, "capacity": "1 Ah", "greatest_current": "10 A", "rail": p.Battery.Rail}})
		case p.Converter != nil:
			move("draws from", p.Converter.From, "converter", "from")
			move("feeds", p.Converter.To, "converter", "to")
			add(fmt.Sprintf("%s is gone", ref), at(), nil)
			add(fmt.Sprintf("%s runs backwards", ref), at("converter"), map[string]any{"from": p.Converter.To, "to": p.Converter.From})
			for _, kind := range []string{"linear", "buck", "boost"} {
				if kind != string(p.Converter.Kind) {
					add(fmt.Sprintf("%s is a %s one", ref, kind), at("converter", "kind"), kind)
				}
			}
			add(fmt.Sprintf("%s has a second feeder beside it", ref), []string{"parts", "EXTRA"}, map[string]any{
				"name": "another converter", "place": "aloft", "mass": "1 g", "converter": map[string]any{"kind": "linear", "from": p.Converter.From, "to": p.Converter.To, "output": "5 V", "tolerance": "1 %", "input": "0 V to 30 V", "headroom": "0.1 V", "greatest_current": "10 A", "quiescent": "1 mA"}})
		case p.Load != nil:
			move("hangs on", p.Load.Rail, "load", "rail")
			add(fmt.Sprintf("%s has no load", ref), at("load"), nil)
			add(fmt.Sprintf("%s has no current", ref), at("load", "current"), nil)
		case p.Fuse != nil:
			move("protects", p.Fuse.Rail, "fuse", "rail")
			add(fmt.Sprintf("%s is gone", ref), at(), nil)
		}
	}
	for name, signal := range manifest.Sorted(s.kit.Signals) {
		at := func(key string) []string { return []string{"signals", string(name), key} }
		add(fmt.Sprintf("%s comes from nowhere", name), at("from"), "NOWHERE")
		add(fmt.Sprintf("%s goes nowhere", name), at("to"), "NOWHERE")
		add(fmt.Sprintf("%s goes back", name), at("to"), signal.From)
		add(fmt.Sprintf("%s drives 24 V", name), at("drives"), "0 V to 24 V")
		add(fmt.Sprintf("%s drives nothing", name), at("drives"), "0 V to 0 V")
	}
	return list
}

// stillFlies are breakages after which a kit may be GO, and why.
var stillFlies = []struct{ what, why string }{
	{"has one cell more", "its converters take what it puts out"},
	{`REG2 draws from "PACK"`, "the pack lies within what it takes"},
	{"does nothing that is modelled", "where a box or a fitting is, only its designer knows"},
}

// Nothing that is wired wrongly is GO, but what stands above.
func TestNoBrokenRailIsGo(t *testing.T) {
	var list []*breakage
	for _, s := range subjectsOf(t) {
		list = append(list, breakages(s)...)
	}
	inParallel(len(list), func(i int) {
		b := list[i]
		patch, err := jsontree.Parse("patch", []byte(b.patch))
		if err != nil {
			t.Error(err)
			return
		}
		b.out = b.of.try(jsontree.Merge(b.of.tree, patch))
	})
	lines := []string{
		"# What became of the demonstration kits when something in their wiring was wrong: refused, GO, or the first MUST that is broken.",
		"# Written by go test ./cmd/internal/assess -update.",
		"kit\tbreakage\toutcome",
	}
	used := map[string]bool{}
	for _, b := range list {
		lines = append(lines, b.of.id+"\t"+b.what+"\t"+b.out.String())
		if b.out.refused != "" || b.out.verdict != rules.Go {
			continue
		}
		i := slices.IndexFunc(stillFlies, func(f struct{ what, why string }) bool { return strings.HasSuffix(b.what, f.what) })
		if i < 0 || stillFlies[i].why == "" {
			t.Errorf("%s: %s is GO", b.of.id, b.what)
			continue
		}
		used[stillFlies[i].what] = true
	}
	for _, f := range stillFlies {
		if f.why != "" && !used[f.what] {
			t.Errorf("%q is excused and nothing needs it", f.what)
		}
	}
	if len(list) < 200 {
		t.Errorf("only %d breakages", len(list))
	}
	t.Logf("%d breakages", len(list))
	table(t, "rails.tsv", lines)
}
