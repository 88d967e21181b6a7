package tether

import (
	"fmt"

	"hoistbook/kits/unit"
)

// A Need is what a station needs its balloon to be filled for. The rig's lift and fill are the unknowns, and not used.
type Need struct {
	Rig
	Demand
	Wind          unit.Speed   // measured, the design wind
	LiftPerVolume unit.Density // gross lift per fill volume: ρ_air − ρ_gas
	Envelope      unit.Mass    // worst
	Hung          unit.Mass    // worst mass aloft less the envelope and the line
	Kept          unit.Ratio   // share of the gross lift that is left at the end of the station time
	LeastFreeLift unit.Ratio   // of the worst mass aloft
}

// A Fill is how full a balloon must be.
type Fill struct {
	NeckLift unit.Mass // at launch, as a scale reads it
	Gross    unit.Mass
	Volume   unit.Volume
	Binds    Criterion // that a smaller fill would break first
}

const (
	massWithin = 1e-5 // of the gross lift
	fullest    = 1e4  // times the least gross lift: nothing is searched for beyond it
)

// NeckLiftNeeded is the smallest neck lift with which, at the end of the station time, the least free lift holds in still
// air, and the lowest height and the greatest lean hold in the design wind. A fuller balloon is also a larger one: its volume
// and so its lift grow with the fill, its drag with the fill to the power of two thirds.
//
// The free lift gives the least gross lift outright, M (1 + least)/kept; where that does not stand in the wind, a larger one
// is bracketed and sought. More fill always leans less, so that there is one such fill; the answer is the end of the bracket
// that holds. The error is ErrNone when no fill holds: the line is shorter than the lowest height.
func (n Need) NeckLiftNeeded() (Fill, error) {
	if err := n.check(); err != nil {
		return Fill{}, err
	}
	least := (n.Envelope + n.Hung + n.Line.Mass()).SI() * (1 + n.LeastFreeLift.SI()) / n.Kept.SI()
	tight, err := n.margin(least)
	if err != nil {
		return Fill{}, err
	}
	if tight.by >= 0 {
		return n.fill(least, FreeLift), nil
	}
	fails, holds := least, 1.5*least
	for ; ; fails, holds = holds, 1.5*holds {
		if tight, err = n.margin(holds); err != nil {
			return Fill{}, err
		}
		if tight.by >= 0 {
			break
		}
		if holds > fullest*least {
			return Fill{}, none("there is no fill with which the %s holds in a wind of %v", tight.tight, n.Wind)
		}
	}
	found, err := zero(func(gross float64) (float64, error) {
		m, err := n.margin(gross)
		return m.by, err
	}, fails, holds, massWithin*holds)
	if err != nil {
		return Fill{}, err
	}
	tight, err = n.margin(found.best.x)
	return n.fill(found.notNegative(), tight.tight), err
}

// margin is that of the demand with a gross lift at launch.
func (n Need) margin(gross float64) (margin, error) {
	r := n.Rig
	r.Balloon.Fill = unit.Volume(gross / n.LiftPerVolume.SI())
	r.Lift = unit.Mass(gross*n.Kept.SI()) - n.Envelope - n.Hung
	return n.Demand.margin(r, n.Wind)
}

func (n Need) fill(gross float64, binds Criterion) Fill {
	return Fill{unit.Mass(gross) - n.Envelope, unit.Mass(gross), unit.Volume(gross / n.LiftPerVolume.SI()), binds}
}

func (n Need) check() error {
	for _, q := range []struct {
		name         string
		value, least float64
	}{
		{"lift per volume", n.LiftPerVolume.SI(), 1e-3}, {"mass of the envelope", n.Envelope.SI(), 0}, {"mass hung on", n.Hung.SI(), 0},
		{"share of lift kept", n.Kept.SI(), 1e-3}, {"least free lift", n.LeastFreeLift.SI(), 0}, {"wind", n.Wind.SI(), 0},
	} {
		if !(q.value >= q.least) || infinite(q.value) {
			return fmt.Errorf("%w: %s of %v; it must be finite and at least %v", ErrInput, q.name, q.value, q.least)
		}
	}
	if n.Kept > 1 {
		return fmt.Errorf("%w: share of lift kept of %v; it must be at most 1", ErrInput, n.Kept)
	}
	if n.LowestHeight > n.Line.Length {
		return none("even in calm %v of line do not reach %v", n.Line.Length, n.LowestHeight)
	}
	return n.Demand.check()
}
