package terminal

import "strings"

// Reflow breaks a text into lines of at most so many columns: paragraphs are parted by empty lines, and a line that is indented
// stands as it is.
func Reflow(text string, columns int) string {
	var out, words []string
	flush := func() {
		if len(words) > 0 {
			out = append(out, wrap(strings.Join(words, " "), columns)...)
			words = nil
		}
	}
	for line := range strings.SplitSeq(text, "\n") {
		if line == "" || line[0] == ' ' || line[0] == '\t' {
			flush()
			out = append(out, line)
			continue
		}
		words = append(words, line)
	}
	flush()
	return strings.Join(out, "\n")
}
