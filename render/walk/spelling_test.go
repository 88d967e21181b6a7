package walk_test

import (
	"testing"

	"hoistbook/kits/unit"
	"hoistbook/render/walk"
)

// What is on the scale of an instrument can be typed as it stands there. The conversions are by definition: 1 kn = 1852 m/h,
// 1 mbar = 100 Pa, 0 °C = 273.15 K, 1 lb = 0.45359237 kg (BIPM, SI Brochure, 9th ed.; NIST SP 811).
func TestUnitsAsInstrumentsHaveThem(t *testing.T) {
	for text, want := range map[string]unit.Quantity{
		"10 C": {SI: 283.15, Dim: unit.DimTemperature}, "50 F": {SI: 283.15, Dim: unit.DimTemperature}, "-5C": {SI: 268.15, Dim: unit.DimTemperature}, "−5 °C": {SI: 268.15, Dim: unit.DimTemperature},
		"10 kts": {SI: 18520.0 / 3600, Dim: unit.DimSpeed}, "3,5 M/S": {SI: 3.5, Dim: unit.DimSpeed}, "1009 mbar": {SI: 100900, Dim: unit.DimPressure}, "1009 hpa": {SI: 100900, Dim: unit.DimPressure},
		"12.4v": {SI: 12.4, Dim: unit.DimVoltage}, "2 LBS": {SI: 0.90718474, Dim: unit.DimMass}, "45 M": {SI: 45, Dim: unit.DimLength}, "3 Miles": {SI: 4828.032, Dim: unit.DimLength},
	} {
		got, err := walk.ParseReading(want.Dim, text)
		if err != nil || got.SI < want.SI*(1-1e-12) || got.SI > want.SI*(1+1e-12) {
			t.Errorf("%q: got %v (%v), want %v", text, got, err, want)
		}
	}
	for text, dim := range map[string]unit.Dimension{"3 mM": unit.DimSpeed, "10 C": unit.DimVoltage, "5 K C": unit.DimTemperature, "2 m s": unit.DimSpeed, "3 MW": unit.DimPower, "12 MV": unit.DimVoltage, "c": unit.DimTemperature, "3": unit.DimLength} {
		if got, err := walk.ParseReading(dim, text); err == nil {
			t.Errorf("%q is taken for %v", text, got)
		}
	}
}
