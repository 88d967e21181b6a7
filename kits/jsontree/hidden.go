package jsontree

import (
	"fmt"
	"unicode"

	"hoistbook/kits/diag"
)

// Hidden notes every text and every key in which stands a character that nobody sees and that changes what is seen around
// it: a control character, which a terminal may obey; a mark that turns the direction of writing, which shows another text
// than the one that is there (Unicode Technical Report 36, section 2.5); a joiner or space without width, which makes two
// names look the same; a separator of lines. Notes under "x-" keys are looked through too, since they ride along in books.
func (n *Node) Hidden(problems *diag.Problems) {
	if n.Kind == String {
		hidden(n.Text, "the text", n, problems)
	}
	for _, m := range n.Members {
		hidden(m.Name, "the key", m, problems)
		m.Value.Hidden(problems)
	}
	for _, item := range n.Items {
		item.Hidden(problems)
	}
}

func hidden(text, what string, at placed, problems *diag.Problems) {
	for _, c := range text {
		if isHidden(c) {
			problems.Add(at.Place(), fmt.Sprintf("in %s stands a character that nobody sees, U+%04X", what, c), hiddenFix(c))
			return
		}
	}
}

// isHidden reports whether a character is a control character, a mark of format or a separator of lines; unassigned and
// private ones show as nothing that two readers agree on, and are counted among them.
func isHidden(c rune) bool {
	return !unicode.IsGraphic(c) || c == unicode.ReplacementChar
}

func hiddenFix(c rune) string {
	switch {
	case c == '\n' || c == '\r' || c == '\t':
		return "write the text on one line, with spaces"
	case unicode.Is(unicode.Bidi_Control, c):
		return "take the mark of writing direction out"
	}
	return "take it out"
}
