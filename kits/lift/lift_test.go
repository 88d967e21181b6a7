package lift

import (
	"math"
	"testing"

	"hoistbook/kits/unit"
	"pgregory.net/rapid"
)

func near(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got/want-1) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g within %g", name, got, want, tolerance)
	}
}

// A sphere of 2.2 m (5.5753 m³) in air of 1.14876 kg/m³ with gas of 0.18428 kg/m³ lifts 5.3773 kg; with an envelope of
// 0.90 kg, a payload of 1.60 kg and 60 m of line of 5 g/m it has 2.577 kg to spare, 47.9 % of the gross (worked by hand).
func TestWorkedExample(t *testing.T) {
	gross := Gross(unit.Length(2.2).Ball(), 1.14876, 0.18428)
	near(t, "gross", gross.SI(), 5.3773, 2e-5)
	line := Line(5e-3, 60, 0)
	aloft, _ := Aloft([]Load{{1, 0.9, 0}, {1, 1.6, 0}, line})
	near(t, "line", line.Nominal().SI(), 0.30, 1e-12)
	near(t, "free", Free(gross, aloft).SI(), 2.577, 2e-4)
	near(t, "share", Free(gross, aloft).SI()/gross.SI(), 0.479, 1e-3)
	near(t, "neck", Neck(gross, 0.9).SI(), 4.4773, 2e-5)
}

// A leak of 6 % a day leaves 0.94 after a day and 0.94² = 0.8836 after two; half a day leaves √0.94 = 0.96954.
func TestAtEnd(t *testing.T) {
	for _, row := range []struct{ days, want float64 }{{0, 1}, {0.5, 0.969536}, {1, 0.94}, {2, 0.8836}} {
		left, err := AtEnd(1, 0.06, unit.Duration(row.days*86400))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "left", left.SI(), row.want, 1e-6)
	}
	for _, bad := range []struct{ loss, seconds float64 }{{-0.1, 1}, {1, 1}, {math.NaN(), 1}, {0.1, -1}, {0.1, math.NaN()}, {0.1, math.Inf(1)}} {
		if left, err := AtEnd(1, unit.Loss(bad.loss), unit.Duration(bad.seconds)); err == nil {
			t.Errorf("%v: got %v, want an error", bad, left)
		}
	}
}

func TestTopUpAfter(t *testing.T) {
	// From 0.94² of 2 kg up to 2 kg a loss of 6 % a day takes two days.
	after, err := TopUpAfter(2, 2*0.8836, 0.06)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "days", after.Days(), 2, 1e-12)
	for _, bad := range []struct{ gross, needed, loss float64 }{{2, 2.1, 0.06}, {2, 1, 0}, {2, 1, 1}, {2, 0, 0.06}, {math.NaN(), 1, 0.06}, {math.Inf(1), 1, 0.06}} {
		if after, err := TopUpAfter(unit.Mass(bad.gross), unit.Mass(bad.needed), unit.Loss(bad.loss)); err == nil {
			t.Errorf("%v: got %v, want an error", bad, after)
		}
	}
}

func TestAllowances(t *testing.T) {
	nominal, worst := Aloft([]Load{{2, 0.1, 0.2}, {1, 0.5, 0.1}, {1, 0.35, 0.02}})
	near(t, "nominal", nominal.SI(), 1.05, 1e-12)
	near(t, "worst", worst.SI(), 0.24+0.55+0.357, 1e-12)
	for basis, want := range map[Basis]unit.Ratio{Estimated: 0.2, Calculated: 0.1, Weighed: 0.02} {
		if got, ok := basis.Allowance(); !ok || got != want {
			t.Errorf("%s: got %v, %v, want %v", basis, got, ok, want)
		}
	}
	if got, ok := Basis("guessed").Allowance(); ok {
		t.Errorf("guessed: got %v, want none", got)
	}
}

