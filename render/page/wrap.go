package page

import (
	"strings"
	"unicode"
)

// line is one line of set text; its pieces stand side by side.
type line struct {
	pieces []piece
	width  MM
}

// piece is a stretch of a line in one face.
type piece struct {
	text string
	face Face
	link string
	x, w MM
}

// atom is what is not torn apart unless it is wider than the line by itself.
type atom struct {
	pieces []piece
	width  MM
	space  MM  // of white space before it, if it does not begin a line
	breaks int // line breaks asked for before it
}

// wrap breaks text into lines of at most the given width. A text without a letter gives no line.
func (s *setting) wrap(words Words, style Style, width MM) []line {
	var lines []line
	var now line
	begun := false
	for _, a := range s.atoms(words, style) {
		for range a.breaks {
			if begun || len(lines) > 0 {
				lines = append(lines, now)
			}
			now, begun = line{}, false
		}
		if begun && now.width+a.space+a.width > width {
			lines = append(lines, now)
			now, begun = line{}, false
		}
		if a.width > width {
			parts := s.tear(a, style, width)
			for _, part := range parts[:len(parts)-1] {
				lines = append(lines, line{part.pieces, part.width})
			}
			a = parts[len(parts)-1]
		}
		if begun {
			now.width += a.space
		}
		now.add(a, begun && a.space > 0)
		begun = true
	}
	if begun {
		lines = append(lines, now)
	}
	return lines
}

// add sets an atom at the end of a line; pieces of the same kind become one text, so that it reads and searches as one.
func (l *line) add(a atom, spaced bool) {
	for i, p := range a.pieces {
		p.x += l.width
		gap := ""
		if i == 0 && spaced {
			gap = " "
		}
		if n := len(l.pieces); n > 0 && l.pieces[n-1].face == p.face && l.pieces[n-1].link == p.link {
			last := &l.pieces[n-1]
			last.text += gap + p.text
			last.w = p.x + p.w - last.x
			continue
		}
		l.pieces = append(l.pieces, p)
	}
	l.width += a.width
}

// atoms splits text at the places where a line may end.
func (s *setting) atoms(words Words, style Style) []atom {
	var all []atom
	var now atom
	open := func() bool { return len(now.pieces) > 0 }
	shut := func() {
		if open() {
			all = append(all, now)
			now = atom{}
		}
	}
	for _, span := range words {
		face := span.Face
		if face == Sans {
			face = style.Face
		}
		blank := s.fonts.Width(face, style.Size, " ")
		text := []rune(strings.ReplaceAll(span.Text, "\r\n", "\n"))
		from := 0
		take := func(to int) {
			if to > from {
				t := string(text[from:to])
				w := s.fonts.Width(face, style.Size, t)
				now.pieces = append(now.pieces, piece{t, face, span.Link, now.width, w})
				now.width += w
			}
			from = to
		}
		for i, r := range text {
			switch {
			case r == '\n':
				take(i)
				shut()
				now.breaks, now.space, from = now.breaks+1, 0, i+1
			case isBlank(r):
				take(i)
				shut()
				if now.breaks == 0 && len(all) > 0 {
					now.space = blank
				}
				from = i + 1
			case r == '\u200b':
				take(i)
				shut()
				from = i + 1
			case mayEndLine(text, i):
				take(i + 1)
				shut()
			}
		}
		take(len(text))
	}
	shut()
	return all
}

// isBlank is white space at which a line may end; the no-break spaces are not.
func isBlank(r rune) bool {
	return unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f' && r != '\u2007'
}

// mayEndLine allows a break after an em dash, and after a hyphen or slash between two words of at least three letters: "-5" and
// "NO-GO" stay whole.
func mayEndLine(text []rune, i int) bool {
	const whole = 3
	switch text[i] {
	case '—':
		return i > 0
	case '-', '/':
	default:
		return false
	}
	if i < whole || i+whole >= len(text) {
		return false
	}
	for k := 1; k <= whole; k++ {
		if !unicode.IsLetter(text[i-k]) || !unicode.IsLetter(text[i+k]) {
			return false
		}
	}
	return true
}

// tear breaks an atom that is wider than a line between characters, keeping marks with the letters that they stand on.
func (s *setting) tear(a atom, style Style, width MM) []atom {
	parts := []atom{{space: a.space, breaks: a.breaks}}
	for _, p := range a.pieces {
		text := []rune(p.text)
		for from := 0; from < len(text); {
			to := from + 1
			for to < len(text) && unicode.Is(unicode.M, text[to]) {
				to++
			}
			cluster := string(text[from:to])
			w := s.fonts.Width(p.face, style.Size, cluster)
			last := &parts[len(parts)-1]
			if len(last.pieces) > 0 && last.width+w > width {
				parts = append(parts, atom{})
				last = &parts[len(parts)-1]
			}
			if n := len(last.pieces); n > 0 && last.pieces[n-1].face == p.face && last.pieces[n-1].link == p.link {
				last.pieces[n-1].text += cluster
				last.pieces[n-1].w += w
			} else {
				last.pieces = append(last.pieces, piece{cluster, p.face, p.link, last.width, w})
			}
			last.width += w
			from = to
		}
	}
	return parts
}

// widest is the width that text takes on as few lines as it has line breaks, and that of its widest atom.
func (s *setting) widest(words Words, style Style) (natural, least MM) {
	var now MM
	for _, a := range s.atoms(words, style) {
		if a.breaks > 0 {
			now = 0
		} else {
			now += a.space
		}
		now += a.width
		natural, least = max(natural, now), max(least, a.width)
	}
	return natural, least
}
