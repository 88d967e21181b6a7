package power

import (
	"math"

	"hoistbook/kits/unit"
)

// CopperResistivity is that of annealed copper at 20 °C in ohm metres: the International Annealed Copper Standard
// [iacs], 1.7241e-8, by convention. Hard-drawn wire has 2 to 3 % more, and each 10 °C above adds 4 %.
const CopperResistivity = 1.7241e-8

// WireDiameter is the diameter of a solid wire of an American wire gauge [astm-b258].
//
//	d = 0.127 mm × 92^((36−n)/39)
//
// It holds by definition for gauges 0 to 40 and agrees with the printed tables to their digits; stranded wire of the
// same gauge has about the same copper.
func WireDiameter(n unit.Gauge) unit.Length {
	return unit.Length(0.127e-3 * math.Pow(92, (36-float64(n))/39))
}

// A Wire is the pair of conductors that leads from a rail to a load. A Length of zero means that there is none.
type Wire struct {
	Gauge  unit.Gauge
	Length unit.Length // one way
}

// Resistance is that of both conductors, there and back, of copper at 20 °C: R = ρ · 2L/A.
func (w Wire) Resistance() unit.Resistance {
	if w.Length == 0 {
		return 0
	}
	d := float64(WireDiameter(w.Gauge))
	return known(unit.Resistance(CopperResistivity * 2 * float64(w.Length) / (math.Pi * d * d / 4)))
}

// Drop is the voltage lost in both conductors at a current (Ohm's law).
func (w Wire) Drop(i unit.Current) unit.Voltage {
	return known(unit.Voltage(float64(w.Resistance()) * float64(i)))
}

// ampacities are the currents that a single wire in free air carries in a chassis, by gauge (Handbook of Electronic
// Tables and Formulas, as quoted in Floyd, Principles of Electric Circuits) [ampacity].
var ampacities = []struct {
	gauge   unit.Gauge
	current unit.Current
}{
	{10, 55}, {12, 41}, {14, 32}, {16, 22}, {18, 16}, {20, 11}, {22, 7}, {24, 3.5}, {26, 2.2}, {28, 1.4}, {30, 0.86},
}

// Ampacity is the current that the wire carries without overheating, as a single wire in free air; in a bundle or under
// insulation it is far less. Of a gauge between two of the table the thinner one's current is taken; a gauge outside
// the table gives NaN, and so does no wire at all.
func (w Wire) Ampacity() unit.Current {
	if w.Length == 0 {
		return unknown[unit.Current]()
	}
	for i, a := range ampacities {
		if w.Gauge == a.gauge || i > 0 && w.Gauge > ampacities[i-1].gauge && w.Gauge < a.gauge {
			return a.current
		}
	}
	return unknown[unit.Current]()
}
