package rules

import (
	"slices"

	"hoistbook/kits/fact"
)

// Reads lists the ids of the facts that a rule looks at for one subject, its guard included.
func (r *Rule) Reads(subject string) []string {
	var ids []string
	note := func(id string) {
		if id = fact.Fill(id, subject); id != "" && !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	r.When.facts(note)
	r.Check.facts(note)
	return ids
}

// facts calls note for every fact of a condition.
func (c *Condition) facts(note func(id string)) {
	if c == nil {
		return
	}
	note(c.Fact)
	for _, l := range append([]*Limit{c.AtLeast, c.AtMost, c.Is}, c.Within...) {
		if l != nil {
			note(l.Fact)
		}
	}
	for _, inner := range append(append([]*Condition{c.Not}, c.All...), c.Any...) {
		inner.facts(note)
	}
}
