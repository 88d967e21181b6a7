package unit

import (
	"math"
	"strconv"
	"strings"
)

// A System is the family of units in which a reader thinks.
type System uint8

// SI prints metres and kilograms; US prints feet and pounds.
const (
	SI System = iota
	US
)

// ParseSystem reads "si" or "us".
func ParseSystem(text string) (System, error) {
	switch text {
	case "si":
		return SI, nil
	case "us":
		return US, nil
	}
	return SI, fail("there is no system of units "+strconv.Quote(text), `write "si" or "us"`)
}

// A step of a ladder: from this size upwards (in the value held), print in this unit.
type step struct {
	from   float64
	symbol string
}

// ladders says in which unit a size is printed, per system; the smallest step also takes everything below it.
var ladders = [2]map[Dimension][]step{
	SI: {
		DimMass: {{0, "g"}, {1, "kg"}}, DimLength: {{0, "mm"}, {0.01, "cm"}, {1, "m"}, {2000, "km"}}, DimArea: {{0, "m2"}},
		DimVolume: {{0, "L"}, {0.1, "m3"}}, DimTemperature: {{0, "degC"}}, DimPressure: {{0, "hPa"}, {2e5, "bar"}}, DimSpeed: {{0, "m/s"}},
		DimForce: {{0, "N"}}, DimLinearMass: {{0, "g/m"}},
	},
	US: {
		DimMass: {{0, "oz"}, {pound, "lb"}}, DimLength: {{0, "in"}, {foot, "ft"}, {mile, "mi"}}, DimArea: {{0, "ft2"}},
		DimVolume: {{0, "ft3"}}, DimTemperature: {{0, "degF"}}, DimPressure: {{0, "inHg"}, {2e5, "psi"}}, DimSpeed: {{0, "mph"}},
		DimForce: {{0, "lbf"}}, DimLinearMass: {{0, "lb/100ft"}},
	},
}

// common holds the ladders that both systems share.
var common = map[Dimension][]step{
	DimDuration: {{0, "s"}, {120, "min"}, {2 * 3600, "h"}, {3 * 86400, "d"}}, DimVoltage: {{0, "V"}}, DimCurrent: {{0, "mA"}, {1, "A"}},
	DimCharge: {{0, "Ah"}}, DimEnergy: {{0, "J"}, {3600, "Wh"}}, DimPower: {{0, "mW"}, {1, "W"}}, DimFrequency: {{0, "kHz"}, {1e6, "MHz"}, {2e9, "GHz"}},
	DimResistance: {{0, "mohm"}, {1, "ohm"}}, DimAngle: {{0, "deg"}}, DimRatio: {{0, "%"}},
}

// symbolFor picks the unit in which a value is printed.
func (q Quantity) symbolFor(system System) string {
	steps, ok := ladders[system][q.Dim]
	if !ok {
		if steps, ok = common[q.Dim]; !ok {
			return q.Dim.Info().Units[0].Symbol
		}
	}
	symbol := steps[0].symbol
	for _, s := range steps {
		if math.Abs(q.SI) >= s.from {
			symbol = s.symbol
		}
	}
	return symbol
}

// Text prints the value for a reader, to three figures (four for a frequency's megahertz and a pressure), with a real
// minus sign, ° and Ω. A value that is not finite prints as "not shown".
func (q Quantity) Text(system System) string {
	return q.TextIn(q.symbolFor(system))
}

// TextIn is Text in a unit of the caller's choice; it panics like In.
func (q Quantity) TextIn(symbol string) string { return q.textIn(symbol, 0) }

// TextAs is Text with as many figures as it takes until the number that is printed will do for the value itself.
func (q Quantity) TextAs(system System, will func(printed Quantity) bool) string {
	symbol := q.symbolFor(system)
	for figures := 0; ; figures++ {
		if text, printed := q.nearest(symbol, figures); figures > 12 || will(printed) {
			return text
		}
	}
}

// Symbol is that of the unit in which Text prints the value, as In takes it.
func (q Quantity) Symbol(system System) string { return q.symbolFor(system) }

// TextTo prints the value in the unit with this symbol to so many decimals: for values that are steps of a row.
func (q Quantity) TextTo(symbol string, decimals int) string {
	n := q.In(symbol)
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return "not shown"
	}
	text := strconv.FormatFloat(n, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return q.dressed(strings.Replace(text, "-", "−", 1), symbol)
}

// Unit is the unit in which Text prints the value, as it is printed: for a line on which somebody writes such a value.
func (q Quantity) Unit(system System) string {
	return Written(q.symbolFor(system))
}

