package size

import (
	"strings"

	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/rules"
)

// reads reports whether what an axis varies is among the values that a rule's facts were computed from, at any remove.
func (k *kit) reads(f rules.Finding, a *axis) bool {
	rule, ok := k.packs.Rule(f.Rule)
	if !ok {
		return false // a region without rules
	}
	rests := k.facts.RestsOn(a.touches)
	for _, condition := range []*rules.Condition{rule.When, rule.Check} {
		for _, id := range compared(condition) {
			if rests(fact.Fill(id, f.Subject)) {
				return true
			}
		}
	}
	return false
}

// touches reports whether a pointer names what is varied.
func (a *axis) touches(pointer string) bool {
	if a.varied == addedMass {
		ref, mass := strings.CutSuffix(strings.TrimPrefix(pointer, "/parts/"), "/mass")
		return mass && a.k.m.Parts[manifest.Ref(ref)].Place == manifest.Aloft
	}
	return pointer == a.varied || pointer == a.follows
}

// compared lists the facts that a condition compares.
func compared(c *rules.Condition) []string {
	if c == nil {
		return nil
	}
	ids := compared(c.Not)
	if c.Fact != "" {
		ids = append(ids, c.Fact)
	}
	for _, inner := range append(append([]*rules.Condition{}, c.All...), c.Any...) {
		ids = append(ids, compared(inner)...)
	}
	for _, limit := range append([]*rules.Limit{c.AtLeast, c.AtMost, c.Is}, c.Within...) {
		if limit != nil && limit.Fact != "" {
			ids = append(ids, limit.Fact)
		}
	}
	return ids
}
