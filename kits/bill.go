package kits

import (
	"hoistbook/kits/fact"
	"hoistbook/kits/lift"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A Weighing is one line of the mass aloft: a part, or the tether paid out. What is not known says why.
type Weighing struct {
	Ref       manifest.Ref
	Line      bool // the tether paid out
	Quantity  int
	Each      fact.Value // as stated
	Allowance fact.Value // for growth
	Worst     fact.Value // quantity × each × (1 + allowance)
	Running   fact.Value // the worst of this line and of those above it
}

// Weighings lists what is aloft in the order of the references, the tether paid out last. The last running total is the
// fact "mass.aloft_worst_kg".
func (f *Facts) Weighings() []Weighing {
	r := newRun(f.Manifest)
	var all []Weighing
	running := unit.Mass(0)
	gap := ""
	add := func(ref manifest.Ref, line bool, weigh func(*frame) lift.Load) {
		c := &frame{run: r}
		l := weigh(c)
		running += l.Worst()
		if gap == "" && !c.known() {
			gap = c.why()
		}
		all = append(all, Weighing{
			Ref: ref, Line: line, Quantity: int(l.Quantity.SI()), Each: c.of(l.Mass.Quantity()), Allowance: c.of(l.Allowance.Quantity()),
			Worst: c.of(l.Worst().Quantity()), Running: because(gap, running.Quantity()),
		})
	}
	for ref, p := range manifest.Sorted(f.Manifest.Parts) {
		if p.Place == manifest.Aloft {
			add(ref, false, func(c *frame) lift.Load { return load(c, ref, p) })
		}
	}
	c := &frame{run: r}
	if t := tetherPart(c); c.known() {
		add(t.ref, true, func(c *frame) lift.Load { return line.of(c) })
	}
	return all
}

// of is a value that this frame computed; what it could not know makes it unknown.
func (c *frame) of(q unit.Quantity) fact.Value { return because(c.why(), q) }

// because is a value, or unknown for a reason when there is one.
func because(gap string, q unit.Quantity) fact.Value {
	if gap != "" {
		return fact.Value{Kind: fact.Number, Quantity: unit.Quantity{SI: nan, Dim: q.Dim}, Unknown: gap}
	}
	return fact.Of(q)
}