// Written is a symbol as it is printed.
func Written(symbol string) string {
	if symbol == "deg" {
		return "°"
	}
	return pretty.Replace(symbol)
}

// together are the units in which two values of one dimension stand side by side: that of the larger, as Between takes it, where
// the smaller is not tiny in it. Nobody compares inches with feet at a glance.
func together(a, b Quantity, system System) (x, y string) {
	x, y = a.symbolFor(system), b.symbolFor(system)
	const tiny = 0.1
	switch {
	case math.Abs(a.SI) >= math.Abs(b.SI) && math.Abs(b.In(x)) >= tiny:
		return x, x
	case math.Abs(b.SI) >= math.Abs(a.SI) && math.Abs(a.In(y)) >= tiny:
		return y, y
	}
	return x, y
}

// Apart prints two different values of one dimension with as many figures as it takes to tell them apart, so that no
// message says "4.75 V is below 4.75 V", and in one unit where that can be read.
func Apart(a, b Quantity, system System) (string, string) {
	inA, inB := together(a, b, system)
	for figures := 0; ; figures++ {
		x, y := a.textIn(inA, figures), b.textIn(inB, figures)
		if x != y || a == b || figures > 12 {
			return x, y
		}
	}
}

// Between prints the distance between two values of one dimension in the unit in which the larger of them is printed, with
// the decimals that the two show: what a reader gets who subtracts one from the other. A distance that is not
// nothing keeps one figure at least.
func Between(a, b Quantity, system System) string {
	larger := a
	if math.Abs(b.SI) > math.Abs(a.SI) {
		larger = b
	}
	symbol := larger.symbolFor(system)
	n := math.Abs(a.In(symbol) - b.In(symbol))
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return "not shown"
	}
	shown := 0
	for _, q := range [...]Quantity{a, b} {
		x := q.In(symbol)
		_, decimals, _ := strings.Cut(Figures(x, q.figures(x)), ".")
		shown = max(shown, len(decimals))
	}
	text := Figures(n, larger.figures(n))
	if n > 0 {
		rounded := Figures(n, shown+1+int(math.Floor(math.Log10(n))))
		if rounded == "0" {
			rounded = Figures(n, 1)
		}
		if len(rounded) < len(text) {
			text = rounded
		}
	}
	return larger.dressed(text, symbol)
}

// textIn prints in the unit with this symbol, to the usual figures or to more when least asks for them.
func (q Quantity) textIn(symbol string, least int) string {
	n := q.In(symbol)
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return "not shown"
	}
	return q.dressed(Figures(n, max(least, q.figures(n))), symbol)
}

// dressed puts the symbol to the number.
func (q Quantity) dressed(number, symbol string) string {
	if unit, _ := q.Dim.unit(symbol); unit.Prefix {
		return symbol + " " + number
	}
	switch symbol {
	case "":
		return number
	case "deg": // the only symbol that stands close to its number (NIST SP 811, 7.2)
		return number + "°"
	}
	return number + " " + pretty.Replace(symbol)
}

var pretty = strings.NewReplacer("deg", "°", "ohm", "Ω", "um", "µm", "uA", "µA", "m2", "m²", "m3", "m³", "ft2", "ft²", "ft3", "ft³")

func (q Quantity) figures(n float64) int {
	switch q.Dim {
	case DimFrequency:
		return 6
	case DimPressure, DimDensity:
		return 4
	case DimTemperature, DimGauge, DimCount:
		return max(2, len(strconv.Itoa(int(math.Abs(n)))))
	}
	return 3
}

// Figures prints n to so many significant figures without an exponent; digits before the point are never rounded away,
// zeros after it that carry nothing are dropped.
func Figures(n float64, figures int) string {
	if n == 0 {
		return "0"
	}
	decimals := figures - 1 - int(math.Floor(math.Log10(math.Abs(n))))
	text := strconv.FormatFloat(n, 'f', min(max(decimals, 0), 12), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return strings.Replace(text, "-", "−", 1)
}

// Exact prints the value in the unit it is held in, with as many decimals as it takes: ParseQuantity reads the same value
// back, but for the rounding of a percentage, if it is below 10^12.
func (q Quantity) Exact() string {
	held := q.Dim.Info().Units[0]
	n := strconv.FormatFloat(held.number(q.SI), 'f', -1, 64)
	if held.Prefix {
		return held.Symbol + " " + n
	}
	return strings.TrimSpace(n + " " + held.Symbol)
}
