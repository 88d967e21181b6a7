package tether

import (
	"fmt"

	"hoistbook/kits/unit"
)

// A Bearing is what is known of a balloon that must not pull too hard. The rig's lift and fill are the unknowns, and not used.
type Bearing struct {
	Rig
	Gust          unit.Speed   // measured: the design wind × gust factor
	LiftPerVolume unit.Density // with which a lift tells the size of the balloon
	Largest       unit.Volume  // of the envelope: however warm the gas, the balloon is no larger
	Envelope      unit.Mass    // worst, which the gas lifts besides
	Hung          unit.Mass    // least mass of what hangs under the balloon, less what the line may turn out lighter
}

// NeckLiftMost is the largest neck lift with which something still bears the pull in the gust: bears is by how much it does,
// in parts of one, and below zero where it does not. A fuller balloon is also a larger one, so that both its lift and its
// drag grow, and more neck lift always pulls harder. The answer is the end of the bracket that holds. The error is ErrNone
// when not even the balloon that just carries its line is borne, or every balloon is.
func (b Bearing) NeckLiftMost(bears func(Solution) float64) (unit.Mass, error) {
	if err := b.check(); err != nil {
		return 0, err
	}
	spare := func(neck float64) (float64, error) {
		r := b.Rig
		r.Balloon.Fill = min(b.Largest, unit.Volume((neck+b.Envelope.SI())/b.LiftPerVolume.SI()))
		r.Lift = unit.Mass(neck) - b.Hung
		s, _, foot, err := r.settle(b.Gust)
		if err != nil {
			return 0, err
		}
		if foot.flat {
			s.PullUp = 0 // and not what rounding leaves of it
		}
		return bears(s), nil
	}
	least := (b.Hung+b.Line.Mass()).SI()*(1+1e-6) + 1e-9
	by, err := spare(least)
	if err != nil {
		return 0, err
	}
	if !(by >= 0) {
		return 0, fmt.Errorf("%w: a balloon that just carries its line pulls too hard in a gust of %v", ErrNone, b.Gust)
	}
	holds, fails := least, 1.5*least
	for ; ; holds, fails = fails, 1.5*fails {
		if by, err = spare(fails); err != nil {
			return 0, err
		}
		if !(by >= 0) {
			break
		}
		if fails > fullest*least {
			return 0, fmt.Errorf("%w: no balloon pulls too hard in a gust of %v", ErrNone, b.Gust)
		}
	}
	found, err := zero(spare, holds, fails, massWithin*fails)
	return unit.Mass(found.notNegative()), err
}

func (b Bearing) check() error {
	for _, q := range []struct {
		name         string
		value, least float64
	}{
		{"lift per volume", b.LiftPerVolume.SI(), 1e-3}, {"mass of the envelope", b.Envelope.SI(), 0}, {"mass hung on and line", (b.Hung + b.Line.Mass()).SI(), 0}, {"gust", b.Gust.SI(), 0},
		{"largest volume", b.Largest.SI(), 0},
	} {
		if !(q.value >= q.least) || infinite(q.value) {
			return fmt.Errorf("%w: %s of %v; it must be finite and at least %v", ErrInput, q.name, q.value, q.least)
		}
	}
	return nil
}
