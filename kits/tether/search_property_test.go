package tether

import (
	"errors"
	"testing"

	"hoistbook/kits/unit"
	"pgregory.net/rapid"
)

func anyStation(t *rapid.T) Station {
	r := anyRig(t)
	return Station{
		Rig:         r,
		Demand:      Demand{unit.Length(rapid.Float64Range(0, 0.95).Draw(t, "lowest") * r.Line.Length.SI()), unit.Angle(rapid.Float64Range(0.2, 1.4).Draw(t, "lean"))},
		InitialLift: r.Lift * unit.Mass(rapid.Float64Range(1, 1.2).Draw(t, "initial")), GustFactor: rapid.Float64Range(1, 2).Draw(t, "gust"),
		WorkingLoad: unit.Force(r.Lift.Weight().SI() * rapid.Float64Range(1.3, 20).Draw(t, "load")),
	}
}

func (s Station) holds(t *rapid.T, wind unit.Speed) bool {
	mean, err := s.In(wind)
	peak, err2 := s.Peak(wind)
	if errors.Is(err, ErrOnGround) || errors.Is(err2, ErrOnGround) {
		return false
	}
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	return mean.Height >= s.LowestHeight && mean.Lean <= s.GreatestLean && peak.TensionTop <= s.WorkingLoad
}

func TestGreatestWindDividesTheWinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStation(t)
		limit, err := s.GreatestWind()
		if errors.Is(err, ErrNone) {
			t.Skip("none")
		}
		if err != nil {
			t.Fatal(err)
		}
		share := unit.Speed(rapid.Float64Range(0, 1).Draw(t, "share"))
		if less := limit.Wind * share; !s.holds(t, less) {
			t.Errorf("greatest wind %v m/s, but %v m/s does not hold", float64(limit.Wind), float64(less))
		}
		// A heavy line that lies down in a wind can lift off again in a stronger one; any other criterion stays broken.
		if more := limit.Wind*(1+share) + 2*speedWithin; limit.Binds != OffGround && s.holds(t, more) {
			t.Errorf("greatest wind %v m/s, but %v m/s holds", float64(limit.Wind), float64(more))
		}
	})
}

func TestAHeavierPayloadNeverBearsMoreWind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStation(t)
		// A heavier payload slackens the line, which only a working load that binds could welcome.
		s.WorkingLoad = 1e6
		light, err := s.GreatestWind()
		if errors.Is(err, ErrNone) {
			t.Skip("none")
		}
		heavier := s
		mass := unit.Mass(rapid.Float64Range(0, 0.9).Draw(t, "mass")) * (s.Lift - s.Line.Mass())
		heavier.Lift -= mass
		heavier.InitialLift -= mass
		heavy, err2 := heavier.GreatestWind()
		if errors.Is(err2, ErrNone) {
			return
		}
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if heavy.Wind > light.Wind+2*speedWithin {
			t.Errorf("%v m/s with %v less lift, %v m/s without", float64(heavy.Wind), mass, float64(light.Wind))
		}
	})
}

func TestNeckLiftNeededIsTheSmallest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRig(t)
		n := Need{
			Rig: r, Demand: Demand{unit.Length(rapid.Float64Range(0, 0.9).Draw(t, "lowest") * r.Line.Length.SI()), unit.Angle(rapid.Float64Range(0.2, 1.4).Draw(t, "lean"))},
			Wind: unit.Speed(between(t, "wind", 0.1, 10)), LiftPerVolume: unit.Density(rapid.Float64Range(0.7, 1.2).Draw(t, "lift per volume")),
			Envelope: unit.Mass(between(t, "envelope", 0.05, 2)), Hung: unit.Mass(between(t, "hung", 0.05, 5)),
			Kept: unit.Ratio(rapid.Float64Range(0.7, 1).Draw(t, "kept")), LeastFreeLift: unit.Ratio(rapid.Float64Range(0.02, 0.5).Draw(t, "least")),
		}
		got, err := n.NeckLiftNeeded()
		if errors.Is(err, ErrNone) {
			t.Skip("none")
		}
		if err != nil {
			t.Fatal(err)
		}
		mass := n.Envelope + n.Hung + r.Line.Mass()
		holds := func(gross unit.Mass) bool {
			filled := r
			filled.Balloon.Fill = unit.Volume(gross.SI() / n.LiftPerVolume.SI())
			filled.Lift = gross*unit.Mass(n.Kept) - n.Envelope - n.Hung
			if gross*unit.Mass(n.Kept)-mass < mass*unit.Mass(n.LeastFreeLift)*(1-1e-9) {
				return false
			}
			s, err := filled.In(n.Wind)
			if err != nil && !errors.Is(err, ErrOnGround) {
				t.Fatal(err)
			}
			return err == nil && s.Height >= n.LowestHeight && s.Lean <= n.GreatestLean
		}
		more := unit.Mass(rapid.Float64Range(0, 2).Draw(t, "more"))
		if gross := got.Gross * (1 + more); !holds(gross) {
			t.Errorf("gross lift needed %v, but %v does not hold", float64(got.Gross), float64(gross))
		}
		less := unit.Mass(rapid.Float64Range(0, 0.9).Draw(t, "less"))
		if gross := got.Gross * (1 - less - 1e-4); holds(gross) {
			t.Errorf("gross lift needed %v, but %v holds", float64(got.Gross), float64(gross))
		}
		if got.Binds == OffGround {
			return // more wind may pull a heavy line off the ground
		}
		windier := n
		windier.Wind *= 1.1
		if again, err := windier.NeckLiftNeeded(); err == nil && again.NeckLift < got.NeckLift-unit.Mass(1e-4*got.Gross.SI()) {
			t.Errorf("more wind needs less: %v after %v", again.NeckLift, got.NeckLift)
		}
	})
}
