package unit

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"github.com/govalues/decimal"
)

// DecimalPattern is what a price, or another exact number in a user's file, may look like: digits with a point, no sign,
// no exponent. Twelve digits and six decimals fit the nineteen digits that are held exactly. The published JSON Schemas
// use the same text.
const DecimalPattern = `[0-9]{1,12}(\.[0-9]{1,6})?`

var exactNumber = regexp.MustCompile(`^` + DecimalPattern + `$`)

// A Decimal is an exact decimal number, never a float: "4.20" keeps its two decimals. The zero value is 0. What divides
// is calculated in Rat and rounded once, at the end, by Currency.Round.
type Decimal struct{ held decimal.Decimal }

// ParseDecimal reads a number that DecimalPattern describes. The error is an *Error.
func ParseDecimal(text string) (Decimal, error) {
	const wanted = `write digits with a decimal point, such as "4.20"`
	if !exactNumber.MatchString(text) {
		switch unsigned, negative := strings.CutPrefix(text, "-"); {
		case anyComma.MatchString(text):
			return Decimal{}, fail(fmt.Sprintf("%q has a decimal comma", text), "write a decimal point: "+strconv.Quote(strings.Replace(text, ",", ".", 1)))
		case negative && exactNumber.MatchString(unsigned):
			return Decimal{}, fail(fmt.Sprintf("%q is negative, and a price cannot be", text), wanted)
		}
		return Decimal{}, fail(fmt.Sprintf("%q is not a decimal number of at most 12 digits and 6 decimals", text), wanted)
	}
	held, err := decimal.Parse(text)
	if err != nil {
		return Decimal{}, fail(fmt.Sprintf("%q is out of range", text), wanted)
	}
	return Decimal{held}, nil
}

// MustDecimal is ParseDecimal for constants written in code and in tests. It panics on a text that ParseDecimal refuses.
func MustDecimal(text string) Decimal {
	d, err := ParseDecimal(text)
	if err != nil {
		panic("unit: " + err.Error())
	}
	return d
}

// String prints the number with the decimals it has, a minus sign of ASCII, and no exponent.
func (d Decimal) String() string { return d.held.String() }

// Cmp is negative when d is the smaller, zero when both are equal ("4.2" equals "4.20"), positive when d is the greater.
func (d Decimal) Cmp(other Decimal) int { return d.held.Cmp(other.held) }

// IsZero reports whether the number is 0.
func (d Decimal) IsZero() bool { return d.held.IsZero() }

// Decimals is how many digits stand after the point.
func (d Decimal) Decimals() int { return d.held.Scale() }

// Rat is the same number as a fraction, in which sums, products and quotients stay exact.
func (d Decimal) Rat() *big.Rat {
	coefficient := new(big.Int).SetUint64(d.held.Coef())
	if d.held.IsNeg() {
		coefficient.Neg(coefficient)
	}
	return new(big.Rat).SetFrac(coefficient, new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(d.held.Scale())), nil))
}

// UnmarshalText reads a number as people write it; the error is an *Error.
func (d *Decimal) UnmarshalText(text []byte) (err error) {
	*d, err = ParseDecimal(string(text))
	return err
}

// MarshalText writes the number with the decimals it has.
func (d Decimal) MarshalText() ([]byte, error) { return []byte(d.String()), nil }
