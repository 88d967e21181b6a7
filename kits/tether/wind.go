package tether

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// A Profile is how the wind grows with height: U = U_m (z/z_m)^α, with U_m measured at the height z_m and the exponent α of
// the country upwind. It is meant for ten-minute means over level country in neutral air, some tens of metres up. In the
// stable air of a clear night the wind grows faster with height than it says: then the wind aloft must be measured.
//
// Source: patel, power law.
type Profile struct {
	MeasuredAt unit.Length
	Exponent   float64
}

// At is the wind at a height when the measured wind is U_m: none on the ground and below it.
func (p Profile) At(height unit.Length, measured unit.Speed) unit.Speed {
	if height <= 0 {
		return 0
	}
	return unit.Speed(measured.SI() * math.Pow(height.SI()/p.MeasuredAt.SI(), p.Exponent))
}

func (p Profile) check() error {
	switch {
	case !(p.MeasuredAt > 0) || infinite(p.MeasuredAt):
		return fmt.Errorf("%w: wind measured at %v; the height must be finite and above the ground", ErrInput, p.MeasuredAt)
	case !(p.Exponent >= 0 && p.Exponent <= 1):
		return fmt.Errorf("%w: wind exponent %v; it must lie between 0 and 1", ErrInput, p.Exponent)
	}
	return nil
}

// A Terrain is the country upwind.
type Terrain string

// The terrains, from the smoothest to the roughest.
const (
	Water  Terrain = "water"
	Open   Terrain = "open"
	Rough  Terrain = "rough"
	Wooded Terrain = "wooded"
	Town   Terrain = "town"
	City   Terrain = "city"
)

// Exponent is the terrain's exponent α in the power law; false for a terrain that is none of the constants.
// Source: patel, Table 4-3.
func (t Terrain) Exponent() (float64, bool) {
	switch t {
	case Water:
		return 0.10, true
	case Open:
		return 0.15, true
	case Rough:
		return 0.20, true
	case Wooded:
		return 0.25, true
	case Town:
		return 0.30, true
	case City:
		return 0.40, true
	}
	return 0, false
}
