package plan

import (
	"slices"
	"sort"

	"hoistbook/kits/unit"
)

// soon is how much later than due a set may be ready and still count: floating-point rounding, not time.
const soon = unit.Duration(1e-3)

// A rotation is the walk of the sets through use and charger.
type rotation struct {
	events []Event
	short  bool // a change came due with no set charged
}

// rotate walks sets through a station whose changes come due every use, with so many chargers.
func rotate(changes int, use, charge unit.Duration, sets, chargers int) rotation {
	var r rotation
	ready := make([]unit.Duration, sets+1) // when each set is charged; set 0 does not exist
	free := make([]unit.Duration, chargers)
	on := 1
	for k := 1; k <= changes; k++ {
		due := unit.Duration(k) * use
		next := 0
		for set := 1; set <= sets; set++ {
			if set != on && ready[set] <= due+soon && (next == 0 || ready[set] < ready[next]) {
				next = set
			}
		}
		if next == 0 {
			r.events = append(r.events, Event{At: due, Kind: Short, Off: on})
			r.short = true
			break
		}
		r.events = append(r.events, Event{At: due, Kind: Change, Set: next, Off: on})
		ready[on] = unit.Duration(changes+1) * use // never again, unless a charger takes it
		if chargers > 0 {
			first := slices.Index(free, slices.Min(free))
			free[first] = max(due, free[first]) + charge
			ready[on] = free[first]
			r.events = append(r.events, Event{At: free[first], Kind: Back, Set: on})
		}
		on = next
	}
	return r
}

// batteries plans the changes and fills in everything about sets and chargers.
func (p *Plan) batteries(s Station) {
	p.Changes, p.Sets, p.Rotation, p.Chargers = unknown[unit.Count](), unknown[unit.Count](), unknown[unit.Count](), unknown[unit.Count]()
	p.Outcome = NotKnown
	changes, use, ok := p.changes(s)
	if !ok {
		p.Reason = "the changes of battery are not known"
		return
	}
	p.Changes, p.Sets = unit.Count(changes), unit.Count(changes+1)
	sets, enough := s.Sets, s.Sets > changes
	if !given(s.ChargeTime) || !given(s.Chargers) || s.Chargers > most {
		p.withoutChargers(changes, use, sets)
		return
	}
	chargers := int(s.Chargers)
	short := func(sets, chargers int) bool { return rotate(changes, use, s.ChargeTime, sets, chargers).short }
	p.Rotation = least(1, changes+1, func(n int) bool { return short(n, chargers) })
	p.Chargers = least(0, sets, func(n int) bool { return short(sets, n) })
	r := rotate(changes, use, s.ChargeTime, sets, chargers)
	with := plural(sets, "set", "sets") + " with " + plural(chargers, "charger", "chargers")
	switch {
	case enough:
		r = rotate(changes, use, 0, sets, 0)
		p.Outcome, p.Reason = Enough, plural(sets, "set lasts", "sets last")+" without recharging"
	case r.short:
		p.Outcome, p.Reason = NotEnough, "recharging does not keep up: "+with
	default:
		p.Outcome, p.Reason = Recharged, "recharging keeps up: "+with
	}
	p.Events = append(p.Events, r.events...)
}

// withoutChargers plans when nothing is known about recharging.
func (p *Plan) withoutChargers(changes int, use unit.Duration, sets int) {
	p.Rotation = p.Sets
	if sets > changes {
		p.Outcome, p.Chargers = Enough, 0
		p.Reason = plural(sets, "set lasts", "sets last") + " without recharging"
	} else {
		p.Reason = plural(sets, "set does", "sets do") + " not last without recharging, and charge time or chargers are not known"
		p.Gaps = append(p.Gaps, "charge time or number of chargers is not known")
	}
	p.Events = append(p.Events, rotate(min(changes, sets-1), use, 0, sets, 0).events...) // as far as it is known
}

// least finds the smallest number from low to high that is not short, or NaN. A set comes off at the same times however
// many there are, so more sets or chargers never make it shorter, and halving the interval finds the least.
func least(low, high int, short func(int) bool) unit.Count {
	n := low + sort.Search(high-low+1, func(i int) bool { return !short(low + i) })
	if n > high {
		return unknown[unit.Count]()
	}
	return unit.Count(n)
}
