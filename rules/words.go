package rules

import (
	"hoistbook/kits/fact"
)

// expand writes a rule's text with the numbers of its finding.
func (s scope) expand(t template, f Finding) string {
	return t.expand(s.system, func(word string) string {
		value, limit := f.Pair(s.system)
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
	return t.expand(s.system, func(string) string { return s.subject }, s.print)
}

// print writes a fact for the reader.
func (s scope) print(p piece) string {
	v, ok := s.facts.Lookup(fact.Fill(p.fact, s.subject))
	switch {
	case !ok:
		return s.printed(fact.Value{}, "not shown")
	case p.side != nil:
		return s.printed(v, v.Limit(*p.side, s.system))
	}
	return s.printed(v, v.Print(s.system, ""))
}
