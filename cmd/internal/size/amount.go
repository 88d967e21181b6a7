package size

import (
	"encoding/json"
	"math"
	"strconv"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// An Amount is a quantity with the unit and the decimals in which it is reported. One that is not known is null in JSON.
type Amount struct {
	unit.Quantity
	Symbol   string
	Decimals int
}

// Text prints the amount.
func (a Amount) Text() string { return a.TextTo(a.Symbol, a.Decimals) }

// Known reports whether there is a value.
func (a Amount) Known() bool { return !math.IsNaN(a.SI) && !math.IsInf(a.SI, 0) }

// MarshalJSON writes the number in the amount's unit.
func (a Amount) MarshalJSON() ([]byte, error) {
	if !a.Known() {
		return []byte("null"), nil
	}
	return json.Marshal(digits(a.In(a.Symbol)))
}

// digits keeps twelve figures: more than any input has, and stable against the last bit of a converted unit.
func digits(n float64) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(n, 'g', 12, 64), 64)
	if err != nil {
		return n
	}
	return short
}

// A Share is a part of one; what is not known is null in JSON.
type Share float64

// MarshalJSON writes the share.
func (s Share) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(s)) || math.IsInf(float64(s), 0) {
		return []byte("null"), nil
	}
	return json.Marshal(digits(float64(s)))
}

// amount makes an Amount of a fact's value, to three figures for readers of the system.
func amount(v fact.Value, system unit.System) Amount {
	if !v.Known() || v.Kind != fact.Number {
		return Amount{Quantity: unit.Quantity{SI: math.NaN(), Dim: v.Quantity.Dim}, Symbol: v.Quantity.Dim.Info().Units[0].Symbol}
	}
	symbol := v.Quantity.Symbol(system)
	return Amount{v.Quantity, symbol, decimals(v.Quantity.In(symbol), 3)}
}

// decimals is how many of them show so many figures of n.
func decimals(n float64, figures int) int {
	if n == 0 || math.IsNaN(n) || math.IsInf(n, 0) {
		return 0
	}
	return max(0, figures-1-int(math.Floor(math.Log10(math.Abs(n)))))
}
