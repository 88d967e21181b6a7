package unit

import (
	"regexp"
	"strings"
)

// Pattern is what a text of this dimension looks like, as a regular expression without anchors that Go and ECMA-262 read
// alike. The published JSON Schemas use it; ParseQuantity refuses some more: a temperature below absolute zero, a level
// in dBm that no float holds.
func (d Dimension) Pattern() string {
	info := d.Info()
	if first := info.Units[0]; first.Prefix {
		return first.Symbol + " ?" + NumberPattern
	}
	var signed, unsigned []string
	bare := false
	for _, u := range info.Units {
		switch {
		case u.Symbol == "":
			bare = true
		case info.Signed || u.Log:
			signed = append(signed, spellings(u.Symbol))
		default:
			unsigned = append(unsigned, spellings(u.Symbol))
		}
	}
	var ways []string
	if len(signed) > 0 {
		ways = append(ways, "-?"+NumberPattern+symbols(signed))
	}
	if len(unsigned) > 0 {
		ways = append(ways, NumberPattern+symbols(unsigned))
	}
	switch {
	case bare && len(ways) == 0:
		return NumberPattern
	case bare:
		ways = append(ways, NumberPattern)
	}
	if len(ways) == 1 {
		return ways[0]
	}
	return "(" + strings.Join(ways, "|") + ")"
}

// symbols matches an optional space and one of the symbols.
func symbols(texts []string) string {
	if len(texts) == 1 {
		return " ?" + texts[0]
	}
	return " ?(" + strings.Join(texts, "|") + ")"
}

// spellings matches every way to write a symbol.
func spellings(symbol string) string {
	text := regexp.QuoteMeta(symbol)
	for _, way := range alike {
		if len(way.ascii) == 1 {
			text = strings.ReplaceAll(text, way.ascii, "["+way.ascii+strings.Join(way.also, "")+"]")
		} else {
			text = strings.ReplaceAll(text, way.ascii, "("+way.ascii+"|"+strings.Join(way.also, "|")+")")
		}
	}
	return text
}

// alike lists what may be written for a piece of a symbol: micro sign and Greek mu, degree sign, Greek omega and ohm sign,
// raised figures. They are escaped because editors turn one look-alike into the other.
var alike = []struct {
	ascii string
	also  []string
}{
	{"u", []string{"\u00b5", "\u03bc"}}, {"deg", []string{"\u00b0"}}, {"ohm", []string{"\u03a9", "\u2126"}}, {"2", []string{"\u00b2"}}, {"3", []string{"\u00b3"}},
}

// spelling makes one of the ways to write a unit; it must never touch the number, where "2²" is no 22.
var spelling = func() *strings.Replacer {
	var pairs []string
	for _, way := range alike {
		for _, other := range way.also {
			pairs = append(pairs, other, way.ascii)
		}
	}
	return strings.NewReplacer(pairs...)
}()
