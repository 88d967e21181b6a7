package rules

import (
	"cmp"
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
	Beyond    string // when more is good than the response asks for, or empty
	Notes     string
	Source    []string
	Gear      []Tool
	Calls     []string
}

// Checklist returns the steps of a list ("preflight", "change", "recovery") from the packs in force: phases in the order of their
// first item, items in their order within the phase. An item whose guard cannot be decided stays in: a crew can skip what it
// sees, and cannot do what it does not see.
func Checklist(packs Packs, facts Facts, o Options, list string) []Step {
	items := packs.InForce(o.Regions).items(list)
	var steps []Step
	for _, i := range items {
		for _, subject := range subjects(facts, i.ForEach) {
			s := scope{facts, subject, o.System, o.Say}
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
			s := scope{facts, subject, o.System, o.Say}
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
	g := i.gauge(s)
	text := func(t template) string {
		return t.expand(s.system, func(word string) string { return i.word(s, g, word) }, func(p piece) string { return i.print(s, g, p) })
	}
	step := Step{
		ID: i.ID, Pack: i.pack.ID, Subject: s.subject, List: i.List, Phase: i.Phase, Role: i.Role, Challenge: text(i.plan.challenge),
		Response: text(i.plan.response), Reading: g, Hold: i.Hold, Critical: i.Critical, Beyond: text(i.plan.beyond), Notes: text(i.plan.notes),
		Source: i.plan.sources, Gear: s.tools(i.Gear), Calls: i.Calls,
	}
	if g != nil && g.named(step.Response, s.system) {
		step.Beyond = ""
	}
	return step
}

// word writes a word of an item's texts.
func (i *Item) word(s scope, g *Gauge, word string) string {
	if word == wordSubject || g == nil {
		return s.subject
	}
	least, most := g.Bounds(s.system)
	if word == wordLeast {
		return least
	}
	return most
}

// print writes a fact of an item's texts. One that is the limit of the reading is printed as that limit, wherever it stands: what
// people read aloud is what the reading is held against.
func (i *Item) print(s scope, g *Gauge, p piece) string {
	if g == nil || p.side != nil {
		return s.print(p)
	}
	limits := i.plan.reading
	switch least, most := g.Bounds(s.system); {
	case limits.least.is(p.fact):
		return least
	case limits.most.is(p.fact):
		return most
	}
	return s.print(p)
}

// is reports whether an operand is this fact, and nothing of it.
func (o *operand) is(id string) bool { return o != nil && o.times == nil && o.fact == id }

func (i *Item) gauge(s scope) *Gauge {
	plan := i.plan.reading
	if plan == nil {
		return nil
	}
	g := &Gauge{
		Name: i.Reading.Name, Dim: plan.dim, Low: plan.low, High: plan.high, Least: s.bound(plan.least, plan.dim), Most: s.bound(plan.most, plan.dim),
		NotBelow: i.Reading.NotBelow, Limited: plan.least != nil || plan.most != nil, Replaces: fact.Fill(i.Reading.Replaces, s.subject),
	}
	for _, e := range plan.expected {
		text := func(t template) string { return t.expand(s.system, func(string) string { return s.subject }, s.print) }
		g.Expected = append(g.Expected, Expected{Side: e.side, Limit: s.bound(e.limit, plan.dim), Text: text(e.text), Hint: text(e.hint)})
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
