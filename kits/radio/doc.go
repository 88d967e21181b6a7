// Package radio says how far a relay reaches, whether it deafens itself, and how far people keep from its antennas.
//
// Path loss is a median over smooth or rolling country between isotropic antennas, in decibels; the fade margin stands
// for everything that varies. Terrain, buildings by name, interference and the ground under an antenna are left out. Each
// model is used beyond its published limits only with a sentence that says so; the sentences are part of the result.
//
// What is not known is NaN, and so is every result that depends on it. A NaN must be shown as "not shown": it is never a
// pass.
package radio

import (
	"math"

	"hoistbook/kits/unit"
)

// LightSpeed in a vacuum, m/s: exact by definition of the metre. [codata-2018]
const LightSpeed = 299792458

// Wavelength in a vacuum.
func Wavelength(f unit.Frequency) unit.Length { return unit.Length(LightSpeed / float64(f)) }

// number is any of the unit types that are floats.
type number interface{ ~float64 }

func unknown[T number]() T { return T(math.NaN()) }

// known returns v, or NaN when v is infinite: a number that is not finite is not a result.
func known[T number](v T) T {
	if math.IsInf(float64(v), 0) {
		return unknown[T]()
	}
	return v
}

func isUnknown[T number](v T) bool { return math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) }

func megahertz(f unit.Frequency) float64 { return float64(f) / 1e6 }