// The published table of helium's compressibility at 15 °C, bar absolute. One virial coefficient leaves out what three
// molecules do together, which the comment of Compressibility allows for.
func TestHeliumCompressibility(t *testing.T) {
	for _, row := range []struct{ bar, z, tolerance float64 }{
		{1, 1.0005, 1e-4}, {5, 1.0024, 1e-4}, {10, 1.0049, 1e-4}, {20, 1.0098, 1e-4}, {30, 1.0147, 1e-4}, {50, 1.0244, 3e-4},
		{100, 1.0487, 6e-4}, {150, 1.0727, 1.2e-3}, {200, 1.0965, 2e-3},
	} {
		z, err := Cylinder{1, unit.Pressure(row.bar * 1e5), unit.Celsius(15), VirialHelium}.Compressibility()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Z", z, row.z, row.tolerance)
		if z < row.z-1e-4 {
			t.Errorf("%v bar: Z %v below the published %v: more gas than there is", row.bar, z, row.z)
		}
	}
}

// With the published Z = 1.0965 a 50 L cylinder at 200 bar and 15 °C holds 8.997 m³ at 15 °C and 101 325 Pa.
func TestCylinderContent(t *testing.T) {
	moles, err := Cylinder{0.05, 200e5, unit.Celsius(15), VirialHelium}.Moles()
	if err != nil {
		t.Fatal(err)
	}
	free, err := FillMoles(8.997, 101325, unit.Celsius(15))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "moles", float64(moles), float64(free), 2.5e-3)
	if moles > free {
		t.Errorf("got %v mol, more than the published %v", moles, free)
	}
	// One mole of ideal gas fills 22.414 L at 0 °C and 101 325 Pa (CODATA molar volume).
	mole, _ := FillMoles(22.41396954e-3, 101325, unit.Celsius(0))
	near(t, "molar volume", float64(mole), 1, 1e-9)
}

func TestCylinders(t *testing.T) {
	for _, row := range []struct {
		fill, each Moles
		want       unit.Count
	}{{0, 150, 0}, {1, 150, 1}, {150, 150, 1}, {150.1, 150, 2}, {449, 150, 3}} {
		if got, err := Cylinders(row.fill, row.each); err != nil || got != row.want {
			t.Errorf("%v: got %v (%v), want %v", row, got, err, row.want)
		}
	}
	for _, bad := range [][2]float64{{1, 0}, {math.NaN(), 1}, {1, math.NaN()}, {math.Inf(1), 1}, {-1, 1}} {
		if got, err := Cylinders(Moles(bad[0]), Moles(bad[1])); err == nil {
			t.Errorf("%v: got %v, want an error", bad, got)
		}
	}
}

func TestWarmed(t *testing.T) {
	// Charles: from 0 °C to 27.315 °C a tenth more. Boyle: at nine tenths of the pressure a ninth more.
	v, err := Warmed(1, unit.Celsius(0), unit.Celsius(27.315), 1e5, 1e5)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Charles", v.SI(), 1.1, 1e-12)
	v, _ = Warmed(1, unit.Celsius(0), unit.Celsius(0), 1e5, 0.9e5)
	near(t, "Boyle", v.SI(), 10.0/9, 1e-12)
}

