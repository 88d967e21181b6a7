package unit

import (
	"math"
	"strings"
	"testing"
)

func TestApartTellsCloseValuesApart(t *testing.T) {
	for name, c := range map[string]struct{ a, b, wantA, wantB string }{
		"far apart":     {"4.5 V", "4.75 V", "4.5 V", "4.75 V"},
		"a hair":        {"4.7499 V", "4.75 V", "4.7499 V", "4.75 V"},
		"equal":         {"4.75 V", "4.75 V", "4.75 V", "4.75 V"},
		"whole metres":  {"60.02 m", "60 m", "60.02 m", "60 m"},
		"in metres":     {"17.3 cm", "34 m", "0.173 m", "34 m"},
		"in kilometres": {"9 km", "1500 m", "9 km", "1.5 km"},
		"too far apart": {"90 km", "15 m", "90 km", "15 m"},
	} {
		dim := DimVoltage
		if strings.HasSuffix(c.a, "m") {
			dim = DimLength
		}
		a, _ := ParseQuantity(dim, c.a)
		b, _ := ParseQuantity(dim, c.b)
		if x, y := Apart(a, b, SI); x != c.wantA || y != c.wantB {
			t.Errorf("%s: Apart = %s, %s; want %s, %s", name, x, y, c.wantA, c.wantB)
		}
	}
}

// The distance is what a reader gets who subtracts one printed value from the other, give or take the last digit.
func TestBetween(t *testing.T) {
	for _, c := range []struct {
		dim    Dimension
		a, b   string
		system System
		want   string
	}{
		{DimLength, "15 m", "15.24 m", SI, "0.2 m"},
		{DimVoltage, "4.876 V", "4.75 V", SI, "0.13 V"},
		{DimPressure, "1005 hPa", "1053.4 hPa", SI, "48 hPa"},
		{DimLength, "4.239 km", "3.078 km", SI, "1.16 km"},
		{DimMass, "3.884 kg", "3.1 kg", SI, "0.78 kg"},
		{DimMass, "2.74 kg", "763 g", SI, "1.98 kg"},
		{DimLength, "17.3 cm", "34 m", SI, "33.8 m"},
		{DimLength, "3.099 mi", "3 mi", US, "0.1 mi"},
		{DimLength, "50 ft", "50 ft", US, "0 ft"},
		{DimVoltage, "250 V", "249.99 V", SI, "0.01 V"},
		{DimLength, "5.2 in", "1.97 ft", US, "1.54 ft"},
		{DimCurrent, "95 mA", "500 mA", SI, "405 mA"},
	} {
		a, errA := ParseQuantity(c.dim, c.a)
		b, errB := ParseQuantity(c.dim, c.b)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if got := Between(a, b, c.system); got != c.want {
			t.Errorf("between %s and %s: got %q, want %q", c.a, c.b, got, c.want)
		}
	}
	if got := Between(Quantity{SI: math.NaN(), Dim: DimLength}, Quantity{SI: 1, Dim: DimLength}, SI); got != "not shown" {
		t.Errorf("of what is no number: %q", got)
	}
}
