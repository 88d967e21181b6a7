package rules

import (
	"cmp"
	"math"
	"slices"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// A Step is a checklist item for one kit and one subject, its texts in the reader's units.
type Step struct {
	ID, Pack  string
	Subject   string
	List      string
	Phase     string
	Role      string
	Challenge string
	Response  string
	Reading   *Gauge // nil when nothing is read
	Hold      bool
	Critical  bool
	Notes     string
	Source    []string
}

// A Gauge is a reading for one kit: what is asked for, and what makes it good.
type Gauge struct {
	Name      string
	Dim       unit.Dimension
	Low, High unit.Quantity // an honest instrument shows nothing outside
	Least     fact.Value    // of Kind Number; unknown where there is no lower limit or it is not shown
	Most      fact.Value
	NotBelow  string   // id of the item whose reading this one cannot be below, or empty
	Limited   bool     // whether the reading must be held against Least or Most at all
	Replaces  string   // id of the fact that is measured, or empty
	Feeds     []string // JSON pointers of the values in the manifest that it takes the place of
}

// Judge says what the reading is worth: not shown when it is implausible, when it is not finite, or when a limit is not known.
func (g Gauge) Judge(reading unit.Quantity) Outcome {
	if reading.Dim != g.Dim || math.IsNaN(reading.SI) || !g.Plausible(reading) {
		return NotShown
	}
	outcome := Met
	for _, limit := range []struct {
		value fact.Value
		sign  float64
	}{{g.Least, 1}, {g.Most, -1}} {
		switch {
		case limit.value.Unknown == noLimit:
		case !limit.value.Known():
			outcome = min(outcome, NotShown)
		default:
			outcome = min(outcome, outcomeOf(limit.sign*(reading.SI-limit.value.Quantity.SI) >= 0))
		}
	}
	return outcome
}

// Plausible reports whether an honest instrument could show this.
func (g Gauge) Plausible(reading unit.Quantity) bool {
	return g.Low.SI <= reading.SI && reading.SI <= g.High.SI
}

// noLimit marks the side on which a reading has none.
const noLimit = "there is no limit"

// Checklist returns the steps of a list ("preflight", "recovery") from the packs in force: phases in the order of their
// first item, items in their order within the phase. An item whose guard cannot be decided stays in: a crew can skip what it
// sees, and cannot do what it does not see.
func Checklist(packs Packs, facts Facts, o Options, list string) []Step {
	items := packs.InForce(o.Regions).items(list)
	var steps []Step
	for _, i := range items {
		for _, subject := range subjects(facts, i.ForEach) {
			s := scope{facts, subject, o.System}
			if s.run(i.plan.when).outcome != NotMet {
				steps = append(steps, i.step(s))
			}
		}
	}
	return steps
}

// Step returns one step of a list for its subject; ok is false where no pack in force has it or its guard leaves it out.
func (ps Packs) Step(facts Facts, o Options, item, subject string) (step Step, ok bool) {
	for _, p := range ps.InForce(o.Regions) {
		for _, i := range p.Checklist {
			if i.ID != item || !slices.Contains(subjects(facts, i.ForEach), subject) {
				continue
			}
			s := scope{facts, subject, o.System}
			return i.step(s), s.run(i.plan.when).outcome != NotMet
		}
	}
	return Step{}, false
}

// items gathers the items of a list in the order in which they are read.
func (ps Packs) items(list string) []*Item {
	var items []*Item
	first := map[string]int{} // order of each phase
	for _, p := range ps {
		for _, i := range p.Checklist {
			if i.List != list {
				continue
			}
			items = append(items, i)
			if order, known := first[i.Phase]; !known || i.Order < order {
				first[i.Phase] = i.Order
			}
		}
	}
	slices.SortStableFunc(items, func(a, b *Item) int {
		return cmp.Or(cmp.Compare(first[a.Phase], first[b.Phase]), cmp.Compare(a.Phase, b.Phase), cmp.Compare(a.Order, b.Order))
	})
	return items
}

func (i *Item) step(s scope) Step {
	return Step{
		ID: i.ID, Pack: i.pack.ID, Subject: s.subject, List: i.List, Phase: i.Phase, Role: i.Role, Challenge: s.text(i.plan.challenge),
		Response: s.text(i.plan.response), Reading: i.gauge(s), Hold: i.Hold, Critical: i.Critical, Notes: s.text(i.plan.notes),
		Source: i.plan.sources,
	}
}

func (i *Item) gauge(s scope) *Gauge {
	plan := i.plan.reading
	if plan == nil {
		return nil
	}
	g := &Gauge{
		Name: i.Reading.Name, Dim: plan.dim, Low: plan.low, High: plan.high, Least: s.bound(plan.least, plan.dim), Most: s.bound(plan.most, plan.dim),
		NotBelow: i.Reading.NotBelow, Limited: plan.least != nil || plan.most != nil, Replaces: fact.Fill(i.Reading.Replaces, s.subject),
	}
	for _, pointer := range i.Reading.Feeds {
		g.Feeds = append(g.Feeds, fact.Fill(pointer, s.subject))
	}
	return g
}

// bound finds the value of a reading's limit.
func (s scope) bound(o *operand, dim unit.Dimension) fact.Value {
	if o == nil {
		return fact.Value{Kind: fact.Number, Unknown: noLimit}
	}
	about := fact.Description{Kind: fact.Number, Dim: dim}
	v, _ := s.limit(&comparison{about: about, limit: *o})
	return v
}
