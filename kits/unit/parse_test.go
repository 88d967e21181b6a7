package unit_test

import (
	"errors"
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/unit"
)

func TestWhatParseSays(t *testing.T) {
	for name, c := range map[string]struct {
		dim  unit.Dimension
		text string
		what string
		fix  string
	}{
		"wrong dimension":   {unit.DimLength, "85 g", `"85 g" is a mass, and a length belongs here`, "write a length in m, mm, cm, km, um, in, ft or mi"},
		"no unit":           {unit.DimMass, "85", `"85" has no unit, and a mass needs one`, `such as "85 g"`},
		"unknown unit":      {unit.DimMass, "85 gramme", `"85 gramme" has the unknown unit "gramme"`, "kg, g, oz or lb"},
		"negative":          {unit.DimMass, "-85 g", `"-85 g" is negative, and a mass cannot be`, "write a mass"},
		"negative nothing":  {unit.DimMass, "-0 g", `"-0 g" is negative`, "write a mass"},
		"comma":             {unit.DimMass, "1,5 kg", `"1,5 kg" has a decimal comma`, `write a decimal point: "1.5 kg"`},
		"absolute zero":     {unit.DimTemperature, "-274 degC", `"-274 degC" is below absolute zero`, "K, degC or degF"},
		"exponent":          {unit.DimMass, "1e3 g", `"1e3 g" has the unknown unit "e3 g"`, "write a mass"},
		"two points":        {unit.DimMass, "1.2.3 g", `"1.2.3 g" is not a mass`, "write a mass"},
		"nothing":           {unit.DimMass, "", `"" is not a mass`, "write a mass"},
		"no number":         {unit.DimMass, "kg", `"kg" is not a mass`, "write a mass"},
		"too many digits":   {unit.DimMass, "1234567890123 kg", "is not a mass", "write a mass"},
		"two spaces":        {unit.DimMass, "85  g", `the unknown unit " g"`, "write a mass"},
		"raised figure":     {unit.DimMass, "8² g", `the unknown unit "2 g"`, "write a mass"},
		"past a float":      {unit.DimPower, "99999 dBm", `"99999 dBm" has a number out of range`, "write a power"},
		"gauge":             {unit.DimGauge, "24", `"24" is not a wire gauge`, `such as "AWG 24"`},
		"level for a power": {unit.DimLevel, "5 W", `"5 W" is a power, and a power level belongs here`, "dBm"},
	} {
		_, err := unit.ParseQuantity(c.dim, c.text)
		var said *unit.Error
		if !errors.As(err, &said) {
			t.Errorf("%s: %q is accepted", name, c.text)
			continue
		}
		if !strings.Contains(said.What, c.what) || !strings.Contains(said.Fix, c.fix) {
			t.Errorf("%s: %q says %q; want %q and %q", name, c.text, said, c.what, c.fix)
		}
	}
}

func TestSpellingsOfOneUnit(t *testing.T) {
	for _, c := range []struct {
		dim        unit.Dimension
		one, other string
	}{
		{unit.DimLength, "20 um", "20 \u00b5m"}, {unit.DimLength, "20 um", "20 \u03bcm"}, {unit.DimCurrent, "5 uA", "5µA"},
		{unit.DimTemperature, "28 degC", "28 °C"}, {unit.DimTemperature, "28 degF", "28°F"}, {unit.DimAngle, "40 deg", "40°"},
		{unit.DimResistance, "2 ohm", "2 Ω"}, {unit.DimResistance, "2 mohm", "2 mΩ"}, {unit.DimResistance, "2 ohm", "2 \u2126"},
		{unit.DimVolume, "2.2 m3", "2.2 m³"}, {unit.DimArea, "2 ft2", "2 ft²"}, {unit.DimGauge, "AWG 24", "AWG24"},
	} {
		one, err1 := unit.ParseQuantity(c.dim, c.one)
		other, err2 := unit.ParseQuantity(c.dim, c.other)
		if err1 != nil || err2 != nil || one != other {
			t.Errorf("%q = %v, %v but %q = %v, %v", c.one, one.SI, err1, c.other, other.SI, err2)
		}
	}
}

func TestRanges(t *testing.T) {
	r, err := unit.ParseRange[unit.Voltage]("4.75 V to 5250 mV")
	if err != nil || r.Low != 4.75 || r.High != 5.25 {
		t.Fatalf("got %v to %v, %v", r.Low, r.High, err)
	}
	if !r.Holds(4.75) || !r.Holds(5.25) || r.Holds(5.26) || r.Holds(unit.Voltage(math.NaN())) {
		t.Error("a range holds its ends and nothing outside them")
	}
	text, err := r.MarshalText()
	back, err2 := unit.ParseRange[unit.Voltage](string(text))
	if err != nil || err2 != nil || back != r {
		t.Errorf("%v is written %q and read back as %v, %v", r, text, back, err2)
	}
	for text, want := range map[string]string{
		"5 V to 4 V": `"5 V to 4 V" runs backwards`,
		"5 V":        `"5 V" is not a range`,
		"5 V to 6 A": `"6 A" is a current, and a voltage belongs here`,
		"5V-6V":      `"5V-6V" is not a range`,
	} {
		if _, err := unit.ParseRange[unit.Voltage](text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q says %v, want %q", text, err, want)
		}
	}
}

// The schema may not accept what the parser refuses, and the other way round, except where a value and not its form is
// wrong.
func TestPatternAndParserAgree(t *testing.T) {
	compiled := map[unit.Dimension]*regexp.Regexp{}
	var symbols []string
	for _, d := range unit.Dimensions() {
		compiled[d] = regexp.MustCompile("^(" + d.Pattern() + ")$")
		symbols = append(symbols, d.Symbols()...)
	}
	symbols = append(symbols, "", "µA", "°C", "Ω", "mΩ", "m³", "ft²", "gg", ",")
	texts := rapid.Custom(func(t *rapid.T) string {
		number := rapid.StringMatching(`-?[0-9]{0,13}(\.[0-9]{0,30})?`).Draw(t, "number")
		symbol := rapid.SampledFrom(symbols).Draw(t, "symbol")
		return rapid.SampledFrom([]string{number + " " + symbol, number + symbol, symbol + " " + number, symbol + number}).Draw(t, "text")
	})
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(unit.Dimensions()).Draw(t, "dimension")
		text := texts.Draw(t, "text")
		_, err := unit.ParseQuantity(d, text)
		ofValue := err != nil && (strings.Contains(err.Error(), "absolute zero") || strings.Contains(err.Error(), "out of range"))
		fits := compiled[d].MatchString(text)
		if fits != (err == nil || ofValue) && text != strings.TrimSuffix(text, " ")+" " {
			t.Fatalf("%s %q: the pattern says %v, the parser %v", d, text, fits, err)
		}
	})
}

func TestTextsAreWrittenAndReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(unit.Dimensions()).Draw(t, "dimension")
		held := rapid.Float64Range(0, 1e9).Draw(t, "held")
		if d == unit.DimLevel || d == unit.DimVoltage || d == unit.DimDecibel || d == unit.DimGain {
			held -= 5e8
		}
		q := unit.Quantity{SI: held, Dim: d}
		back, err := unit.ParseQuantity(d, q.Exact())
		if err != nil || math.Abs(back.SI-held) > 1e-15*math.Abs(held) { // a share per day is written as a percentage
			t.Fatalf("%s %v is written %q and read back as %v, %v", d, held, q.Exact(), back.SI, err)
		}
	})
}
