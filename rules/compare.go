package rules

import (
	"fmt"
	"math"
	"math/big"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// slack is by which part of themselves two numbers may differ and still be equal: far below the digits of any input, far
// above the rounding of a few multiplications. Without it a limit that is met exactly could fail by its last bit.
const slack = 1e-12

// A result is what became of a test, with the comparison that decided it.
type result struct {
	outcome  Outcome
	by       *comparison
	relation Relation
	measure  fact.Value
	limit    fact.Value
	margin   float64 // in the fact's unit, or NaN
	share    float64 // as a part of the limit, or NaN
	why      string  // of NotShown
	missing  string  // id of the fact whose lack is why
}

// A scope is where ids are looked up: one kit, and the subject that stands for the star.
type scope struct {
	facts   Facts
	subject string
	system  unit.System
	say     func(text string) string // Options.Say
}

// value looks a fact up. Whatever is not a value of the kind and dimension that the catalogue promised is unknown.
func (s scope) value(id string, about fact.Description) fact.Value {
	v, ok := s.facts.Lookup(fact.Fill(id, s.subject))
	switch {
	case !ok:
		return fact.Value{Kind: about.Kind, Unknown: "this kit has no such fact"}
	case !v.Known():
	case v.Kind != about.Kind || v.Kind == fact.Number && v.Quantity.Dim != about.Dim:
		v.Unknown = "the value is not of the kind that was promised"
	case v.Kind == fact.Number && (math.IsNaN(v.Quantity.SI) || math.IsInf(v.Quantity.SI, 0)):
		v.Unknown = "the result is not a finite number"
	}
	return v
}

// compare holds a fact against its limit.
func (s scope) compare(c *comparison) result {
	r := result{by: c, relation: c.relation, measure: s.value(c.fact, c.about), margin: math.NaN(), share: math.NaN()}
	switch c.relation {
	case Present:
		r.outcome = outcomeOf(r.measure.Known())
		return r
	case Absent:
		r.outcome = outcomeOf(!r.measure.Known())
		return r
	}
	var factor *big.Rat
	r.limit, factor = s.limit(c)
	for _, side := range []struct {
		id    string
		value fact.Value
	}{{c.fact, r.measure}, {c.limit.fact, r.limit}} {
		if !side.value.Known() {
			r.outcome, r.missing = NotShown, fact.Fill(side.id, s.subject)
			r.why = r.missing + " is not known: " + side.value.Unknown
			return r
		}
	}
	if r.relation == Is {
		r.outcome = outcomeOf(same(r.measure, r.limit))
		return r
	}
	room, size := s.room(&r, c, factor)
	if r.relation == AtMost {
		room, r.margin, r.share = -room, -r.margin, -r.share
	}
	if math.IsNaN(room) {
		r.outcome, r.why = NotShown, fmt.Sprintf("%s cannot be compared", fact.Fill(c.fact, s.subject))
		return r
	}
	if math.Abs(room) <= slack*size {
		room, r.margin = 0, 0
	}
	r.outcome = outcomeOf(room >= 0)
	if c.about.Kind == fact.Number {
		r.share = share(r)
	}
	return r
}

// limit finds the value of a limit, a factor on a Number taken in; that on money is returned, to be taken in exactly.
func (s scope) limit(c *comparison) (fact.Value, *big.Rat) {
	if c.limit.fact == "" {
		return c.limit.constant, nil
	}
	v := s.value(c.limit.fact, c.about)
	if c.limit.times == nil || !v.Known() {
		return v, nil
	}
	if v.Kind == fact.Number {
		factor, _ := c.limit.times.Float64()
		v.Quantity.SI *= factor
		return v, nil
	}
	return v, c.limit.times
}

// room returns measure less limit and the size of the larger, in the unit that values are held in, and sets the margin.
func (s scope) room(r *result, c *comparison, factor *big.Rat) (room, size float64) {
	if c.about.Kind == fact.Money {
		return moneyRoom(r, factor)
	}
	m, l := r.measure.Quantity, r.limit.Quantity
	r.margin = m.In(c.about.Unit) - l.In(c.about.Unit)
	return m.SI - l.SI, max(math.Abs(m.SI), math.Abs(l.SI))
}

// share is the margin as a part of the limit, in the unit that reports use; of the measure where the limit is zero. A count
// and a place in the spectrum have none: one battery where one is needed is not thin.
func share(r result) float64 {
	if dim := r.by.about.Dim; dim == unit.DimCount || dim == unit.DimFrequency {
		return math.NaN()
	}
	m, l := math.Abs(r.measure.Quantity.In(r.by.about.Unit)), math.Abs(r.limit.Quantity.In(r.by.about.Unit))
	switch {
	case r.margin == 0:
		return 0
	case l != 0:
		return r.margin / l
	}
	return r.margin / m
}

func same(a, b fact.Value) bool {
	switch a.Kind {
	case fact.Number:
		return math.Abs(a.Quantity.SI-b.Quantity.SI) <= slack*max(math.Abs(a.Quantity.SI), math.Abs(b.Quantity.SI))
	case fact.YesNo:
		return a.Yes == b.Yes
	}
	return a.Text == b.Text
}
