package unit_test

import (
	"math"
	"testing"

	"hoistbook/kits/unit"
)

func TestEveryRowReadsItsOwnExample(t *testing.T) {
	for _, d := range unit.Dimensions() {
		info := d.Info()
		q, err := unit.ParseQuantity(d, info.Example)
		if err != nil {
			t.Errorf("%s: the example does not parse: %v", info.Type, err)
			continue
		}
		back, err := unit.ParseQuantity(d, q.Exact())
		if err != nil || back != q {
			t.Errorf("%s: %q is written as %q and read back as %v, %v; want %v", info.Type, info.Example, q.Exact(), back.SI, err, q.SI)
		}
		if d.String() == "" || info.Doc == "" || info.Name == d.String() {
			t.Errorf("%s: a row needs a name with its article, and words for the value held", info.Type)
		}
	}
}

func TestEveryUnitConvertsBack(t *testing.T) {
	for _, d := range unit.Dimensions() {
		for _, symbol := range d.Symbols() {
			text := "3 " + symbol
			if d == unit.DimGauge {
				text = symbol + " 3"
			}
			q, err := unit.ParseQuantity(d, text)
			if err != nil {
				t.Errorf("%s: %q: %v", d, text, err)
				continue
			}
			if got := q.In(symbol); math.Abs(got-3) > 1e-12 {
				t.Errorf("%s: %q is %v %s again, want 3", d, text, got, symbol)
			}
		}
	}
}

// The factors are those of NIST SP 811 (2008), appendix B.8, from memory, to the seven digits printed there; those of
// scipy.constants (CODATA) agree.
func TestPublishedFactors(t *testing.T) {
	for _, c := range []struct {
		dim  unit.Dimension
		text string
		want float64
		held string
	}{
		{unit.DimLength, "1 in", 2.54e-2, "m"},
		{unit.DimLength, "1 ft", 3.048e-1, "m"},
		{unit.DimLength, "1 mi", 1.609344e3, "m"},
		{unit.DimArea, "1 ft2", 9.290304e-2, "m2"},
		{unit.DimVolume, "1 ft3", 2.831685e-2, "m3"},
		{unit.DimVolume, "1 L", 1e-3, "m3"},
		{unit.DimMass, "1 lb", 4.535924e-1, "kg"},
		{unit.DimMass, "1 oz", 2.834952e-2, "kg"},
		{unit.DimLinearMass, "100 lb/100ft", 1.488164, "kg/m"},
		{unit.DimForce, "1 lbf", 4.448222, "N"},
		{unit.DimForce, "1 kgf", 9.80665, "N"},
		{unit.DimPressure, "1 psi", 6.894757e3, "Pa"},
		{unit.DimPressure, "1 inHg", 3.386389e3, "Pa"},
		{unit.DimPressure, "1 bar", 1e5, "Pa"},
		{unit.DimSpeed, "1 mph", 4.4704e-1, "m/s"},
		{unit.DimSpeed, "1 kn", 5.144444e-1, "m/s"},
		{unit.DimSpeed, "1 km/h", 2.777778e-1, "m/s"},
		{unit.DimSpeed, "1 ft/s", 3.048e-1, "m/s"},
		{unit.DimAngle, "1 deg", 1.745329e-2, "rad"},
		{unit.DimCharge, "1 Ah", 3.6e3, "C"},
		{unit.DimEnergy, "1 Wh", 3.6e3, "J"},
		{unit.DimDuration, "1 d", 8.64e4, "s"},
		{unit.DimTemperature, "0 degF", 459.67 / 1.8, "K"},
		{unit.DimTemperature, "212 degF", 373.15, "K"},
		{unit.DimTemperature, "-40 degC", 233.15, "K"},
		{unit.DimPowerDensity, "1 mW/cm2", 10, "W/m2"},
	} {
		q, err := unit.ParseQuantity(c.dim, c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if got := q.In(c.held); math.Abs(got-c.want) > 5e-7*math.Abs(c.want) {
			t.Errorf("%q = %.8g %s, want %.8g", c.text, got, c.held, c.want)
		}
	}
}

// One milliwatt is 0 dBm and one watt 30 dBm by definition; a half-wave dipole has 2.15 dB over isotropic (ITU-R V.573).
func TestDecibels(t *testing.T) {
	for text, want := range map[string]float64{"0 dBm": 1e-3, "30 dBm": 1, "-30 dBm": 1e-6, "500 mW": 0.5} {
		if got := unit.Must[unit.Power](text); math.Abs(float64(got)-want) > 1e-15 {
			t.Errorf("%q = %v W, want %v", text, float64(got), want)
		}
	}
	if got := unit.Power(2).Level().DBm(); math.Abs(got-33.0103) > 5e-5 {
		t.Errorf("2 W = %v dBm, want 33.0103", got)
	}
	if got := unit.Must[unit.Gain]("0 dBd").SI(); got != 2.15 {
		t.Errorf("0 dBd = %v dBi, want 2.15", got)
	}
	if got := unit.DBm(-118).Plus(6).Over(unit.DBm(-100)); got != -12 {
		t.Errorf("-118 dBm + 6 dB lies %v over -100 dBm, want -12 dB", got)
	}
}
