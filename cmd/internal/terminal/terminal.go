// Package terminal prints for people who sit at a terminal of eighty columns. The rules of the house: plain text first,
// colour only marks what the words already say; the verdict stands last, where the eye is; what fails comes before what
// holds; nothing is cut short.
package terminal

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"hoistbook/kits/unit"
)

// Columns is the width that is printed for.
const Columns = 80

// Style says for whom to print.
type Style struct {
	Colour  bool
	System  unit.System
	Verbose bool // name the rule, its level and its source also where all is well
}

// An ink is an ANSI colour (ECMA-48 select graphic rendition).
type ink string

const (
	bold   ink = "1"
	dim    ink = "2"
	red    ink = "31"
	green  ink = "32"
	yellow ink = "33"
)

// paint colours a text where colour is wanted.
func (s Style) paint(text string, inks ...ink) string {
	if !s.Colour || text == "" {
		return text
	}
	codes := make([]string, len(inks))
	for i, k := range inks {
		codes[i] = string(k)
	}
	return "\x1b[" + strings.Join(codes, ";") + "m" + text + "\x1b[0m"
}

// width counts the columns of a text; the characters we print are one wide each.
func width(text string) int { return utf8.RuneCountInString(text) }

// pad fills a text up to so many columns, on the right or, with right set, on the left.
func pad(text string, columns int, right bool) string {
	fill := strings.Repeat(" ", max(columns-width(text), 0))
	if right {
		return fill + text
	}
	return text + fill
}

// wrap breaks a text between words into lines of at most so many columns, and never between a number and its unit. A longer
// word has a line of its own.
func wrap(text string, columns int) []string {
	var lines []string
	line := ""
	for _, word := range words(text) {
		switch {
		case line == "":
			line = word
		case width(line)+1+width(word) <= columns:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return append(lines, line)
}

// words parts a text; a number and a short word behind it, such as a unit, are one.
func words(text string) []string {
	const longestUnit = 5
	var list []string
	for _, word := range strings.Fields(text) {
		if last := len(list) - 1; last >= 0 && width(word) <= longestUnit && isNumber(list[last]) {
			list[last] += " " + word
			continue
		}
		list = append(list, word)
	}
	return list
}

func isNumber(word string) bool {
	return strings.ContainsAny(word, "0123456789") && strings.Trim(word, "0123456789.,+-−") == ""
}

// paragraph prints a text with a hanging indent; what stands before the first line may be longer.
func paragraph(w io.Writer, first, rest, text string) {
	taken := strings.Repeat("\x00", max(0, width(first)-width(rest)))
	for i, line := range wrap(taken+text, Columns-width(rest)) {
		lead := rest
		if i == 0 {
			lead, line = first, strings.TrimPrefix(line, taken)
		}
		fmt.Fprintln(w, strings.TrimRight(lead+line, " "))
	}
}
