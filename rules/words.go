package rules

import (
	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// expand writes a rule's text with the numbers of its finding.
func (s scope) expand(t template, f Finding) string {
	return t.expand(func(word string) string {
		value, limit := s.pair(f)
		switch word {
		case wordValue:
			return value
		case wordLimit:
			return limit
		case wordMargin:
			return marginSize(f.Measure, f.Limit, s.system)
		}
		return s.subject
	}, s.print)
}

// text writes a text that compares nothing.
func (s scope) text(t template) string {
	return t.expand(func(string) string { return s.subject }, s.print)
}

// print writes a fact for the reader.
func (s scope) print(id string) string {
	v, ok := s.facts.Lookup(fact.Fill(id, s.subject))
	if !ok {
		return "not shown"
	}
	return v.Print(s.system, "")
}

// pair prints measure and limit so that different values never look the same.
func (s scope) pair(f Finding) (value, limit string) {
	if f.HasMargin() && f.Measure.Kind == fact.Number {
		return unit.Apart(f.Measure.Quantity, f.Limit.Quantity, s.system)
	}
	return f.Measure.Print(s.system, ""), f.Limit.Print(s.system, "")
}
