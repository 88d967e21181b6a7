package unit

import (
	"math"
	"strconv"
	"strings"
)

// A Side is that on which a limit lies.
type Side uint8

// The sides. A limit is rounded to where it is safe: whoever keeps to the printed number keeps to the limit.
const (
	AtLeast Side = iota // nothing less is good: rounded up
	AtMost              // nothing more is good: rounded down
)

// slack is by which part of themselves two numbers may differ and still be equal: far below the digits of any instrument, far
// above the rounding of a few multiplications. A number that was printed and is read again is that number.
const slack = 1e-12

// Keeps reports whether a value keeps to a limit on this side. What is not a number keeps to nothing.
func (q Quantity) Keeps(side Side, limit Quantity) bool {
	room := q.SI - limit.SI
	if side == AtMost {
		room = -room
	}
	return room >= -slack*max(math.Abs(q.SI), math.Abs(limit.SI))
}

// Limit prints a limit for a reader, to the figures of Text: a reading of just the printed number keeps to it, and the next
// number on its wrong side does not.
func (q Quantity) Limit(side Side, system System) string { return q.LimitIn(side, q.symbolFor(system)) }

// LimitIn is Limit in a unit of the caller's choice; it panics like In.
func (q Quantity) LimitIn(side Side, symbol string) string {
	text, _ := q.limit(side, symbol, 0)
	return text
}

// LimitFigures is the bare number of LimitIn: for tables whose unit stands elsewhere.
func (q Quantity) LimitFigures(side Side, symbol string) string {
	number, _ := q.rounded(side, symbol, 0)
	return number
}

// Limits prints two limits between which a value must lie, rounded inwards, with as many figures as it takes to leave
// room between them, and in one unit where that can be read.
func Limits(low, high Quantity, system System) (least, most string) {
	inLow, inHigh := together(low, high, system)
	apart := !low.Keeps(AtLeast, high) // what is one value, or runs backwards, has no room to be kept
	for figures := 0; ; figures++ {
		x, a := low.limit(AtLeast, inLow, figures)
		y, b := high.limit(AtMost, inHigh, figures)
		if figures > 12 || apart && a.SI < b.SI || !apart && a == b {
			return x, y
		}
	}
}

// Against prints a value and the limit that it is held against, this one rounded to its safe side, with as many figures as it takes
// for the two printed numbers to say what the values do. Two that are equal look equal.
func Against(value Quantity, side Side, limit Quantity, system System) (printed, bound string) {
	if value.Keeps(AtLeast, limit) && value.Keeps(AtMost, limit) {
		return Apart(value, limit, system)
	}
	inValue, inLimit := together(value, limit, system)
	for figures := 0; ; figures++ {
		bound, safe := limit.limit(side, inLimit, figures)
		printed, shown := value.nearest(inValue, figures)
		if figures > 12 || printed != bound && shown.Keeps(side, safe) == value.Keeps(side, limit) {
			return printed, bound
		}
	}
}

// nearest is textIn, and the value that was printed.
func (q Quantity) nearest(symbol string, least int) (string, Quantity) {
	u, _ := q.Dim.unit(symbol)
	n := q.In(symbol)
	shown, err := strconv.ParseFloat(strings.Replace(Figures(n, max(least, q.figures(n))), "−", "-", 1), 64)
	if err != nil {
		shown = math.NaN()
	}
	return q.textIn(symbol, least), Quantity{u.held(shown), q.Dim}
}

// limit prints a limit and returns the value that was printed.
func (q Quantity) limit(side Side, symbol string, least int) (string, Quantity) {
	number, printed := q.rounded(side, symbol, least)
	if math.IsNaN(printed.SI) {
		return number, printed
	}
	return q.dressed(number, symbol), printed
}

// rounded finds the number of so many figures that is nearest to a limit on its safe side.
func (q Quantity) rounded(side Side, symbol string, least int) (string, Quantity) {
	u, _ := q.Dim.unit(symbol)
	n := q.In(symbol)
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return "not shown", Quantity{math.NaN(), q.Dim}
	}
	decimals := 0
	if n != 0 {
		decimals = min(max(max(least, q.figures(n))-1-int(math.Floor(math.Log10(math.Abs(n)))), 0), 12)
	}
	one := math.Pow10(decimals)
	step := 1.0
	if side == AtMost {
		step = -1
	}
	// the nearest number of all, or the one behind it; what keeps to the limit is found out as for a reading of that number
	for k := math.Round(n * one); ; k += step {
		printed := Quantity{u.held(k / one), q.Dim}
		if !printed.Keeps(side, q) {
			continue
		}
		text := strconv.FormatFloat(k/one, 'f', decimals, 64)
		if strings.Contains(text, ".") {
			text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
		}
		if text == "-0" {
			text = "0"
		}
		return strings.Replace(text, "-", "−", 1), printed
	}
}
