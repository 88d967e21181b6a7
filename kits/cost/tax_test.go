package cost

import (
	"math/big"
	"testing"

	"hoistbook/kits/unit"
)

// The products by hand; a half goes to the even neighbour, and the tax is what the total then has over the net.
func TestTaxOfAnInvoice(t *testing.T) {
	for _, c := range []struct {
		currency   unit.Currency
		net        int64 // minor units
		rate       unit.Ratio
		tax, total string
	}{
		{eur, 125, 0.19, "0.24 EUR", "1.49 EUR"},      // 1.4875
		{eur, 50, 0.05, "0.02 EUR", "0.52 EUR"},       // 0.525, down to the even cent
		{eur, 150, 0.05, "0.08 EUR", "1.58 EUR"},      // 1.575, up to the even cent
		{eur, 10000, 0.21, "21.00 EUR", "121.00 EUR"}, // no remainder
		{eur, 999, 0, "0.00 EUR", "9.99 EUR"},
		{jpy, 105, 0.1, "11 JPY", "116 JPY"}, // 115.5, up to the even yen
		{jpy, 125, 0.1, "13 JPY", "138 JPY"}, // 137.5, up to the even yen
		{jpy, 115, 0.1, "11 JPY", "126 JPY"}, // 126.5, down to the even yen
	} {
		tax, total, err := WithTax(c.currency.Minor(c.net), c.rate)
		if err != nil || tax.String() != c.tax || total.String() != c.total {
			t.Errorf("%v with %v: tax %v, total %v, %v; want %s and %s", c.currency.Minor(c.net), c.rate, tax, total, err, c.tax, c.total)
		}
	}
}

// A hundredth of tax lifts the greatest amount that can be held over it.
func TestTaxThatCannotBeHeld(t *testing.T) {
	tax, total, err := WithTax(eur.Minor(99_999_999_999_999), 0.01)
	if err == nil || tax != (unit.Money{}) || total != (unit.Money{}) {
		t.Errorf("tax %v, total %v, %v", tax, total, err)
	}
}

// A share counts as it was written, to fourteen decimals: no binary fraction is exactly 7.7 %.
func TestAndTaxIsAsWritten(t *testing.T) {
	for rate, want := range map[unit.Ratio]*big.Rat{
		0: big.NewRat(1, 1), 0.19: big.NewRat(119, 100), 0.077: big.NewRat(1077, 1000), 0.1: big.NewRat(11, 10), 1: big.NewRat(2, 1),
		1e-14: new(big.Rat).SetFrac64(100_000_000_000_001, 100_000_000_000_000), 1e-15: big.NewRat(1, 1),
	} {
		if got := AndTax(rate); got.Cmp(want) != 0 {
			t.Errorf("1 and %v: got %v, want %v", float64(rate), got, want)
		}
	}
}
