package unit

import "testing"

func TestApartTellsCloseValuesApart(t *testing.T) {
	for name, c := range map[string]struct{ a, b, wantA, wantB string }{
		"far apart":    {"4.5 V", "4.75 V", "4.5 V", "4.75 V"},
		"a hair":       {"4.7499 V", "4.75 V", "4.7499 V", "4.75 V"},
		"equal":        {"4.75 V", "4.75 V", "4.75 V", "4.75 V"},
		"whole metres": {"60.02 m", "60 m", "60.02 m", "60 m"},
	} {
		dim := DimVoltage
		if name == "whole metres" {
			dim = DimLength
		}
		a, _ := ParseQuantity(dim, c.a)
		b, _ := ParseQuantity(dim, c.b)
		if x, y := Apart(a, b, SI); x != c.wantA || y != c.wantB {
			t.Errorf("%s: Apart = %s, %s; want %s, %s", name, x, y, c.wantA, c.wantB)
		}
	}
}
