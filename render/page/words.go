package page

import "strings"

// Span is a stretch of text in one face. With Link it leads to an anchor or, if Link has a scheme, out of the document.
type Span struct {
	Text string
	Face Face
	Link string
}

// Words is running text that changes its face: most text in blocks and cells. "\n" breaks a line, other white space is one
// space, U+00A0 and U+202F hold their neighbours together, U+200B allows a break.
type Words []Span

// Plain is text in the face of its surroundings.
func Plain(text string) Words { return Words{{Text: text}} }

// Strong is text in bold.
func Strong(text string) Words { return Words{{Text: text, Face: Bold}} }

// Code is text in the fixed-width face.
func Code(text string) Words { return Words{{Text: text, Face: Mono}} }

// Linked is text that leads somewhere.
func Linked(text, to string) Words { return Words{{Text: text, Link: to}} }

// Then adds what follows.
func (w Words) Then(more ...Words) Words {
	out := append(Words(nil), w...)
	for _, m := range more {
		out = append(out, m...)
	}
	return out
}

// String is the text alone.
func (w Words) String() string {
	var b strings.Builder
	for _, s := range w {
		b.WriteString(s.Text)
	}
	return b.String()
}

// Empty says that nothing would be printed.
func (w Words) Empty() bool { return strings.TrimSpace(w.String()) == "" }
