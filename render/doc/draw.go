package doc

import (
	"strconv"
	"strings"
	"unicode"

	"hoistbook/render/page"
)

// The strokes of drawings.
const (
	thin  = page.MM(0.18)
	plain = page.MM(0.35)
	thick = page.MM(0.8)
)

// A drawing gathers the things of a figure.
type drawing struct {
	fonts *page.Fonts
	w, h  page.MM
	items []page.Item
}

// reach is how far strokes may stand over the edges of a drawing.
const reach = page.MM(0.2)

// drawing begins a figure on this much of the text's width.
func (s *sheet) drawing(w, h page.MM) *drawing { return &drawing{fonts: s.Fonts, w: w - 2*reach, h: h} }

func (d *drawing) add(items ...page.Item) { d.items = append(d.items, items...) }

// figure is the drawing as a block. A [page.Figure] keeps a margin for strokes on its edges; a drawing knows where its strokes
// are and fills that margin, so that a frame stands flush with the text.
func (d *drawing) figure(caption string) page.Figure {
	const margin = thick - reach
	return page.Figure{W: d.w - 2*margin, H: d.h - 2*margin, Items: page.Moved(d.items, -margin, -margin), Caption: page.Plain(caption)}
}

func (d *drawing) line(x1, y1, x2, y2 page.MM, st page.Stroke) {
	d.add(page.Line{X1: x1, Y1: y1, X2: x2, Y2: y2, Stroke: st})
}

// A label is text in a drawing: it breaks into lines where there is no room, or shrinks first where one line looks better.
type label struct {
	face    page.Face
	size    page.Pt
	ink     page.Ink
	align   page.Align
	shrinks bool // down to three quarters of its size
}

const leastSize = page.Pt(6.5)

// put writes a label with its top at y, in a width of room, and returns where it ends. X is the left edge, the right edge or
// the middle of the room, as the label is aligned.
func (d *drawing) put(text string, l label, x, y, room page.MM) page.MM {
	size, lines := d.fit(text, l, room)
	leading := size.MM() * 1.25
	for _, line := range lines {
		y += leading
		d.add(page.Text{X: x, Y: y - leading*0.24, Face: l.face, Size: size, Ink: l.ink, Align: l.align, Text: line})
	}
	return y
}

// fit finds the size and the lines for a room.
func (d *drawing) fit(text string, l label, room page.MM) (page.Pt, []string) {
	least := l.size
	if l.shrinks {
		least = max(l.size*0.75, min(l.size, leastSize))
	}
	for size := l.size; size > least; size -= 0.5 {
		if d.fonts.Width(l.face, size, text) <= room {
			return size, []string{text}
		}
	}
	return least, wrapped(d.fonts, l.face, least, text, room)
}

// height is what put would take.
func (d *drawing) height(text string, l label, room page.MM) page.MM {
	size, lines := d.fit(text, l, room)
	return size.MM() * 1.25 * page.MM(len(lines))
}

// wrapped breaks a text at its spaces, and a word that is longer than the room wherever it must.
func wrapped(fonts *page.Fonts, face page.Face, size page.Pt, text string, room page.MM) []string {
	var lines []string
	line := ""
	fits := func(text string) bool { return fonts.Width(face, size, text) <= room }
	for _, word := range wordsOf(text) {
		if joined := strings.TrimSpace(line + " " + word); fits(joined) {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for !fits(word) {
			letters := []rune(word)
			n := 1
			for n < len(letters)-1 && fits(string(letters[:n+1])) {
				n++
			}
			if n == len(letters) {
				break
			}
			lines, word = append(lines, string(letters[:n])), string(letters[n:])
		}
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// wordsOf are the words of a text; a number and the short word behind it, which is its unit, are one.
func wordsOf(text string) []string {
	const longest = 6 // unit with a full stop or comma behind it
	var words []string
	for _, w := range strings.Fields(text) {
		letters := []rune(w)
		if n := len(words) - 1; n >= 0 && len(letters) <= longest && (unicode.IsLetter(letters[0]) || letters[0] == '%' || letters[0] == '°') &&
			unicode.IsDigit(rune(words[n][len(words[n])-1])) {
			words[n] += " " + w
			continue
		}
		words = append(words, w)
	}
	return words
}

func digits(n int) string { return strconv.Itoa(n) }
