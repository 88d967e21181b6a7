package unit_test

import (
	"errors"
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// Whatever a stranger writes for a quantity is read as one finite value, which its exact text gives back, or refused in words.
func FuzzQuantity(f *testing.F) {
	for _, d := range unit.Dimensions() {
		f.Add(uint8(d), d.Info().Example)
	}
	for _, text := range []string{"-40 degC", "999999999999.999999 km", "3000 dBm", "-3000 dBm", "1,4 g/m", "4.75 V to 5.25 V", "AWG -3", "1e9 m", "0x10 m", "١٢ m", "5 V", "−5 V", " 5 m", "5  m", "5 m "} {
		f.Add(uint8(unit.DimLength), text)
		f.Add(uint8(unit.DimPower), text)
	}
	f.Fuzz(func(t *testing.T, dim uint8, text string) {
		all := unit.Dimensions()
		d := all[int(dim)%len(all)]
		q, err := unit.ParseQuantity(d, text)
		if err != nil {
			var said *unit.Error
			if !errors.As(err, &said) || said.What == "" || said.Fix == "" || q != (unit.Quantity{}) {
				t.Fatalf("%q: %v beside %v", text, q, err)
			}
			return
		}
		if math.IsNaN(q.SI) || math.IsInf(q.SI, 0) || q.Dim != d || !d.Info().Signed && q.SI < 0 {
			t.Fatalf("%q is read as %v", text, q)
		}
		if again, err := unit.ParseQuantity(d, q.Exact()); err != nil || again != q {
			t.Fatalf("%q is written exactly as %q and read as %v (%v), not %v", text, q.Exact(), again, err, q)
		}
		for _, system := range []unit.System{unit.SI, unit.US} {
			if q.Text(system) == "" {
				t.Fatalf("%q prints as nothing", text)
			}
		}
	})
}

// An amount of money is read exactly or refused.
func FuzzMoney(f *testing.F) {
	for _, text := range []string{"12.50 EUR", "0.00 JPY", "-3 USD", "99999999999999999999 EUR", "1e3 EUR", "12,50 EUR", "12.50", "EUR", "１ EUR", "0.000000000000000001 EUR"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if m, err := unit.ParseMoney(text); err == nil {
			if again, err := unit.ParseMoney(m.String()); err != nil || again.String() != m.String() {
				t.Fatalf("%q is %v, and that is read as %v (%v)", text, m, again, err)
			}
		}
		d, err := unit.ParseDecimal(text)
		if err != nil {
			return
		}
		if again, err := unit.ParseDecimal(d.String()); err != nil || again.Rat().Cmp(d.Rat()) != 0 {
			t.Fatalf("%q is %v, and that is read as %v (%v)", text, d, again, err)
		}
	})
}
