package lift

import (
	"fmt"
	"math"
	"testing"

	"hoistbook/kits/internal/outside"
	"hoistbook/kits/unit"
)

func must[T ~float64](v T, err error) float64 {
	if err != nil {
		panic(err)
	}
	return float64(v)
}

// virials are the coefficients by the names of the gases.
var virials = map[string]float64{"helium": VirialHelium, "hydrogen": VirialHydrogen}

func TestPublishedValues(t *testing.T) {
	z := func(bar float64) float64 {
		z, err := Cylinder{1, unit.Pressure(bar * 1e5), unit.Celsius(15), VirialHelium}.Compressibility()
		return must(unit.Ratio(z), err)
	}
	const one = "one virial coefficient leaves out what three molecules do together: less gas, not more"
	var checks []outside.Check
	for _, row := range []struct {
		bar     float64
		printed string
		within  float64
	}{{1, "1.0005", 0}, {10, "1.0049", 0}, {50, "1.0244", 3e-4}, {100, "1.0487", 6e-4}, {150, "1.0727", 1.2e-3}, {200, "1.0965", 2.1e-3}} {
		c := outside.Check{What: fmt.Sprintf("compressibility of helium, 15 °C, %v bar", row.bar), Source: "published table of helium's compressibility at 15 °C", Published: row.printed, Ours: z(row.bar), Within: row.within}
		if row.within > 0 {
			c.Why = one
		}
		checks = append(checks, c)
	}
	moles := must(Cylinder{0.05, 200e5, unit.Celsius(15), VirialHelium}.Moles())
	free := 8.314462618 * 288.15 / 101325 // m³ a mole
	checks = append(checks,
		outside.Check{What: "content of a 50 L cylinder of helium, 200 bar, 15 °C, at 15 °C and 101 325 Pa", Source: "published table of helium's compressibility at 15 °C, worked with it", Published: "8.997", Unit: "m³", Ours: moles * free, Within: 0.02, Why: one},
		outside.Check{What: "moles of an ideal gas in 22.41396954 L, 0 °C, 101 325 Pa", Source: "codata-2018", At: "molar volume of an ideal gas", Published: "1.00000000", Ours: must(FillMoles(22.41396954e-3, 101325, unit.Celsius(0)))},
		outside.Check{What: "a tenth more volume from 0 °C to 27.315 °C", Source: "ideal-gas", At: "Charles", Published: "1.100", Ours: must(Warmed(1, unit.Celsius(0), unit.Celsius(27.315), 1e5, 1e5))},
	)
	outside.Table(t, "kits/lift", "Lift", checks)
}

func TestAgainstFormulasWorkedIndependently(t *testing.T) {
	outside.Rows(t, "lift.csv", 1e-9, map[string]func(*outside.Row) float64{
		"fill_moles": func(r *outside.Row) float64 {
			return must(FillMoles(unit.Volume(r.Number()), unit.Pressure(r.Number()), unit.Kelvin(r.Number())))
		},
		"cylinder": func(r *outside.Row) float64 {
			virial := virials[r.Text()]
			return must(Cylinder{unit.Volume(r.Number()), unit.Pressure(r.Number()), unit.Kelvin(r.Number()), virial}.Moles())
		},
		"warmed": func(r *outside.Row) float64 {
			fill, before, cold := unit.Volume(r.Number()), unit.Pressure(r.Number()), unit.Kelvin(r.Number())
			after, hot := unit.Pressure(r.Number()), unit.Kelvin(r.Number())
			return must(Warmed(fill, cold, hot, before, after))
		},
		"kept": func(r *outside.Row) float64 {
			return must(Kept(unit.Loss(r.Number()), unit.Duration(r.Number())))
		},
		"top_up_after": func(r *outside.Row) float64 {
			return must(TopUpAfter(unit.Mass(r.Number()), unit.Mass(r.Number()), unit.Loss(r.Number())))
		},
	})
}

