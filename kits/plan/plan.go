package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"hoistbook/kits/unit"
)

// most bounds changes, top-ups, hours and chargers: a plan with more of them is a wrong number in the manifest.
const most = 1000

// rounding is by which part of itself a quotient may exceed a whole number and still be that number: it comes from units, not
// from time.
const rounding = 1e-12

// Make writes the plan. It never fails: what cannot be planned is NaN and said in Gaps.
func Make(s Station) Plan {
	p := Plan{Identifications: unknown[unit.Count](), OffAir: unknown[unit.Duration](), TopUps: unknown[unit.Count]()}
	p.batteries(s)
	p.gas(s)
	if !given(s.Duration) {
		p.Gaps = append(p.Gaps, "the duration of the station is not known")
		return p
	}
	p.OffAir = p.offAir(s)
	if s.Identify > 0 && given(s.Identify) {
		p.Identifications = unit.Count(math.Ceil(float64(s.Duration) / float64(s.Identify) * (1 - rounding)))
	}
	p.Events = append(p.Events, Event{Kind: Start, Set: 1}, Event{At: s.Duration, Kind: End})
	slices.SortStableFunc(p.Events, func(a, b Event) int { return cmp.Compare(a.At, b.At) }) // a set that is back stands before its change, a top-up after
	p.Events = slices.DeleteFunc(p.Events, func(e Event) bool { return e.Kind == Back && e.At >= s.Duration })
	p.hours(s)
	return p
}

// changes counts the changes of battery, ⌈duration/use⌉ − 1 with use = endurance · (1 − reserve).
func (p *Plan) changes(s Station) (changes int, use unit.Duration, ok bool) {
	use = s.Endurance * unit.Duration(1-s.Reserve)
	switch {
	case !given(s.Duration):
		return 0, 0, false
	case !given(s.Reserve) || s.Reserve >= 1:
		p.Gaps = append(p.Gaps, "the reserve left in a battery is not known")
	case !given(use) || use == 0:
		p.Gaps = append(p.Gaps, "the endurance of a battery is not known")
	case s.Sets < 1:
		p.Gaps = append(p.Gaps, "the number of battery sets is not known")
	case use <= s.ChangeTime:
		p.Gaps = append(p.Gaps, "a battery does not outlast its change")
	case float64(s.Duration)/float64(use) > most:
		p.Gaps = append(p.Gaps, fmt.Sprintf("the battery would be changed more than %d times", most))
	default:
		return int(max(math.Ceil(float64(s.Duration)/float64(use)*(1-rounding))-1, 0)), use, true
	}
	return 0, 0, false
}

// gas plans the top-ups. The share left after t days is (1 − loss)^t; the threshold is reached after
// log(threshold)/log(1 − loss) days. A top-up moves forward to the last change of battery before that, if there is one
// since the last: the balloon is down then anyway.
func (p *Plan) gas(s Station) {
	switch {
	case !given(s.GasLoss) || s.GasLoss >= 1:
		p.Gaps = append(p.Gaps, "the loss of gas is not known")
		return
	case !given(s.Duration):
		return
	case s.GasLoss == 0:
		p.TopUps = 0
		return
	case !given(s.TopUpAt) || s.TopUpAt == 0 || s.TopUpAt >= 1:
		p.Gaps = append(p.Gaps, "the share of gas at which to top up is not known")
		return
	}
	lasts := unit.Duration(math.Log(float64(s.TopUpAt)) / math.Log(1-float64(s.GasLoss)) * 86400)
	if float64(s.Duration)/float64(lasts) > most {
		p.Gaps = append(p.Gaps, fmt.Sprintf("the gas would be topped up more than %d times", most))
		return
	}
	p.TopUps = 0
	for last := unit.Duration(0); last+lasts < s.Duration; {
		e := Event{At: last + lasts, Kind: TopUp}
		for _, c := range p.Events {
			if c.Kind == Change && c.At > last && c.At <= last+lasts && (!e.With || c.At > e.At) {
				e.At, e.With = c.At, true
			}
		}
		p.Events = append(p.Events, e)
		p.TopUps++
		last = e.At
	}
}

// offAir adds up the time off the air: at a change with a top-up, the longer of the two.
func (p *Plan) offAir(s Station) unit.Duration {
	if math.IsNaN(float64(p.Changes)) || math.IsNaN(float64(p.TopUps)) || p.Outcome == NotEnough || p.Outcome == NotKnown {
		return unknown[unit.Duration]()
	}
	var sum unit.Duration
	for _, e := range p.Events {
		switch {
		case e.Kind == Change:
			sum += s.ChangeTime
		case e.Kind == TopUp && e.With:
			sum += max(s.TopUpTime-s.ChangeTime, 0)
		case e.Kind == TopUp:
			sum += s.TopUpTime
		}
	}
	if !given(sum) {
		p.Gaps = append(p.Gaps, "the time for a change of battery or a top-up is not known")
		return unknown[unit.Duration]()
	}
	return sum
}

// hours says what to expect at each full hour before the end; at an hour with an event, what holds after it.
func (p *Plan) hours(s Station) {
	if s.Duration > most*3600 {
		p.Gaps = append(p.Gaps, fmt.Sprintf("the station is longer than the %d hours that are listed", most))
		return
	}
	for at := unit.Duration(0); at < s.Duration; at += 3600 {
		h := Hour{At: at, Left: unknown[unit.Ratio](), Gas: unknown[unit.Ratio]()}
		var on, filled unit.Duration
		for _, e := range p.Events {
			if e.At > at+soon {
				break
			}
			switch e.Kind {
			case Start, Change:
				h.Set, on = e.Set, e.At
			case Short:
				h.Set = 0
			case TopUp:
				filled = e.At
			}
		}
		if math.IsNaN(float64(p.Changes)) {
			h.Set = 0
		}
		if h.Set > 0 {
			h.Left = unit.Ratio(max(1-float64(at-on)/float64(s.Endurance), 0))
		}
		if !math.IsNaN(float64(p.TopUps)) {
			h.Gas = unit.Ratio(math.Pow(1-float64(s.GasLoss), (at - filled).Days()))
		}
		p.Hours = append(p.Hours, h)
	}
}

func plural(n int, singular, many string) string {
	if n == 1 {
		return "1 " + singular
	}
	return fmt.Sprintf("%d %s", n, many)
}
