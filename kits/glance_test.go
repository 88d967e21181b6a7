package kits

import (
	"reflect"
	"testing"
)

// A glance sees the values that Assess computes, in whatever order it is asked.
func TestAGlanceSeesWhatAssessComputes(t *testing.T) {
	for _, id := range Demos() {
		facts := demo(t, id)
		g := Look(facts.Manifest)
		for i := range facts.All {
			want := facts.All[len(facts.All)-1-i]
			if got, ok := g.Lookup(want.ID); !ok || !reflect.DeepEqual(got, want.Value) {
				if got.Known() || want.Value.Known() || got.Unknown != want.Value.Unknown { // NaN is not equal to itself
					t.Errorf("%s: %s: got %+v, %v, want %+v", id, want.ID, got, ok, want.Value)
				}
			}
		}
		for _, f := range families {
			if got, want := g.Subjects(f.id), facts.Subjects(f.id); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: members of %s: got %v, want %v", id, f.id, got, want)
			}
		}
		for _, unknown := range []string{"", "lift", "power.loads.*.lowest_v", "power.loads.NOBODY.lowest_v", "lift.gross_kg.more"} {
			if v, ok := g.Lookup(unknown); ok {
				t.Errorf("%s: %q: got %+v, want no such fact", id, unknown, v)
			}
		}
	}
}

func BenchmarkAssess(b *testing.B) {
	m := demo(b, FirstDemo).Manifest
	for b.Loop() {
		Assess(m)
	}
}

// A glance at every fact that the built-in rules read is about this.
func BenchmarkGlanceAtEverything(b *testing.B) {
	facts := demo(b, FirstDemo)
	for b.Loop() {
		g := Look(facts.Manifest)
		for _, f := range facts.All {
			g.Lookup(f.ID)
		}
	}
}
