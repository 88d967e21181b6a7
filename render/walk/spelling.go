package walk

import (
	"regexp"
	"strings"
	"unicode"

	"hoistbook/kits/unit"
)

// ParseReading reads a number with its unit as it is typed in the field. Where a keyboard has no point, one decimal comma is
// taken for it, unless three digits follow: then it may have been meant to part the thousands. A unit may be written as
// instruments have it on their scales, and in the wrong case, where only one unit of the dimension can be meant.
func ParseReading(dim unit.Dimension, text string) (unit.Quantity, error) {
	text = strings.Replace(strings.TrimSpace(text), "−", "-", 1)
	if strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		_, decimals, _ := strings.Cut(text, ",")
		if digits := strings.IndexFunc(decimals+"x", func(r rune) bool { return r < '0' || r > '9' }); digits == 3 {
			return unit.Quantity{}, refuse("write a decimal point, or no mark at all", "%q can be read in two ways", text)
		}
		text = strings.Replace(text, ",", ".", 1)
	}
	return unit.ParseQuantity(dim, spell(dim, text))
}

// scales are units as instruments and people write them, in lower case. Only what can mean nothing else in its dimension is here.
var scales = map[unit.Dimension]map[string]string{
	unit.DimTemperature: {"c": "degC", "f": "degF", "deg c": "degC", "deg f": "degF", "celsius": "degC", "fahrenheit": "degF"},
	unit.DimSpeed:       {"kt": "kn", "kts": "kn", "knot": "kn", "knots": "kn", "kmh": "km/h", "kph": "km/h", "mps": "m/s", "fps": "ft/s"},
	unit.DimPressure:    {"mbar": "hPa", "mb": "hPa"},
	unit.DimMass:        {"lbs": "lb", "gram": "g", "grams": "g"},
	unit.DimLength:      {"feet": "ft", "foot": "ft", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "mile": "mi", "miles": "mi"},
	unit.DimVoltage:     {"volt": "V", "volts": "V"},
	unit.DimAngle:       {"degree": "deg", "degrees": "deg"},
}

var amount = regexp.MustCompile(`^(-?[0-9]+(?:\.[0-9]+)?) ?(.+)$`)

// mega reports whether the wrong case makes a million times more of a unit: MV is not mV.
func mega(written, symbol string) bool {
	return written[0] == 'M' && len(symbol) > 1 && symbol[0] == 'm' && unicode.IsUpper(rune(symbol[1]))
}

// spell writes a unit as the dimension has it.
func spell(dim unit.Dimension, text string) string {
	parts := amount.FindStringSubmatch(text)
	if parts == nil {
		return text
	}
	number, written := parts[1], parts[2]
	lower := strings.ToLower(written)
	meant := scales[dim][lower]
	for _, symbol := range dim.Symbols() {
		switch {
		case symbol == written:
			return text
		case strings.ToLower(symbol) != lower || mega(written, symbol):
		case meant != "":
			return text // two units that only their case tells apart
		default:
			meant = symbol
		}
	}
	if meant == "" {
		return text
	}
	return number + " " + meant
}
