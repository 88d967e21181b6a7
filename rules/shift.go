package rules

import (
	"cmp"
	"math"
	"slices"
)

// A Shift is what became of one finding between two judgements of a kit.
type Shift struct {
	Before, After *Finding // nil where the rule does not apply; never both
}

// Kind says in one word what a shift is.
type Kind uint8

// The kinds, the worst first.
const (
	Broken  Kind = iota // it held, or did not apply, and does not hold now
	Thinner             // less margin than before, whether it holds or not
	Gone                // the rule no longer applies
	Begun               // the rule applies now, and is met
	Changed             // something else of it, and neither for better nor for worse
	Same
	Wider  // more margin than before
	Mended // it did not hold and does now
)

// String is how reports write the kind.
func (k Kind) String() string {
	return [...]string{"broken", "thinner", "gone", "begun", "changed", "same", "wider", "mended"}[k]
}

// MarshalText writes the kind as reports do.
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// Now is the later finding, or the earlier one of a rule that no longer applies.
func (s Shift) Now() *Finding {
	if s.After != nil {
		return s.After
	}
	return s.Before
}

// Kind compares the two.
func (s Shift) Kind() Kind {
	switch b, a := s.Before, s.After; {
	case a == nil:
		return Gone
	case a.Outcome != Met && (b == nil || b.Outcome == Met):
		return Broken
	case b == nil:
		return Begun
	case b.Outcome != Met && a.Outcome == Met:
		return Mended
	case s.Loss() > 0:
		return Thinner
	case s.Loss() < 0:
		return Wider
	case b.Outcome == a.Outcome && b.Message == a.Message && (a.Relation == Present || a.Relation == Absent || same(b.Measure, a.Measure) && same(b.Limit, a.Limit)):
		return Same
	}
	return Changed
}

// Points is the change of the relative margin, or NaN where one of the two has none.
func (s Shift) Points() float64 {
	if s.Before == nil || s.After == nil {
		return math.NaN()
	}
	return s.After.Share - s.Before.Share
}

// Loss is the part of its margin that a finding has lost; a gain is negative, and what cannot be compared is 0. By this
// measure half of a thin margin is as much as half of a wide one: from 558 % of the limit to 400 % is less than from 3 % to 1 %.
func (s Shift) Loss() float64 {
	points := s.Points()
	if math.IsNaN(points) || math.Abs(points) <= slack*max(math.Abs(s.Before.Share), math.Abs(s.After.Share)) {
		return 0
	}
	const thin = 0.001 // a margin of less than a thousandth of the limit counts as one: nothing can be divided by none
	return -points / max(math.Abs(s.Before.Share), thin)
}

// Shifts pairs the findings of two judgements by rule and subject, the worst first: what is broken, MUST before SHOULD, then the
// greatest loss of margin, and at last what has gained most.
func Shifts(before, after []Finding) []Shift {
	type key struct{ rule, subject string }
	at := map[key]int{}
	var shifts []Shift
	for i := range before {
		at[key{before[i].Rule, before[i].Subject}] = len(shifts)
		shifts = append(shifts, Shift{Before: &before[i]})
	}
	for i := range after {
		if n, there := at[key{after[i].Rule, after[i].Subject}]; there {
			shifts[n].After = &after[i]
		} else {
			shifts = append(shifts, Shift{After: &after[i]})
		}
	}
	slices.SortStableFunc(shifts, func(a, b Shift) int {
		return cmp.Or(cmp.Compare(a.Kind(), b.Kind()), gravity(a)-gravity(b), -cmp.Compare(a.Loss(), b.Loss()))
	})
	return shifts
}

// gravity is 0 for a MUST that is broken; the margins of others are compared alike.
func gravity(s Shift) int {
	if s.Kind() == Broken && s.Now().Level != Must {
		return 1
	}
	return 0
}
