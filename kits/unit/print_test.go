package unit_test

import (
	"math"
	"strings"
	"testing"

	"hoistbook/kits/unit"
)

func TestTextForReaders(t *testing.T) {
	for _, c := range []struct {
		dim           unit.Dimension
		text, si, usa string
	}{
		{unit.DimMass, "85 g", "85 g", "3 oz"},
		{unit.DimMass, "1.2346 kg", "1.23 kg", "2.72 lb"},
		{unit.DimLength, "45 m", "45 m", "148 ft"},
		{unit.DimLength, "1.4 mm", "1.4 mm", "0.0551 in"},
		{unit.DimLength, "20 cm", "20 cm", "7.87 in"},
		{unit.DimLength, "3.5 km", "3.5 km", "2.17 mi"},
		{unit.DimVolume, "2.2 m3", "2.2 m³", "77.7 ft³"},
		{unit.DimVolume, "20 L", "20 L", "0.706 ft³"},
		{unit.DimTemperature, "-5 degC", "−5 °C", "23 °F"},
		{unit.DimPressure, "1005 hPa", "1005 hPa", "29.68 inHg"},
		{unit.DimPressure, "200 bar", "200 bar", "2901 psi"},
		{unit.DimSpeed, "5 m/s", "5 m/s", "11.2 mph"},
		{unit.DimForce, "950 N", "950 N", "214 lbf"},
		{unit.DimLinearMass, "1.1 g/m", "1.1 g/m", "0.0739 lb/100ft"},
		{unit.DimFrequency, "145.250 MHz", "145.25 MHz", "145.25 MHz"},
		{unit.DimResistance, "0.2 ohm", "200 mΩ", "200 mΩ"},
		{unit.DimAngle, "40 deg", "40°", "40°"},
		{unit.DimRatio, "0.2", "20 %", "20 %"},
		{unit.DimDuration, "12 h", "12 h", "12 h"},
		{unit.DimGauge, "AWG 24", "AWG 24", "AWG 24"},
		{unit.DimLevel, "-118 dBm", "−118 dBm", "−118 dBm"},
		{unit.DimCount, "3", "3", "3"},
	} {
		q, err := unit.ParseQuantity(c.dim, c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if si, usa := q.Text(unit.SI), q.Text(unit.US); si != c.si || usa != c.usa {
			t.Errorf("%q prints as %q and %q, want %q and %q", c.text, si, usa, c.si, c.usa)
		}
	}
}

func TestWhatIsNotFiniteIsNotShown(t *testing.T) {
	for _, n := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, system := range []unit.System{unit.SI, unit.US} {
			if got := unit.Mass(n).Quantity().Text(system); got != "not shown" {
				t.Errorf("a mass of %v prints as %q", n, got)
			}
		}
	}
}

func TestFiguresKeepTheWholePart(t *testing.T) {
	for _, c := range []struct {
		n       float64
		figures int
		want    string
	}{{12345.6, 3, "12346"}, {0.00012345, 3, "0.000123"}, {9.996, 3, "10"}, {-0.0000001, 2, "−0.0000001"}, {0, 3, "0"}, {100, 3, "100"}, {1e-15, 3, "0"}} {
		if got := unit.Figures(c.n, c.figures); got != c.want {
			t.Errorf("Figures(%v, %d) = %q, want %q", c.n, c.figures, got, c.want)
		}
	}
}

// The unit that a value is printed in is what its text ends with.
func TestUnitEndsText(t *testing.T) {
	for _, d := range unit.Dimensions() {
		for _, si := range []float64{0.001, 0.5, 1, 3000} {
			for _, system := range []unit.System{unit.SI, unit.US} {
				q := unit.Quantity{SI: si, Dim: d}
				text, symbol := q.Text(system), q.Unit(system)
				if !strings.HasSuffix(text, symbol) && !strings.HasPrefix(text, symbol) {
					t.Errorf("%s: %q is not printed in %q", d, text, symbol)
				}
			}
		}
	}
}

func TestTextToKeepsItsDecimals(t *testing.T) {
	for _, c := range []struct {
		q        unit.Quantity
		symbol   string
		decimals int
		want     string
	}{
		{unit.Volume(4.6).Quantity(), "m3", 2, "4.60 m³"}, {unit.Mass(-0.512).Quantity(), "g", 0, "−512 g"}, {unit.Mass(-0.0001).Quantity(), "g", 0, "0 g"},
		{unit.Angle(0.5).Quantity(), "deg", 1, "28.6°"}, {unit.Ratio(0.256).Quantity(), "%", 0, "26 %"}, {unit.Length(math.NaN()).Quantity(), "m", 1, "not shown"},
	} {
		if got := c.q.TextTo(c.symbol, c.decimals); got != c.want {
			t.Errorf("%v in %s to %d decimals: got %q, want %q", c.q, c.symbol, c.decimals, got, c.want)
		}
	}
	for system, want := range map[unit.System]string{unit.SI: "g", unit.US: "oz"} {
		if got := unit.Mass(0.1).Quantity().Symbol(system); got != want {
			t.Errorf("symbol of 100 g: got %q, want %q", got, want)
		}
	}
}
