package size

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// A side is which end of what is GO is sought.
type side int

const (
	least    side = -1
	greatest side = +1
)

func (s side) String() string {
	if s == least {
		return "least"
	}
	return "greatest"
}

// A Limit is how far one thing can be changed.
type Limit struct {
	What   string    `json:"what"`   // "least fill"
	Varied string    `json:"varied"` // JSON pointer, or what is added
	Unit   string    `json:"unit"`
	Now    Amount    `json:"now"`
	Go     Amount    `json:"go"`              // the last value that is GO; null when there is none
	NoGo   Amount    `json:"no_go"`           // its neighbour, which is not; null when everything looked at is GO
	Binds  []Binding `json:"binds"`           // what the neighbour does not meet
	Why    string    `json:"why,omitempty"`   // why there is no value, or no neighbour
	Aside  []Binding `json:"aside,omitempty"` // what is not met whatever is varied here, and was left out
}

// looks is in how many places an axis is looked at before the search narrows.
const looks = 24

// limit finds the end of what is GO that lies on a side, nearest to the kit as designed.
func (k *kit) limit(a *axis, towards side) Limit {
	l := Limit{What: towards.String() + " " + a.what, Varied: a.varied, Binds: []Binding{}}
	unknown := a.amount(math.NaN())
	l.Now, l.Go, l.NoGo = unknown, unknown, unknown
	if a.missing != "" {
		l.Why = a.missing
		return l
	}
	l.Unit, l.Now = a.symbol, a.amount(a.now)
	at := a.views()
	states := a.judgeAll(at)
	aside := k.aside(a, states)
	l.Aside = k.setAside(aside)
	start, found := a.start(at, states, aside)
	if !found {
		l.Why, l.Binds = a.nowhere(at, aside)
		return l
	}
	good, bad, bounded := a.walk(at, start, towards, aside)
	if !bounded {
		l.Go, l.Why = a.amount(good), "everything that was looked at on this side is GO"
		return l
	}
	good, bad = a.narrow(good, bad, aside)
	l.Go, l.NoGo, l.Binds = a.amount(good), a.amount(bad), bindings(a.judge(bad).failing(aside))
	if s := a.judge(bad); s.none != "" {
		l.Why = s.none
	}
	return l
}

// views are the steps that are looked at first, and the value that is now; in order.
func (a *axis) views() []float64 {
	at := []float64{a.now}
	for i := range looks {
		at = append(at, a.at(a.below(a.low+(a.high-a.low)*float64(i)/(looks-1))))
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// start is the value that is GO nearest to the one that is now. Where none of those looked at is GO, the search climbs from
// the one that is nearest to GO.
func (a *axis) start(at []float64, states []state, aside map[key]bool) (float64, bool) {
	start, found := 0.0, false
	for i, x := range at {
		if states[i].goes(aside) && (!found || math.Abs(x-a.now) < math.Abs(start-a.now)) {
			start, found = x, true
		}
	}
	if found {
		return start, true
	}
	top := 0
	for i := range at {
		if states[i].worth(aside) > states[top].worth(aside) {
			top = i
		}
	}
	low, high := a.below(at[max(top-1, 0)]), a.below(at[min(top+1, len(at)-1)])
	for high-low > 2 {
		third := (high - low) / 3
		x, y := a.at(low+max(third, 1)), a.at(high-max(third, 1))
		for _, s := range []float64{x, y} {
			if a.judge(s).goes(aside) {
				return s, true
			}
		}
		if a.judge(x).worth(aside) < a.judge(y).worth(aside) {
			low += max(third, 1)
		} else {
			high -= max(third, 1)
		}
	}
	for n := low; n <= high; n++ {
		if a.judge(a.at(n)).goes(aside) {
			return a.at(n), true
		}
	}
	return 0, false
}

// nowhere says why nothing that was looked at is GO.
func (a *axis) nowhere(at []float64, aside map[key]bool) (why string, binds []Binding) {
	best := slices.MaxFunc(at, func(x, y float64) int { return cmp.Compare(a.judge(x).worth(aside), a.judge(y).worth(aside)) })
	s := a.judge(best)
	switch {
	case math.IsInf(s.worth(aside), -1) && s.none != "":
		return "not shown: " + s.none, []Binding{}
	case math.IsInf(s.worth(aside), -1):
		return "not shown: a rule that reads it is not shown", bindings(s.open(aside))
	}
	return fmt.Sprintf("no %s makes the kit fly; nearest to it is %s", a.what, a.amount(best).Text()), bindings(s.failing(aside))
}

// walk goes from a value that is GO to the first one looked at that is not.
func (a *axis) walk(at []float64, start float64, towards side, aside map[key]bool) (good, bad float64, bounded bool) {
	good = start
	ahead := slices.DeleteFunc(slices.Clone(at), func(x float64) bool { return x*float64(towards) <= start*float64(towards) })
	if towards == least {
		slices.Reverse(ahead)
	}
	for _, x := range ahead {
		if !a.judge(x).goes(aside) {
			return good, x, true
		}
		good = x
	}
	return good, 0, false
}

// narrow halves the steps between a value that is GO and one that is not until the two are neighbours.
func (a *axis) narrow(good, bad float64, aside map[key]bool) (float64, float64) {
	low, high := a.below(min(good, bad)), a.below(max(good, bad))
	for {
		// Steps strictly between the two: an end need not be a step itself.
		first, last := low, high
		for a.at(first) <= min(good, bad) {
			first++
		}
		for a.at(last) >= max(good, bad) {
			last--
		}
		if first > last {
			return good, bad
		}
		middle := (first + last) / 2
		if a.judge(a.at(middle)).goes(aside) {
			good = a.at(middle)
		} else {
			bad = a.at(middle)
		}
		low, high = a.below(min(good, bad)), a.below(max(good, bad))
	}
}
