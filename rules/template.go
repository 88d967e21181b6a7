package rules

import (
	"fmt"
	"math"
	"strings"

	"hoistbook/kits/unit"
)

// A template is a text with facts and words in braces, taken apart.
type template []piece

// A piece is literal text, one of the words below, the id of a fact, or a round quantity for each system of units.
type piece struct {
	text string
	word string
	fact string
	side *unit.Side // on which a fact that is a limit is rounded, or nil for the nearest number
	each *[2]string // by unit.System
}

// The words that a template may use besides facts; value, limit and margin belong to a rule's own messages.
const (
	wordValue   = "value"
	wordLimit   = "limit"
	wordMargin  = "margin"
	wordSubject = "subject"
	wordLeast   = "least" // the limits of an item's reading
	wordMost    = "most"
)

// parseTemplate takes a text apart. It fails for a brace without its partner and for empty braces.
func parseTemplate(text string) (template, error) {
	var t template
	for rest := text; rest != ""; {
		i := strings.IndexAny(rest, "{}")
		if i < 0 {
			return append(t, piece{text: rest}), nil
		}
		t = append(t, piece{text: rest[:i]})
		end := strings.IndexAny(rest[i+1:], "{}")
		if rest[i] == '}' || end < 0 || rest[i+1+end] == '{' {
			return nil, fmt.Errorf("a brace in %q has no partner", text)
		}
		switch name := rest[i+1 : i+1+end]; name {
		case "":
			return nil, fmt.Errorf("the braces in %q are empty", text)
		case wordValue, wordLimit, wordMargin, wordSubject, wordLeast, wordMost:
			t = append(t, piece{word: name})
		default:
			p := factPiece(name)
			if si, us, both := strings.Cut(name, "|"); both {
				if err := sameSize(si, us); err != nil {
					return nil, err
				}
				p = piece{each: &[2]string{unit.SI: si, unit.US: us}}
			}
			t = append(t, p)
		}
		rest = rest[i+1+end+1:]
	}
	return t, nil
}

// The words behind the id of a fact that is a limit: {station.power_line_needed_m up} is a distance that nobody may come below.
const (
	roundUp   = " up"
	roundDown = " down"
)

func factPiece(name string) piece {
	least, most := unit.AtLeast, unit.AtMost
	if id, up := strings.CutSuffix(name, roundUp); up {
		return piece{fact: id, side: &least}
	}
	if id, down := strings.CutSuffix(name, roundDown); down {
		return piece{fact: id, side: &most}
	}
	return piece{fact: name}
}

// roundedBy is by how much the two texts of a round quantity may differ: 15 m is no rounder than 50 ft, and says the same.
const roundedBy = 0.1

// sameSize holds the two texts of a round quantity against each other: somebody who reads one is told what the other reader is.
func sameSize(si, us string) error {
	a, errA := anyQuantity(si)
	b, errB := anyQuantity(us)
	switch {
	case errA != nil:
		return errA
	case errB != nil:
		return errB
	case a.Dim != b.Dim:
		return fmt.Errorf("%q is %s and %q is %s; both are the same quantity, first in SI and then in US customary units", si, a.Dim.Info().Name, us, b.Dim.Info().Name)
	case math.Abs(a.SI-b.SI) > roundedBy*math.Max(math.Abs(a.SI), math.Abs(b.SI)):
		return fmt.Errorf("%q and %q differ by more than %.0f %%; both are the same quantity, first in SI and then in US customary units", si, us, 100*roundedBy)
	}
	return nil
}

// anyQuantity reads a quantity whose unit says its dimension.
func anyQuantity(text string) (unit.Quantity, error) {
	if _, symbol, found := strings.Cut(text, " "); found {
		for _, dim := range unit.Having(symbol) {
			if q, err := unit.ParseQuantity(dim, text); err == nil {
				return q, nil
			}
		}
	}
	return unit.Quantity{}, fmt.Errorf("%q is no quantity; write a round one for each system of units, such as {5 m|16 ft}", text)
}

// expand puts the template together again.
func (t template) expand(system unit.System, word func(name string) string, fact func(p piece) string) string {
	var text strings.Builder
	for _, p := range t {
		switch {
		case p.word != "":
			text.WriteString(word(p.word))
		case p.fact != "":
			text.WriteString(fact(p))
		case p.each != nil:
			text.WriteString(p.each[system])
		default:
			text.WriteString(p.text)
		}
	}
	return text.String()
}
