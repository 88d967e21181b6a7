// Package fact has the words in which those who compute facts and those who judge them speak to each other: a value that
// may be unknown, and what can be said of a fact before any value exists. The rules engine asks through these types and
// never learns what a balloon is.
package fact

import (
	"math"
	"strconv"
	"strings"

	"hoistbook/kits/unit"
)

// Kind says which of a Value's fields holds it.
type Kind uint8

// The kinds of values.
const (
	Number Kind = iota // Quantity
	Word               // Text
	YesNo              // Yes
	Money              // Text, an exact decimal
)

// A Value is a fact's value, or the reason why there is none.
type Value struct {
	Kind     Kind
	Quantity unit.Quantity
	Text     string
	Yes      bool
	In       string // of a Number, the unit in which every reader is told it; empty for the one that suits its size and the reader
	Unknown  string // not empty: there is no value, and this says why
}

// Of makes a Number; one that is not finite becomes unknown.
func Of(q unit.Quantity) Value {
	if math.IsNaN(q.SI) || math.IsInf(q.SI, 0) {
		return Value{Kind: Number, Quantity: unit.Quantity{SI: math.NaN(), Dim: q.Dim}, Unknown: "the result is not a finite number"}
	}
	return Value{Kind: Number, Quantity: q}
}

// Known reports whether there is a value.
func (v Value) Known() bool { return v.Unknown == "" }

// Print writes the value for readers of the given system of units, in the unit with this symbol where one is given.
func (v Value) Print(system unit.System, symbol string) string {
	switch {
	case !v.Known():
		return "not shown"
	case v.Kind == Number && symbol != "":
		return v.Quantity.TextIn(symbol)
	case v.Kind == Number && v.In != "":
		return v.Quantity.TextIn(v.In)
	case v.Kind == Number:
		return v.Quantity.Text(system)
	case v.Kind == YesNo && v.Yes:
		return "yes"
	case v.Kind == YesNo:
		return "no"
	}
	return v.Text
}

// Limit is Print for a value that is a limit: a number is rounded to its safe side.
func (v Value) Limit(side unit.Side, system unit.System) string {
	switch {
	case !v.Known() || v.Kind != Number:
		return v.Print(system, "")
	case v.In != "":
		return v.Quantity.LimitIn(side, v.In)
	}
	return v.Quantity.Limit(side, system)
}

// JSON returns the value as the report writes it: a number in the given unit, a word, a truth, a decimal text, or nil when unknown.
func (v Value) JSON(symbol string) any {
	switch {
	case !v.Known():
		return nil
	case v.Kind == Number:
		// Twelve figures: more than any input has, and stable against the last bit of a converted unit.
		n, err := strconv.ParseFloat(strconv.FormatFloat(v.Quantity.In(symbol), 'g', 12, 64), 64)
		if err != nil {
			return nil
		}
		return n
	case v.Kind == YesNo:
		return v.Yes
	}
	return v.Text
}

// Description says what is known of a fact before it has a value.
type Description struct {
	ID    string // "lift.gross_kg", or with a star for the subject: "power.loads.*.lowest_v"
	Kind  Kind
	Dim   unit.Dimension // of a Number
	Unit  string         // symbol in which reports give a Number
	Title string
	Words []string // the words that a Word may be, when they are known
}

// Match splits a concrete id by a pattern with one star; subject is what stands for the star.
func Match(pattern, id string) (subject string, ok bool) {
	head, tail, starred := strings.Cut(pattern, "*")
	if !starred {
		return "", pattern == id
	}
	if len(id) <= len(head)+len(tail) || !strings.HasPrefix(id, head) || !strings.HasSuffix(id, tail) {
		return "", false
	}
	subject = id[len(head) : len(id)-len(tail)]
	return subject, !strings.Contains(subject, ".")
}

// Fill puts the subject in place of the star.
func Fill(pattern, subject string) string { return strings.Replace(pattern, "*", subject, 1) }
