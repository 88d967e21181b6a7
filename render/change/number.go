package change

import (
	"fmt"
	"math"
	"strings"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A said is a manifest with its numbers by the pointers at which they stand: two at that of a range, else one.
type said struct {
	*manifest.Manifest
	numbers map[string][]manifest.Number
}

func read(m *manifest.Manifest) said {
	s := said{m, map[string][]manifest.Number{}}
	for _, n := range m.Numbers() {
		s.numbers[n.Pointer] = append(s.numbers[n.Pointer], n)
	}
	return s
}

// sameNumbers reports whether two texts mean the same numbers, in whatever units.
func sameNumbers(a, b []manifest.Number) bool {
	if len(a) == 0 || len(a) != len(b) {
		return false
	}
	for i := range a {
		x, y := a[i].Value, b[i].Value
		if x.Dim != y.Dim || math.Abs(x.SI-y.SI) > 1e-12*max(math.Abs(x.SI), math.Abs(y.SI)) {
			return false
		}
	}
	return true
}

// line says one change. For readers of US units numbers are printed anew; others read what is written.
func line(label, pointer, before, after string, x, y []manifest.Number, system unit.System) Line {
	l := Line{Pointer: pointer, What: label, Before: before, After: after}
	if system == unit.US {
		l.Before, l.After = printed(before, x, system), printed(after, y, system)
	}
	if len(x) == 1 && len(y) == 1 && x[0].Value.Dim == y[0].Value.Dim {
		l.Difference = difference(x[0], y[0], system)
	}
	return l
}

func printed(text string, n []manifest.Number, system unit.System) string {
	if len(n) == 0 || n[0].Price || n[0].Value.Dim == unit.DimCount {
		return text
	}
	texts := make([]string, len(n))
	for i := range n {
		texts[i] = n[i].Value.Text(system)
	}
	return strings.Join(texts, " to ")
}

// difference is by how much a number grew, in the unit of readers and as a part of what it was.
func difference(x, y manifest.Number, system unit.System) string {
	by := y.Value.SI - x.Value.SI
	sign := "+"
	if by < 0 {
		sign = "−"
	}
	var size string
	switch dim := x.Value.Dim; {
	case x.Price:
		size = fmt.Sprintf("%.2f", math.Abs(by))
	case dim == unit.DimTemperature && system == unit.US:
		size = unit.Figures(math.Abs(by)*9/5, 3) + " °F"
	case dim == unit.DimTemperature:
		size = unit.Figures(math.Abs(by), 3) + " °C"
	case dim == unit.DimRatio:
		size = unit.Figures(math.Abs(by)*100, 3) + " points"
	case dim == unit.DimLevel || dim == unit.DimGain:
		size = unit.Quantity{SI: math.Abs(by), Dim: unit.DimDecibel}.Text(system)
	default:
		size = unit.Quantity{SI: math.Abs(by), Dim: dim}.Text(system)
	}
	text := sign + size
	if x.Value.SI > 0 && (x.Price || grows[x.Value.Dim]) {
		text += fmt.Sprintf(" (%s%s %%)", sign, unit.Figures(math.Abs(by/x.Value.SI)*100, 2))
	}
	return text
}

// grows are the dimensions in which twice as much is 100 % more; of decibels and degrees nobody says so.
var grows = map[unit.Dimension]bool{
	unit.DimMass: true, unit.DimLength: true, unit.DimVolume: true, unit.DimDuration: true, unit.DimVoltage: true, unit.DimCurrent: true, unit.DimCharge: true,
	unit.DimPower: true, unit.DimSpeed: true, unit.DimForce: true, unit.DimLinearMass: true, unit.DimPressure: true,
}