// Each limit is the last value that passes; what is beyond it is refused, and a refusal has no number in it.
func TestTheEdgesOfWhatIsComputed(t *testing.T) {
	ok := unit.Celsius(15)
	// refused makes an error of a value that is none.
	refused := func(v float64, err error) error {
		if err != nil && v != 0 {
			t.Errorf("%v stands beside %v", v, err)
		}
		return err
	}
	fill := func(v, p, k float64) error {
		n, err := FillMoles(unit.Volume(v), unit.Pressure(p), unit.Kelvin(k))
		return refused(float64(n), err)
	}
	cylinder := func(v, p, k, virial float64) error {
		n, err := Cylinder{unit.Volume(v), unit.Pressure(p), unit.Kelvin(k), virial}.Moles()
		return refused(float64(n), err)
	}
	warmed := func(v, p1, k1, p2, k2 float64) error {
		n, err := Warmed(unit.Volume(v), unit.Kelvin(k1), unit.Kelvin(k2), unit.Pressure(p1), unit.Pressure(p2))
		return refused(float64(n), err)
	}
	kept := func(loss, seconds float64) error {
		n, err := Kept(unit.Loss(loss), unit.Duration(seconds))
		return refused(float64(n), err)
	}
	topUp := func(gross, needed, loss float64) error {
		n, err := TopUpAfter(unit.Mass(gross), unit.Mass(needed), unit.Loss(loss))
		return refused(float64(n), err)
	}
	cylinders := func(fill, each float64) error {
		n, err := Cylinders(Moles(fill), Moles(each))
		return refused(float64(n), err)
	}
	k := ok.Kelvin()
	for _, c := range []struct {
		name       string
		try        func(float64) error
		in, beyond float64
	}{
		{"an empty fill", func(x float64) error { return fill(x, 1e5, k) }, 0, -1e-9},
		{"the greatest pressure of a fill", func(x float64) error { return fill(1, x, k) }, 20e5, 20.01e5},
		{"the least pressure of a fill", func(x float64) error { return fill(1, x, k) }, 0.5, 0},
		{"the coldest fill", func(x float64) error { return fill(1, 1e5, x) }, 200, 199.9},
		{"the hottest fill", func(x float64) error { return fill(1, 1e5, x) }, 340, 340.1},
		{"the fullest cylinder", func(x float64) error { return cylinder(0.05, x, k, VirialHelium) }, 300e5, 300.1e5},
		{"the smallest cylinder", func(x float64) error { return cylinder(x, 200e5, k, VirialHelium) }, 1e-9, 0},
		{"an endless cylinder", func(x float64) error { return cylinder(x, 200e5, k, VirialHelium) }, 1e9, math.Inf(1)},
		{"an ideal gas", func(x float64) error { return cylinder(0.05, 200e5, k, x) }, 0, -1e-9},
		{"the least ideal gas", func(x float64) error { return cylinder(0.05, 200e5, k, x) }, 0.999e-4, 1e-4},
		{"nothing warmed", func(x float64) error { return warmed(x, 1e5, k, 1e5, k) }, 0, -1e-9},
		{"endlessly much warmed", func(x float64) error { return warmed(x, 1e5, k, 1e5, k) }, 1e9, math.Inf(1)},
		{"warmed from a great pressure", func(x float64) error { return warmed(1, x, k, 1e5, k) }, 20e5, 20.01e5},
		{"warmed to a great pressure", func(x float64) error { return warmed(1, 1e5, k, x, k) }, 20e5, 20.01e5},
		{"warmed to a great heat", func(x float64) error { return warmed(1, 1e5, k, 1e5, x) }, 340, 340.1},
		{"a tight envelope", func(x float64) error { return kept(x, 3600) }, 0, -1e-9},
		{"an envelope that empties", func(x float64) error { return kept(x, 3600) }, 0.999, 1},
		{"no time", func(x float64) error { return kept(0.1, x) }, 0, -1e-9},
		{"endless time", func(x float64) error { return kept(0.1, x) }, 1e9, math.Inf(1)},
		{"just enough lift", func(x float64) error { return topUp(x, 2, 0.1) }, 2, 1.999},
		{"an endless lift", func(x float64) error { return topUp(x, 2, 0.1) }, 1e9, math.Inf(1)},
		{"some need", func(x float64) error { return topUp(2, x, 0.1) }, 1e-9, 0},
		{"a small leak", func(x float64) error { return topUp(2, 1, x) }, 1e-9, 0},
		{"a great leak", func(x float64) error { return topUp(2, 1, x) }, 0.999, 1},
		{"no fill", func(x float64) error { return cylinders(x, 1) }, 0, -1e-9},
		{"an endless fill", func(x float64) error { return cylinders(x, 1) }, 1e9, math.Inf(1)},
		{"small cylinders", func(x float64) error { return cylinders(1, x) }, 1e-3, 0},
	} {
		if err := c.try(c.in); err != nil {
			t.Errorf("%s: %v is refused: %v", c.name, c.in, err)
		}
		if c.try(c.beyond) == nil {
			t.Errorf("%s: %v passes", c.name, c.beyond)
		}
	}
	if n, known := Basis("guessed").Allowance(); known || n != 0 {
		t.Errorf("guessed: %v, %v", n, known)
	}
}

// A lift that is just enough needs its top-up at once.
func TestTopUpAtOnce(t *testing.T) {
	if after, err := TopUpAfter(2, 2, 0.1); err != nil || after != 0 {
		t.Errorf("got %v, %v", after, err)
	}
}
