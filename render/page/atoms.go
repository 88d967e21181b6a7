package page

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// atom is what is not torn apart unless it is wider than the line by itself.
type atom struct {
	pieces []piece
	width  MM
	space  MM  // of white space before it, if it does not begin a line
	breaks int // line breaks asked for before it
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
