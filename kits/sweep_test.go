package kits

import (
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// A trial that changes nothing, or says what the design says, is the design.
func TestTrialOfTheDesign(t *testing.T) {
	for _, id := range Demos() {
		facts := demo(t, id)
		design, _ := facts.Lookup("wind.greatest_m_s")
		out, _ := facts.Lookup("station.tether_out_m")
		neck, _ := facts.Lookup("lift.neck_kg")
		for name, trial := range map[string]Trial{
			"nothing": {}, "the same line": {Out: unit.Length(out.Quantity.SI)}, "the same neck lift": {Neck: unit.Mass(neck.Quantity.SI)},
		} {
			got, reason := facts.Sweep().GreatestWind(trial)
			if math.Abs(got.Wind.SI()-design.Quantity.SI) > 1e-3 || reason != "" {
				t.Errorf("%s, %s: greatest wind %v (%s), want %v", id, name, got.Wind, reason, design)
			}
		}
		wind, _ := facts.Lookup("station.wind_m_s")
		needed, _ := facts.Lookup("lift.neck_needed_kg")
		fill, reason := facts.Sweep().NeckLiftNeeded(unit.Speed(wind.Quantity.SI))
		if math.Abs(fill.NeckLift.SI()-needed.Quantity.SI) > 1e-6 || reason != "" {
			t.Errorf("%s: neck lift needed %v (%s), want %v", id, fill.NeckLift, reason, needed)
		}
	}
}

// A balloon that may sink as low as it likes never bears less wind, and more wind never needs less lift.
func TestTrialsAreMonotonic(t *testing.T) {
	for _, id := range Demos() {
		facts := demo(t, id)
		held, _ := facts.Sweep().GreatestWind(Trial{})
		free, reason := facts.Sweep().GreatestWind(Trial{AnyHeight: true})
		if free.Wind < held.Wind-1e-3 || reason != "" {
			t.Errorf("%s: at any height %v (%s), less than %v at the lowest height", id, free.Wind, reason, held.Wind)
		}
		before := unit.Mass(0)
		for wind := unit.Speed(0); wind <= held.Wind; wind += held.Wind / 5 {
			fill, reason := facts.Sweep().NeckLiftNeeded(wind)
			if fill.NeckLift < before || reason != "" {
				t.Errorf("%s: in %v a neck lift of %v is needed (%s), less than %v in less wind", id, wind, fill.NeckLift, reason, before)
			}
			before = fill.NeckLift
		}
	}
}

// The line that is drawn ends where the facts say that the balloon stands, and is straight up in calm air.
func TestStandEndsAtTheBalloon(t *testing.T) {
	for _, id := range Demos() {
		facts := demo(t, id)
		wind, _ := facts.Lookup("station.wind_m_s")
		for _, c := range []struct {
			wind          unit.Speed
			height, drift string
		}{{unit.Speed(wind.Quantity.SI), "tether.height_m", "tether.drift_m"}, {0, "station.tether_out_m", ""}} {
			s := facts.Stand(c.wind)
			if s.Reason != "" {
				t.Fatalf("%s: %s", id, s.Reason)
			}
			top := s.Line[len(s.Line)-1]
			height, _ := facts.Lookup(c.height)
			drift, _ := facts.Lookup(c.drift)
			if math.Abs(top.Height.SI()-height.Quantity.SI) > 1e-3 || math.Abs(top.Drift.SI()-drift.Quantity.SI) > 1e-3 {
				t.Errorf("%s in %v: the line ends at %+v, want height %v and drift %v", id, c.wind, top, height, drift)
			}
		}
	}
}
