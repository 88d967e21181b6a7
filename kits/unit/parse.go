package unit

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// An Error says what is wrong with a text and what would be right; it has no place, which its reader knows.
type Error struct {
	What string
	Fix  string
}

func (e *Error) Error() string { return e.What + "; " + e.Fix }

// NumberPattern is what a number may look like: at most 12 digits before the point, so that no text can overflow a
// float64. The published JSON Schemas use the same text.
const NumberPattern = `[0-9]{1,12}(\.[0-9]+)?`

// widest is where no quantity reaches, in the first unit of its dimension: what NumberPattern can write, so that the
// exact text of every quantity is read back.
const widest = 1e12

var (
	number   = regexp.MustCompile(`^-?` + NumberPattern)
	anyComma = regexp.MustCompile(`^-?[0-9]+,[0-9]+`)
)

// Quantity is a value whose dimension is known only when the program runs: a limit in a rule pack, a fact.
type Quantity struct {
	SI  float64
	Dim Dimension
}

// ParseQuantity reads a number and a unit of the given dimension. The error is an *Error.
func ParseQuantity(dim Dimension, text string) (Quantity, error) {
	info := dim.Info()
	digits, symbol := split(text, info)
	if digits == "" {
		if anyComma.MatchString(text) {
			return Quantity{}, fail(fmt.Sprintf("%q has a decimal comma", text), "write a decimal point: "+strconv.Quote(strings.Replace(text, ",", ".", 1)))
		}
		return Quantity{}, fail(fmt.Sprintf("%q is not %s", text, info.Name), dim.wanted())
	}
	unit, ok := dim.unit(symbol)
	if !ok {
		return Quantity{}, fail(wrongUnit(text, symbol, info), dim.wanted())
	}
	n, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return Quantity{}, fail(fmt.Sprintf("%q has a number out of range", text), dim.wanted())
	}
	q := Quantity{unit.held(n), dim}
	switch {
	case math.Abs(info.Units[0].number(q.SI)) >= widest: // a large unit reaches further than its own digits tell
		return Quantity{}, fail(fmt.Sprintf("%q has a number out of range", text), dim.wanted())
	case digits[0] == '-' && !info.Signed && !unit.Log:
		return Quantity{}, fail(fmt.Sprintf("%q is negative, and %s cannot be", text, info.Name), dim.wanted())
	case q.SI < 0 && dim == DimTemperature:
		return Quantity{}, fail(fmt.Sprintf("%q is below absolute zero", text), dim.wanted())
	}
	return q, nil
}

// SymbolOf is the unit in which a text of this dimension is written, or empty for one that ParseQuantity refuses.
func SymbolOf(dim Dimension, text string) string {
	_, symbol := split(text, dim.Info())
	if _, ok := dim.unit(symbol); !ok {
		return ""
	}
	return symbol
}

// split takes a text apart into its number and its unit symbol; digits is empty when no whole number starts it.
func split(text string, info Info) (digits, symbol string) {
	if prefix := info.Units[0]; prefix.Prefix {
		rest, ok := strings.CutPrefix(text, prefix.Symbol)
		if rest = strings.TrimPrefix(rest, " "); ok && number.FindString(rest) == rest {
			return rest, prefix.Symbol
		}
		return "", ""
	}
	digits = number.FindString(text)
	rest := text[len(digits):]
	if strings.HasPrefix(rest, ",") || strings.HasPrefix(rest, ".") || rest != "" && rest[0] >= '0' && rest[0] <= '9' {
		return "", ""
	}
	return digits, spelling.Replace(strings.TrimPrefix(rest, " "))
}

func wrongUnit(text, symbol string, info Info) string {
	if symbol == "" {
		return fmt.Sprintf("%q has no unit, and %s needs one", text, info.Name)
	}
	if others := Having(symbol); len(others) > 0 {
		return fmt.Sprintf("%q is %s, and %s belongs here", text, others[0].Info().Name, info.Name)
	}
	return fmt.Sprintf("%q has the unknown unit %q", text, symbol)
}

// wanted says what a text of this dimension looks like.
func (d Dimension) wanted() string {
	info := d.Info()
	symbols := d.Symbols()
	if len(symbols) == 0 {
		return fmt.Sprintf("write a number, such as %q", info.Example)
	}
	return fmt.Sprintf("write %s in %s, such as %q", info.Name, orList(symbols), info.Example)
}

func orList(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

func fail(what, fix string) *Error { return &Error{what, fix} }

// held converts a number in this unit to the value held.
func (u Unit) held(n float64) float64 {
	if u.Log {
		return math.Pow(10, n/10) * u.Mul / u.Div
	}
	return n*u.Mul/u.Div + u.Add
}

// number converts a value held to a number in this unit.
func (u Unit) number(held float64) float64 {
	if u.Log {
		return 10 * math.Log10(held*u.Div/u.Mul)
	}
	return (held - u.Add) * u.Div / u.Mul
}

// In returns the value as a number in the unit with this symbol. It panics when the dimension has no such unit: the
// symbols are written in code and checked by tests, never taken from a user.
func (q Quantity) In(symbol string) float64 {
	unit, ok := q.Dim.unit(symbol)
	if !ok {
		panic(fmt.Sprintf("unit: %s has no unit %q", q.Dim, symbol))
	}
	return unit.number(q.SI)
}
