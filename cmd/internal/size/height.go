package size

import (
	"math"
	"slices"

	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// A Height is the line that gives the most coverage within the rules, the lowest height following the balloon.
type Height struct {
	Varied   string    `json:"varied"`
	Now      Standing  `json:"now"`
	Best     Standing  `json:"best"`
	NoGo     Amount    `json:"no_go"`        // the next step of line beyond, where a rule binds
	Binds    []Binding `json:"binds"`        // what it does not meet
	Why      string    `json:"why"`          // what ends it when no rule does, or why there is none
	LimitsIt string    `json:"radio_limits"` // what ends the coverage there
	Aside    []Binding `json:"aside,omitempty"`
}

// A Standing is one length of line and what it gives.
type Standing struct {
	Line     Amount `json:"line"`
	Lowest   Amount `json:"lowest_height"`
	Coverage Amount `json:"coverage"`
}

// best finds the line with the most coverage: the ends of what is GO, and the tops between.
func (k *kit) best() Height {
	a := k.line()
	h := Height{Varied: a.varied, Binds: []Binding{}, NoGo: a.amount(math.NaN())}
	h.Now, h.Best = k.standing(k.base, a.symbol), standingNowhere(a.symbol)
	if a.missing != "" {
		h.Why = a.missing
		return h
	}
	if math.IsNaN(k.base.number("radio.coverage_km")) {
		h.Why = "the coverage is not known"
		return h
	}
	// The kit as designed may have its lowest height well below where the balloon stands: it is no value of this row.
	at := a.views()
	states := a.judgeAll(at)
	aside := k.aside(a, states)
	for _, which := range k.short(states) {
		aside[which] = true
	}
	h.Aside = k.setAside(aside)
	start, found := a.start(at, states, aside)
	if !found {
		h.Why, h.Binds = a.nowhere(at, aside)
		return h
	}
	covers := func(x float64) float64 {
		if s := a.judge(x); s.goes(aside) {
			return s.number("radio.coverage_km")
		}
		return math.Inf(-1)
	}
	best, binds := start, state{}
	for _, towards := range []side{least, greatest} {
		good, bad, bounded := a.walk(at, start, towards, aside)
		if bounded {
			good, bad = a.narrow(good, bad, aside)
		}
		if covers(good) > covers(best) {
			best = good
			if bounded {
				binds, h.NoGo = a.judge(bad), a.amount(bad)
			}
		}
	}
	for i, x := range at {
		if covers(x) > covers(best) {
			best, binds, h.NoGo = a.top(at[max(i-1, 0)], at[min(i+1, len(at)-1)], covers), state{}, a.amount(math.NaN())
		}
	}
	s := a.judge(best)
	h.Best = k.standing(s, a.symbol)
	h.Best.Line = a.amount(best)
	if limit, ok := s.facts.Lookup("radio.limit"); ok && limit.Known() {
		h.LimitsIt = limit.Text
	}
	switch {
	case binds.none != "":
		h.Why = binds.none
	case binds.facts != nil:
		h.Binds = bindings(binds.failing(aside))
	default:
		h.Why = "longer or shorter, the line gives less"
	}
	return h
}

// short lists the rules about the coverage that no line meets: they cannot bind a search for the most of it.
func (k *kit) short(states []state) []key {
	var out []key
	for _, f := range k.base.findings {
		if f.Fact != "radio.coverage_km" {
			continue
		}
		met := func(s state) bool { i, ok := s.index[keyOf(f)]; return ok && s.findings[i].Outcome == rules.Met }
		if !slices.ContainsFunc(states, met) {
			out = append(out, keyOf(f))
		}
	}
	return out
}

// top narrows to the step with the most coverage between two, by thirds.
func (a *axis) top(low, high float64, covers func(float64) float64) float64 {
	first, last := a.below(low), a.below(high)
	for last-first > 2 {
		third := (last - first) / 3
		if covers(a.at(first+third)) < covers(a.at(last-third)) {
			first += max(third, 1)
		} else {
			last -= max(third, 1)
		}
	}
	best := a.at(first)
	for n := first; n <= last; n++ {
		if covers(a.at(n)) > covers(best) {
			best = a.at(n)
		}
	}
	return best
}

func (k *kit) standing(s state, symbol string) Standing {
	out := standingNowhere(symbol)
	for id, to := range map[string]*Amount{"station.tether_out_m": &out.Line, "station.lowest_height_m": &out.Lowest, "radio.coverage_km": &out.Coverage} {
		if v, ok := s.facts.Lookup(id); ok && v.Known() {
			*to = amount(v, k.system)
		}
	}
	return out
}

func standingNowhere(symbol string) Standing {
	nothing := Amount{Quantity: unit.Length(math.NaN()).Quantity(), Symbol: symbol}
	if symbol == "" {
		nothing.Symbol = "m"
	}
	return Standing{nothing, nothing, nothing}
}

// lowest varies the lowest height alone.
func (k *kit) lowest() *axis {
	a, n := k.number("lowest height", "/station/lowest_height")
	if a.missing != "" {
		return a
	}
	a.scale(unit.DimLength, n.Value.SI, 100)
	return a
}
