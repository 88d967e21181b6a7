package unit

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"github.com/govalues/decimal"
	"github.com/govalues/money"
)

// CurrencyPattern is the shape of a currency code; ParseCurrency also knows which of them exist.
const CurrencyPattern = `[A-Z]{3}`

var currencyCode = regexp.MustCompile(`^` + CurrencyPattern + `$`)

// A Currency is a currency of ISO 4217. The zero value is no currency (code XXX).
type Currency struct{ held money.Currency }

// ParseCurrency reads an ISO 4217 code. The error is an *Error.
func ParseCurrency(code string) (Currency, error) {
	held, err := money.ParseCurr(code)
	if err != nil || !currencyCode.MatchString(code) || held == money.XXX || held == money.XTS {
		return Currency{}, fail(fmt.Sprintf("%q is not a currency", code), `write the three capital letters of ISO 4217, such as "EUR"`)
	}
	return Currency{held}, nil
}

// Code returns the three letters.
func (c Currency) Code() string { return c.held.Code() }

// String returns the three letters.
func (c Currency) String() string { return c.Code() }

// Decimals is how many decimals the minor unit has: 2 for EUR, 0 for JPY.
func (c Currency) Decimals() int { return c.held.Scale() }

// UnmarshalText reads an ISO 4217 code; the error is an *Error.
func (c *Currency) UnmarshalText(text []byte) (err error) {
	*c, err = ParseCurrency(string(text))
	return err
}

// MarshalText writes the code.
func (c Currency) MarshalText() ([]byte, error) { return []byte(c.Code()), nil }

// Money is a whole number of a currency's minor units: what can be paid. Two currencies cannot be added by accident, as
// there is no operator; Add refuses them. The zero value is no money of no currency.
type Money struct {
	minor    int64
	currency Currency
}

// Minor makes Money of a number of minor units: 1250 is 12.50 EUR.
func (c Currency) Minor(units int64) Money { return Money{units, c} }

// Round makes Money of an exact amount, rounding half to even at the minor unit. It is done once, at a total. An amount
// that no budget could mean (more than 12 digits before the point) is an error.
func (c Currency) Round(amount *big.Rat) (Money, error) {
	scaled := new(big.Rat).Mul(amount, new(big.Rat).SetInt64(pow10(c.Decimals())))
	whole, rest := new(big.Int).DivMod(scaled.Num(), scaled.Denom(), new(big.Int)) // floor, so rest is not negative
	switch rest.Lsh(rest, 1).Cmp(scaled.Denom()) {
	case 1:
		whole.Add(whole, big.NewInt(1))
	case 0:
		whole.Add(whole, new(big.Int).SetUint64(uint64(whole.Bit(0))))
	}
	if limit := big.NewInt(pow10(12 + c.Decimals())); whole.CmpAbs(limit) >= 0 {
		return Money{}, fail("an amount of "+c.Code()+" is out of range", "check quantities and prices")
	}
	return Money{whole.Int64(), c}, nil
}

func pow10(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}

// ParseMoney reads "12.50 EUR". Fewer decimals than the currency has are filled with zeros, more are refused. The error
// is an *Error.
func ParseMoney(text string) (Money, error) {
	digits, code, ok := strings.Cut(text, " ")
	if !ok {
		return Money{}, fail(fmt.Sprintf("%q is not an amount of money", text), `write a number and a currency, such as "12.50 EUR"`)
	}
	c, err := ParseCurrency(code)
	if err != nil {
		return Money{}, err
	}
	unsigned, negative := strings.CutPrefix(digits, "-")
	d, err := ParseDecimal(unsigned)
	if err != nil {
		return Money{}, err
	}
	if d.held.MinScale() > c.Decimals() {
		return Money{}, fail(fmt.Sprintf("%q has more decimals than %s is paid in", text, code), fmt.Sprintf("write at most %d", c.Decimals()))
	}
	amount := d.Rat()
	if negative {
		amount.Neg(amount)
	}
	return c.Round(amount)
}

// Currency returns the currency.
func (m Money) Currency() Currency { return m.currency }

// MinorUnits returns the amount in minor units.
func (m Money) MinorUnits() int64 { return m.minor }

// Decimal returns the amount without its currency, with all the currency's decimals.
func (m Money) Decimal() Decimal {
	return Decimal{decimal.MustNew(m.minor, m.currency.Decimals())}
}

// Rat returns the amount as a fraction.
func (m Money) Rat() *big.Rat { return big.NewRat(m.minor, pow10(m.currency.Decimals())) }

// Add returns the sum; amounts of two currencies are an error, except that the zero Money adds to any.
func (m Money) Add(other Money) (Money, error) {
	if m == (Money{}) {
		return other, nil
	}
	if other == (Money{}) {
		return m, nil
	}
	if m.currency != other.currency {
		return Money{}, fail("cannot add "+strconv.Quote(m.String())+" and "+strconv.Quote(other.String()), "use one currency")
	}
	return Money{m.minor + other.minor, m.currency}, nil
}

// Sub returns the difference, under the same condition as Add.
func (m Money) Sub(other Money) (Money, error) {
	return m.Add(Money{-other.minor, other.currency})
}

// String prints "12.50 EUR", with a minus sign of ASCII and no exponent; ParseMoney reads it back.
func (m Money) String() string { return m.Decimal().String() + " " + m.currency.Code() }

// UnmarshalText reads "12.50 EUR"; the error is an *Error.
func (m *Money) UnmarshalText(text []byte) (err error) {
	*m, err = ParseMoney(string(text))
	return err
}

// MarshalText writes "12.50 EUR".
func (m Money) MarshalText() ([]byte, error) { return []byte(m.String()), nil }
