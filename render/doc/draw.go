package doc

import (
	"strconv"
	"strings"

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

func (s *sheet) drawing(w, h page.MM) *drawing { return &drawing{fonts: s.Fonts, w: w, h: h} }

func (d *drawing) add(items ...page.Item) { d.items = append(d.items, items...) }

// figure is the drawing as a block. A [page.Figure] keeps a margin for strokes on its edges; this drawing has its strokes
// inside, and reaches over that margin so that its frame stands flush with the text.
func (d *drawing) figure(caption string) page.Figure {
	const edge = thick
	return page.Figure{W: d.w - 2*edge, H: d.h - 2*edge, Items: page.Moved(d.items, -edge, -edge), Caption: page.Plain(caption)}
}

func (d *drawing) line(x1, y1, x2, y2 page.MM, st page.Stroke) {
	d.add(page.Line{X1: x1, Y1: y1, X2: x2, Y2: y2, Stroke: st})
}

// A label is text in a drawing: the size is what it has where there is room, and it shrinks, down to a size that can still be
// read, before it breaks into lines.
type label struct {
	face  page.Face
	size  page.Pt
	ink   page.Ink
	align page.Align
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
	for size := l.size; size >= max(l.size*0.75, leastSize); size -= 0.5 {
		if d.fonts.Width(l.face, size, text) <= room {
			return size, []string{text}
		}
	}
	size := max(l.size*0.75, min(l.size, leastSize))
	return size, wrapped(d.fonts, l.face, size, text, room)
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
	for _, word := range strings.Fields(text) {
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

func digits(n int) string { return strconv.Itoa(n) }