func TestGasStatesRefused(t *testing.T) {
	nan := math.NaN()
	ok := unit.Celsius(15)
	for name, err := range map[string]error{
		"no pressure":     second(FillMoles(1, 0, ok)),
		"nan pressure":    second(FillMoles(1, unit.Pressure(nan), ok)),
		"nan temperature": second(FillMoles(1, 1e5, unit.Kelvin(nan))),
		"nan fill":        second(FillMoles(unit.Volume(nan), 1e5, ok)),
		"endless fill":    second(FillMoles(unit.Volume(math.Inf(1)), 1e5, ok)),
		"warmed from 0 K": second(Warmed(1, unit.Kelvin(0), ok, 1e5, 1e5)),
		"warmed to 0 Pa":  second(Warmed(1, ok, ok, 1e5, 0)),
		"warmed nothing":  second(Warmed(unit.Volume(nan), ok, ok, 1e5, 1e5)),
		"400 bar":         second(Cylinder{1, 400e5, ok, VirialHelium}.Moles()),
		"nan virial":      second(Cylinder{1, 200e5, ok, nan}.Moles()),
		"no water volume": second(Cylinder{0, 200e5, ok, VirialHelium}.Moles()),
	} {
		if err == nil {
			t.Errorf("%s: got no error", name)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func TestLiftProperties(t *testing.T) {
	mass := rapid.Float64Range(0.001, 5)
	rapid.Check(t, func(t *rapid.T) {
		loads := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Load {
			return Load{unit.Count(rapid.IntRange(1, 4).Draw(t, "quantity")), unit.Mass(mass.Draw(t, "mass")), unit.Ratio(rapid.Float64Range(0, 0.5).Draw(t, "allowance"))}
		}), 1, 8).Draw(t, "loads")
		nominal, worst := Aloft(loads)
		if worst < nominal {
			t.Errorf("worst %v below nominal %v", worst, nominal)
		}
		more, moreWorst := Aloft(append(loads, Load{1, 0.1, 0.1}))
		gross := unit.Mass(mass.Draw(t, "gross"))
		if Free(gross, more) >= Free(gross, nominal) || Free(gross, moreWorst) >= Free(gross, worst) {
			t.Error("adding mass raised the free lift")
		}
		loss := unit.Loss(rapid.Float64Range(0.001, 0.5).Draw(t, "loss"))
		sooner := unit.Duration(rapid.Float64Range(0, 20*86400).Draw(t, "seconds"))
		early, _ := AtEnd(gross, loss, sooner)
		late, _ := AtEnd(gross, loss, sooner+3600)
		if late >= early {
			t.Errorf("lift grew from %v to %v while leaking", early, late)
		}
		if after, err := TopUpAfter(gross, early, loss); err != nil || math.Abs(float64(after-sooner)) > 1 {
			t.Errorf("top-up after %v (%v), want %v", after, err, sooner)
		}
	})
}

// The molar volume of an ideal gas at 273.15 K and 100 kPa (CODATA 2018): 22.710 954 64 L/mol.
func TestGasTakesItsMolarVolume(t *testing.T) {
	v, err := Moles(2).Volume(100e3, unit.Celsius(0))
	if got := v.SI() / 2; err != nil || math.Abs(got-22.71095464e-3) > 1e-11 {
		t.Errorf("got %.10g m3 a mole (%v), want 0.02271095464", got, err)
	}
	for _, bad := range []Moles{-1, Moles(math.NaN()), Moles(math.Inf(1))} {
		if v, err := bad.Volume(100e3, unit.Celsius(0)); err == nil {
			t.Errorf("%v mol take %v m3", float64(bad), v)
		}
	}
	if v, err := Moles(1).Volume(0, unit.Celsius(0)); err == nil {
		t.Errorf("without pressure a mole takes %v m3", v)
	}
}

// What is left in a cylinder shows the pressure that it had: filled again with what a lower pressure holds, it shows that one.
func TestACylinderShowsWhatIsLeft(t *testing.T) {
	full := Cylinder{WaterVolume: 0.05, Pressure: 200e5, FilledAt: unit.Celsius(15), Virial: VirialHelium}
	for _, bar := range []float64{200, 150, 87.4, 10, 0.5} {
		part := full
		part.Pressure = unit.Pressure(bar * 1e5)
		n, err := part.Moles()
		if err != nil {
			t.Fatal(err)
		}
		got, err := full.Holding(n)
		if err != nil || math.Abs(got.SI()/part.Pressure.SI()-1) > 1e-12 {
			t.Errorf("%v mol: got %v (%v), want %v bar", n, got, err, bar)
		}
	}
	for _, n := range []Moles{-1, 500, Moles(math.NaN())} {
		if got, err := full.Holding(n); err == nil || got != 0 {
			t.Errorf("%v mol: got %v, want an error", n, got)
		}
	}
}
