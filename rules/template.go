package rules

import (
	"fmt"
	"strings"

	"hoistbook/kits/unit"
)

// A template is a text with facts and words in braces, taken apart.
type template []piece

// A piece is literal text, one of the words below, or the id of a fact.
type piece struct {
	text string
	word string
	fact string
	side *unit.Side // on which a fact that is a limit is rounded, or nil for the nearest number
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
			t = append(t, factPiece(name))
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

// expand puts the template together again.
func (t template) expand(word func(name string) string, fact func(piece) string) string {
	var text strings.Builder
	for _, p := range t {
		switch {
		case p.word != "":
			text.WriteString(word(p.word))
		case p.fact != "":
			text.WriteString(fact(p))
		default:
			text.WriteString(p.text)
		}
	}
	return text.String()
}
