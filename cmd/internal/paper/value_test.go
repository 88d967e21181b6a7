package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// si are the units of the report and of the paper in SI units, from NIST SP 811 (2008), Appendix B.8, exact where a definition is exact.
// The program's own table of units is not asked.
var si = map[string]float64{
	"": 1, "%": 0.01, "m": 1, "cm": 0.01, "mm": 1e-3, "km": 1e3, "in": 0.0254, "ft": 0.3048, "mi": 1609.344,
	"kg": 1, "g": 1e-3, "lb": 0.45359237, "oz": 0.028349523125, "m³": 1, "L": 1e-3, "ft³": 0.028316846592,
	"kg/m³": 1, "lb/ft³": 16.01846337396014, "Pa": 1, "hPa": 100, "kPa": 1000, "inHg": 3386.389, "bar": 1e5, "psi": 6894.757293168361,
	"m/s": 1, "mph": 0.44704, "km/h": 1 / 3.6, "kn": 1852.0 / 3600, "ft/s": 0.3048, "N": 1, "lbf": 4.4482216152605, "kgf": 9.80665,
	"s": 1, "min": 60, "h": 3600, "d": 86400, "V": 1, "mV": 1e-3, "A": 1, "mA": 1e-3, "W": 1, "mW": 1e-3, "Wh": 3600, "J": 1, "dB": 1,
	"Hz": 1, "kHz": 1e3, "MHz": 1e6, "GHz": 1e9, "°": math.Pi / 180, "K": 1,
}

// ends are the units in which the report gives facts, by the end of their names; the longest counts.
var ends = map[string]string{
	"_m": "m", "_km": "km", "_kg": "kg", "_m3": "m³", "_kg_m3": "kg/m³", "_pa": "Pa", "_m_s": "m/s", "_n": "N", "_min": "min", "_h": "h", "_d": "d",
	"_v": "V", "_a": "A", "_w": "W", "_wh": "Wh", "_j": "J", "_db": "dB", "_mhz": "MHz", "_deg": "°", "_k": "K", "_share": "%", "_charge": "%", "_humidity": "%",
}

func unitOf(fact string) string {
	unit, longest := "", 0
	for end, u := range ends {
		if strings.HasSuffix(fact, end) && len(end) > longest {
			unit, longest = u, len(end)
		}
	}
	return unit
}

// agrees says how a printed value differs from a fact of the report, or nothing. A printed number may be off by half of its last digit.
func agrees(fact string, value any, printed string, decimal string) error {
	wrong := func() error { return fmt.Errorf("the report says %v, the paper says %q", value, printed) }
	none := map[string][2]string{".": {"not shown", "not needed"}, ",": {"nicht belegt", "nicht nötig"}}[decimal]
	if is := strings.HasPrefix(printed, none[0]) || strings.HasPrefix(printed, none[1]); is || value == nil {
		if !is || value != nil {
			return wrong()
		}
		return nil
	}
	switch v := value.(type) {
	case bool:
		if want := map[string]map[bool]string{".": {true: "yes", false: "no"}, ",": {true: "ja", false: "nein"}}[decimal][v]; printed != want {
			return wrong()
		}
		return nil
	case string:
		number, _, _ := strings.Cut(strings.ReplaceAll(printed, decimal, "."), " ")
		if !strings.HasPrefix(printed+" ", v+" ") && number != v { // what went into it follows; money is an exact decimal in the report, and has its currency on paper
			return wrong()
		}
		return nil
	case float64:
		n, half, unit, ok := number(printed, decimal)
		factor, known := si[unit]
		if !ok {
			return wrong()
		}
		want := v * si[unitOf(fact)]
		switch {
		case unit == "°C":
			factor, known, n = 1, true, n+273.15
		case unit == "°F":
			factor, known, n = 5.0/9, true, (n + 459.67)
		}
		if !known {
			return fmt.Errorf("%w: the unit is unknown", wrong())
		}
		if math.Abs(n*factor-want) > half*factor*(1+1e-6) {
			return wrong()
		}
		return nil
	}
	return wrong()
}

// number reads "−0.53 km": its value, half of its last digit, its unit.
func number(text, decimal string) (n, half float64, unit string, ok bool) {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "−", "-"), decimal, ".")
	end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.-+", r) })
	if end < 0 {
		end = len(text)
	}
	digits := text[:end]
	n, err := strconv.ParseFloat(digits, 64)
	decimals := 0
	if _, after, found := strings.Cut(digits, "."); found {
		decimals = len(after)
	}
	return n, 0.5 * math.Pow(10, -float64(decimals)), strings.TrimSpace(text[end:]), err == nil
}
