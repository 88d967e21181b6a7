// Package power follows electricity from the battery to every module and says what arrives: the voltage range of each
// rail and load, the greatest currents, the heat of converters, and how long the battery lasts.
//
// A rail is a voltage with one feeder, a battery or a converter; together they form a tree. Everything is steady state and
// direct current: inrush, ripple, ageing and the battery's own resistance are left out, and so is the sag of a voltage
// under load other than in the wire of a load. Copper is taken at 20 °C.
//
// What is not known is NaN, and so is every result that depends on it, and only those. A NaN must be shown as "not
// shown": it is never a pass.
package power

import "math"

// number is any of the unit types that are floats.
type number interface{ ~float64 }

// unknown is the value of what is not known.
func unknown[T number]() T { return T(math.NaN()) }

// known returns v, or NaN when v is infinite: a number that is not finite is not a result.
func known[T number](v T) T {
	if math.IsInf(float64(v), 0) {
		return unknown[T]()
	}
	return v
}

func isUnknown[T number](v T) bool { return math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) }
