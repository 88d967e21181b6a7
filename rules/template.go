package rules

import (
	"fmt"
	"strings"
)

// A template is a text with facts and words in braces, taken apart.
type template []piece

// A piece is literal text, one of the words below, or the id of a fact.
type piece struct {
	text string
	word string
	fact string
}

// The words that a template may use besides facts; all but subject belong to a rule's own messages.
const (
	wordValue   = "value"
	wordLimit   = "limit"
	wordMargin  = "margin"
	wordSubject = "subject"
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
		case wordValue, wordLimit, wordMargin, wordSubject:
			t = append(t, piece{word: name})
		default:
			t = append(t, piece{fact: name})
		}
		rest = rest[i+1+end+1:]
	}
	return t, nil
}

// expand puts the template together again.
func (t template) expand(word, fact func(name string) string) string {
	var text strings.Builder
	for _, p := range t {
		switch {
		case p.word != "":
			text.WriteString(word(p.word))
		case p.fact != "":
			text.WriteString(fact(p.fact))
		default:
			text.WriteString(p.text)
		}
	}
	return text.String()
}
