package unit

import (
	"encoding/json"
	"errors"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestDecimalKeepsWhatWasWritten(t *testing.T) {
	for _, text := range []string{"0", "4.20", "0.035", "260.00", "999999999999.999999"} {
		d, err := ParseDecimal(text)
		if err != nil || d.String() != text {
			t.Errorf("%q came back as %q, %v", text, d, err)
		}
		if want, _ := new(big.Rat).SetString(text); d.Rat().Cmp(want) != 0 {
			t.Errorf("%q as a fraction is %v, want %v", text, d.Rat(), want)
		}
	}
	if MustDecimal("4.2").Cmp(MustDecimal("4.20")) != 0 {
		t.Error("4.2 and 4.20 are one number")
	}
}

func TestDecimalRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"4,20":          `"4,20" has a decimal comma; write a decimal point: "4.20"`,
		"-1.00":         `"-1.00" is negative, and a price cannot be; write digits with a decimal point, such as "4.20"`,
		"1e3":           `"1e3" is not a decimal number of at most 12 digits and 6 decimals; write digits with a decimal point, such as "4.20"`,
		"":              `"" is not a decimal number of at most 12 digits and 6 decimals; write digits with a decimal point, such as "4.20"`,
		".5":            `".5" is not a decimal number of at most 12 digits and 6 decimals; write digits with a decimal point, such as "4.20"`,
		"NaN":           `"NaN" is not a decimal number of at most 12 digits and 6 decimals; write digits with a decimal point, such as "4.20"`,
		"1234567890123": `"1234567890123" is not a decimal number of at most 12 digits and 6 decimals; write digits with a decimal point, such as "4.20"`,
	} {
		_, err := ParseDecimal(text)
		var told *Error
		if !errors.As(err, &told) || err.Error() != want {
			t.Errorf("ParseDecimal(%q): %v\nwant %s", text, err, want)
		}
	}
}

// Minor units: ISO 4217 (from memory).
func TestCurrencies(t *testing.T) {
	for code, decimals := range map[string]int{"EUR": 2, "USD": 2, "GBP": 2, "CHF": 2, "JPY": 0, "KWD": 3, "XAF": 0} {
		c, err := ParseCurrency(code)
		if err != nil || c.Decimals() != decimals || c.Code() != code {
			t.Errorf("%s: %v with %d decimals, %v; want %d", code, c, c.Decimals(), err, decimals)
		}
	}
	for _, code := range []string{"EUX", "eur", "978", "XXX", "XTS", "", "EURO"} {
		if c, err := ParseCurrency(code); err == nil {
			t.Errorf("%q was taken for the currency %v", code, c)
		}
	}
}

// The tie cases are those of IEEE 754-2019 roundTiesToEven, at the cent.
func TestRoundsHalfToEven(t *testing.T) {
	eur, _ := ParseCurrency("EUR")
	jpy, _ := ParseCurrency("JPY")
	for _, c := range []struct {
		currency Currency
		amount   *big.Rat
		want     string
	}{
		{eur, big.NewRat(12345, 1000), "12.34 EUR"},
		{eur, big.NewRat(12355, 1000), "12.36 EUR"},
		{eur, big.NewRat(-12345, 1000), "-12.34 EUR"},
		{eur, big.NewRat(-12355, 1000), "-12.36 EUR"},
		{eur, big.NewRat(123451, 10000), "12.35 EUR"},
		{eur, big.NewRat(1, 3), "0.33 EUR"},
		{eur, big.NewRat(2, 3), "0.67 EUR"},
		{jpy, big.NewRat(1005, 10), "100 JPY"},
		{jpy, big.NewRat(1015, 10), "102 JPY"},
	} {
		got, err := c.currency.Round(c.amount)
		if err != nil || got.String() != c.want {
			t.Errorf("%v rounds to %v, %v; want %s", c.amount, got, err, c.want)
		}
	}
	if m, err := eur.Round(big.NewRat(1e17, 1)); err == nil {
		t.Errorf("an absurd amount became %v", m)
	}
}

func TestMoneyAsText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code := rapid.SampledFrom([]string{"EUR", "JPY", "KWD"}).Draw(t, "code")
		c, _ := ParseCurrency(code)
		m := c.Minor(rapid.Int64Range(-(1e12-1), 1e12-1).Draw(t, "minor"))
		text, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		var back Money
		if err := json.Unmarshal(text, &back); err != nil || back != m {
			t.Fatalf("%s came back as %v, %v", text, back, err)
		}
	})
	for _, text := range []string{"12.505 EUR", "12.5 JPY", "12,50 EUR", "12.50", "12.50 EUX", "12.50  EUR"} {
		if m, err := ParseMoney(text); err == nil {
			t.Errorf("%q was read as %v", text, m)
		}
	}
	if m, err := ParseMoney("12.5 EUR"); err != nil || m.String() != "12.50 EUR" || m.Decimal().String() != "12.50" {
		t.Errorf(`"12.5 EUR" was read as %v, %v`, m, err)
	}
}

func TestMoneyOfTwoCurrenciesDoesNotAdd(t *testing.T) {
	eur, _ := ParseCurrency("EUR")
	usd, _ := ParseCurrency("USD")
	if sum, err := eur.Minor(100).Add(usd.Minor(100)); err == nil {
		t.Errorf("the sum came to %v", sum)
	}
	if sum, err := (Money{}).Add(eur.Minor(250)); err != nil || sum != eur.Minor(250) {
		t.Errorf("nothing and 2.50 EUR came to %v, %v", sum, err)
	}
	if rest, err := eur.Minor(250).Sub(eur.Minor(300)); err != nil || rest.String() != "-0.50 EUR" {
		t.Errorf("2.50 less 3.00 came to %v, %v", rest, err)
	}
}
