package kits

import (
	"math"
	"slices"

	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
)

var nan = math.NaN()

// A Fact is one computed value with its pedigree.
type Fact struct {
	ID      string
	Subject string // the member of the family that it is about, if any
	Value   fact.Value
	Inputs  []Input
	Notes   []string
	Entry   *Entry
}

// Facts is everything that a manifest's design does. It is safe for concurrent reading.
type Facts struct {
	Manifest    *manifest.Manifest
	All         []Fact // in the order of the catalogue, then of the subjects
	Assumptions []Assumption
	byID        map[string]int
	families    map[string][]string
}

// Assess computes every fact of the catalogue for a manifest. Nothing it cannot know is guessed: such a fact's Value is
// unknown and says why.
func Assess(m *manifest.Manifest) *Facts { return newRun(m).assess() }

func (r *run) assess() *Facts {
	facts := &Facts{Manifest: r.manifest, All: make([]Fact, 0, usualFacts), byID: make(map[string]int, usualFacts), families: map[string][]string{}}
	for _, f := range families {
		facts.families[f.id] = r.members(f)
	}
	for _, e := range catalogue {
		subjects := []string{""}
		if e.family != nil {
			subjects = r.members(e.family)
		}
		for _, subject := range subjects {
			f := r.fact(e, subject)
			facts.byID[f.ID] = len(facts.All)
			facts.All = append(facts.All, f)
		}
	}
	facts.Assumptions = append(r.assumptions, facts.notes()...)
	return facts
}

// fact computes a fact, or hands out the one computed before.
func (r *run) fact(e *Entry, subject string) Fact {
	id := fact.Fill(e.ID, subject)
	if f, ok := r.facts[id]; ok {
		return f
	}
	c := r.open()
	value := e.compute(c, subject)
	if why := c.why(); why != "" {
		value = fact.Value{Kind: e.Kind, Unknown: why}
	} else if e.Kind == fact.Word && value.Text == "" {
		value.Unknown = "nothing says it"
	}
	value.Quantity.Dim = e.Dim
	seen := c.close()
	f := Fact{ID: id, Subject: subject, Value: value, Inputs: seen.inputs, Notes: seen.notes, Entry: e}
	r.facts[id] = f
	return f
}

func (r *run) members(of *family) []string {
	subjects, ok := r.families[of]
	if !ok {
		subjects = of.subjects(&frame{run: r})
		r.families[of] = subjects
	}
	return subjects
}

func (r *run) assume(a Assumption) {
	if !slices.ContainsFunc(r.assumptions, func(have Assumption) bool { return have.Pointer == a.Pointer && have.Text == a.Text }) {
		r.assumptions = append(r.assumptions, a)
	}
}

// notes gathers what must be known of the facts, each note once with the facts that it is about.
func (f *Facts) notes() []Assumption {
	var list []Assumption
	for _, one := range f.All {
		for _, note := range one.Notes {
			at := slices.IndexFunc(list, func(a Assumption) bool { return a.Text == note })
			if at < 0 {
				at = len(list)
				list = append(list, Assumption{Text: note})
			}
			list[at].Facts = append(list[at].Facts, one.ID)
		}
	}
	return list
}

// Lookup returns the value of the fact with this id; ok is false when the catalogue has no such fact for this manifest.
func (f *Facts) Lookup(id string) (value fact.Value, ok bool) {
	i, ok := f.byID[id]
	if !ok {
		return fact.Value{}, false
	}
	return f.All[i].Value, true
}

// Find is Lookup with the whole pedigree.
func (f *Facts) Find(id string) (Fact, bool) {
	i, ok := f.byID[id]
	if !ok {
		return Fact{}, false
	}
	return f.All[i], true
}

// Subjects lists the members of a family in this manifest, such as the loads of "power.loads".
func (f *Facts) Subjects(family string) []string { return f.families[family] }

// JSON returns the facts as the report writes them: ids to numbers in the fact's unit, words, truths, decimal texts, or nil.
func (f *Facts) JSON() map[string]any {
	report := make(map[string]any, len(f.All))
	for _, one := range f.All {
		report[one.ID] = one.Value.JSON(one.Entry.Unit)
	}
	return report
}
