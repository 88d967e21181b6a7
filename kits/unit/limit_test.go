package unit

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestALimitIsRoundedToItsSafeSide(t *testing.T) {
	for _, c := range []struct {
		dim             Dimension
		si              float64
		system          System
		atLeast, atMost string
	}{
		{DimVoltage, 12.222, SI, "12.3 V", "12.2 V"},
		{DimVoltage, 12.2, SI, "12.2 V", "12.2 V"},
		{DimVoltage, 12.200000000000001, SI, "12.2 V", "12.2 V"},
		{DimMass, 3.0951, SI, "3.1 kg", "3.09 kg"},
		{DimMass, 0.9999, SI, "1000 g", "999 g"},
		{DimLength, 500 * foot, US, "500 ft", "500 ft"},
		{DimLength, 500 * foot, SI, "153 m", "152 m"},
		{DimTemperature, 273.15, SI, "0 °C", "0 °C"},
		{DimTemperature, 273.15 - 4.4, SI, "−4.4 °C", "−4.4 °C"},
		{DimTemperature, 273.15 - 14.44, SI, "−14 °C", "−15 °C"},
		{DimTemperature, 273.15 + 28, US, "83 °F", "82 °F"},
		{DimAngle, 40 * radian, SI, "40°", "40°"},
		{DimCount, 12, SI, "12", "12"},
		{DimSpeed, 0, SI, "0 m/s", "0 m/s"},
		{DimPressure, 101325, SI, "1014 hPa", "1013 hPa"},
		{DimMass, math.NaN(), SI, "not shown", "not shown"},
		{DimMass, math.Inf(1), SI, "not shown", "not shown"},
	} {
		q := Quantity{c.si, c.dim}
		if least, most := q.Limit(AtLeast, c.system), q.Limit(AtMost, c.system); least != c.atLeast || most != c.atMost {
			t.Errorf("%v: at least %q and at most %q, want %q and %q", q, least, most, c.atLeast, c.atMost)
		}
	}
	if got := Mass(3.0951).Quantity().LimitFigures(AtLeast, "lb"); got != "6.83" { // 6.8235 lb
		t.Errorf("bare number: %q", got)
	}
}

func TestTwoLimitsLeaveRoomBetweenThem(t *testing.T) {
	for _, c := range []struct {
		dim         Dimension
		low, high   float64
		system      System
		least, most string
	}{
		{DimVoltage, 12.222, 12.852, SI, "12.3 V", "12.8 V"},
		{DimVoltage, 12.21, 12.29, SI, "12.21 V", "12.29 V"},
		{DimVoltage, 12.15, 12.25, SI, "12.15 V", "12.25 V"},
		{DimTemperature, 268.15, 301.15, US, "23 °F", "82 °F"},
		{DimTemperature, 293.15, 293.15, SI, "20 °C", "20 °C"},
		{DimTemperature, 293.15, 293.55, SI, "20 °C", "20.4 °C"},
		{DimLength, 0.173, 34, SI, "0.173 m", "34 m"},
		{DimVoltage, 13, 12, SI, "13 V", "12 V"},
	} {
		least, most := Limits(Quantity{c.low, c.dim}, Quantity{c.high, c.dim}, c.system)
		if least != c.least || most != c.most {
			t.Errorf("%v to %v of %s: got %s to %s, want %s to %s", c.low, c.high, c.dim, least, most, c.least, c.most)
		}
	}
}

// Whatever the limit, the number that is printed keeps to it when it is read, and the next one on its wrong side does not.
func TestWhatIsPrintedKeepsToTheLimit(t *testing.T) {
	dims := []Dimension{DimMass, DimLength, DimVoltage, DimTemperature, DimPressure, DimSpeed, DimForce, DimAngle, DimDuration, DimFrequency, DimRatio, DimLevel}
	rapid.Check(t, func(t *rapid.T) {
		dim := rapid.SampledFrom(dims).Draw(t, "dimension")
		q := Quantity{math.Pow(10, rapid.Float64Range(-3, 5).Draw(t, "size")), dim}
		if dim == DimTemperature {
			q.SI = rapid.Float64Range(200, 400).Draw(t, "temperature") // a weather
		}
		system := rapid.SampledFrom([]System{SI, US}).Draw(t, "system")
		for side, wrong := range map[Side]float64{AtLeast: -1, AtMost: 1} {
			symbol := q.Symbol(system)
			text := strings.Replace(q.LimitFigures(side, symbol), "−", "-", 1)
			printed, err := ParseQuantity(dim, text+" "+symbol)
			if err != nil {
				t.Fatalf("%v prints as %q: %v", q, text, err)
			}
			if !printed.Keeps(side, q) {
				t.Fatalf("%v prints as %q, and that does not keep to it", q, text)
			}
			_, decimals, _ := strings.Cut(text, ".")
			n, _ := strconv.ParseFloat(text, 64)
			u, _ := dim.unit(symbol)
			if next := (Quantity{u.held(n + wrong*math.Pow10(-len(decimals))), dim}); next.Keeps(side, q) {
				t.Fatalf("%v prints as %q, and the next number on the wrong side keeps to it too", q, text)
			}
		}
	})
}
