package page

import (
	"strings"
	"unicode"
	"unicode/utf8"
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
	span span
}

// span is where a piece comes from: bytes of one of the [Words]. Neighbours on a line are joined by taking the bytes from the
// beginning of the one to the end of the other, which copies nothing.
type span struct {
	source   string
	from, to int
}

// upTo is the text from the beginning of one piece to the end of another with a gap between, if it stands so in their source.
func (s span) upTo(next span, gap string) (string, bool) {
	if s.source == "" || s.to > next.from || s.source != next.source || s.source[s.to:next.from] != gap {
		return "", false
	}
	return s.source[s.from:next.to], true
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
	return s.fill(s.atoms(words, style), style, width)
}

// fill sets atoms on lines, and uses them up.
func (s *setting) fill(atoms []atom, style Style, width MM) []line {
	var lines []line
	var now line
	begun := false
	for _, a := range withUnits(atoms, width) {
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
			if text, ok := last.span.upTo(p.span, gap); ok {
				last.text, last.span.to = text, p.span.to
			} else {
				last.text, last.span = last.text+gap+p.text, span{}
			}
			last.w = p.x + p.w - last.x
			continue
		}
		l.pieces = append(l.pieces, p)
	}
	l.width += a.width
}

// atoms splits text at the places where a line may end.
func (s *setting) atoms(words Words, style Style) []atom {
	size := 0
	for _, w := range words {
		size += len(w.Text)
	}
	c := cutter{fonts: s.fonts, size: style.Size, atoms: make([]atom, 0, size/5+1), pieces: make([]piece, 0, size/5+len(words))}
	for _, w := range words {
		c.face, c.link = w.Face, w.Link
		if c.face == Sans {
			c.face = style.Face
		}
		c.cut(strings.ReplaceAll(w.Text, "\r\n", "\n"))
	}
	c.shut()
	return c.atoms
}

// cutter gathers pieces to atoms, and atoms to a list.
type cutter struct {
	fonts  *Fonts
	size   Pt
	face   Face
	link   string
	atoms  []atom
	pieces []piece // of all atoms
	begun  int     // where the pieces of the present atom begin
	now    atom
}

func (c *cutter) cut(text string) {
	blank := c.fonts.Width(c.face, c.size, " ")
	from := 0
	for i, r := range text {
		switch {
		case r == '\n':
			c.take(text, from, i)
			c.shut()
			c.now.breaks, c.now.space, from = c.now.breaks+1, 0, i+1
		case r == '\u200b':
			c.take(text, from, i)
			c.shut()
			from = i + len("\u200b")
		case isBlank(r):
			c.take(text, from, i)
			c.shut()
			if c.now.breaks == 0 && len(c.atoms) > 0 {
				c.now.space = blank
			}
			from = i + utf8.RuneLen(r)
		case mayEndLine(text, i, r):
			next := i + utf8.RuneLen(r)
			c.take(text, from, next)
			c.shut()
			from = next
		}
	}
	c.take(text, from, len(text))
}

// take adds a piece to the present atom.
func (c *cutter) take(text string, from, to int) {
	if from == to {
		return
	}
	w := c.fonts.Width(c.face, c.size, text[from:to])
	c.pieces = append(c.pieces, piece{text[from:to], c.face, c.link, c.now.width, w, span{text, from, to}})
	c.now.width += w
}

// shut ends the present atom.
func (c *cutter) shut() {
	if end := len(c.pieces); end > c.begun {
		c.now.pieces = c.pieces[c.begun:end:end]
		c.atoms = append(c.atoms, c.now)
		c.now, c.begun = atom{}, end
	}
}

// withUnits joins a number and a short word behind it, which is its unit: "12.6 V" is not read aloud as "12.6". (The SI Brochure,
// 9th edition, 5.4.3, has a space between them that does not part.) It holds only where both fit on a line.
func withUnits(atoms []atom, width MM) []atom {
	out := atoms[:0]
	for _, a := range atoms {
		if n := len(out); n > 0 && heldTogether(out[n-1], a) && out[n-1].width+a.space+a.width <= width {
			last := &out[n-1]
			joined := line{last.pieces, last.width + a.space}
			joined.add(a, true)
			last.pieces, last.width = joined.pieces, joined.width
			continue
		}
		out = append(out, a)
	}
	return out
}

func heldTogether(a, b atom) bool {
	return b.space > 0 && b.breaks == 0 && isNumber(a) && isUnit(b)
}

func isNumber(a atom) bool {
	text := a.pieces[len(a.pieces)-1].text
	r, _ := utf8.DecodeLastRuneInString(text)
	return unicode.IsDigit(r)
}

func isUnit(a atom) bool {
	const longest = 6 // letters, a comma or full stop behind them included: "lb/ft,"
	text := a.pieces[0].text
	r, _ := utf8.DecodeRuneInString(text)
	return len(a.pieces) == 1 && utf8.RuneCountInString(text) <= longest && (unicode.IsLetter(r) || strings.ContainsRune("%‰°", r))
}

// isBlank is white space at which a line may end; the no-break spaces are not.
func isBlank(r rune) bool {
	return unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f' && r != '\u2007'
}

// mayEndLine allows a break after an em dash, and after a hyphen or slash between two words of at least three letters: "-5" and
// "NO-GO" stay whole.
func mayEndLine(text string, i int, r rune) bool {
	const whole = 3
	switch r {
	case '—':
		return i > 0
	case '-', '/':
	default:
		return false
	}
	before, after := text[:i], text[i+1:]
	for range whole {
		b, n := utf8.DecodeLastRuneInString(before)
		a, m := utf8.DecodeRuneInString(after)
		if !unicode.IsLetter(b) || !unicode.IsLetter(a) {
			return false
		}
		before, after = before[:len(before)-n], after[m:]
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
				last.pieces = append(last.pieces, piece{cluster, p.face, p.link, last.width, w, span{}})
			}
			last.width += w
			from = to
		}
	}
	return parts
}

// widest is the width that text takes on as few lines as it has line breaks, and that of its widest atom.
func (s *setting) widest(words Words, style Style) (natural, least MM) {
	return widest(s.atoms(words, style))
}

func widest(atoms []atom) (natural, least MM) {
	var now MM
	for i, a := range atoms {
		least = max(least, a.width)
		if a.breaks > 0 {
			now = 0
		} else if i > 0 {
			now += a.space
			if heldTogether(atoms[i-1], a) {
				least = max(least, atoms[i-1].width+a.space+a.width)
			}
		}
		now += a.width
		natural = max(natural, now)
	}
	return natural, least
}
