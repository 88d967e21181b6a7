package pdf

import (
	"strconv"

	"hoistbook/render/page"
)

// typeCase holds the letters that a document uses: for each font the characters in the order of their first use. Each gets a code,
// which is its glyph's number in the cut-down font that the file embeds. Code 0 is the font's sign for "no such glyph".
type typeCase struct {
	fonts *page.Fonts
	cases []*letterCase
	of    map[*page.Font]*letterCase
}

type letterCase struct {
	font   *page.Font
	name   string // of the resource
	codes  map[rune]uint16
	latin  [0x180]uint16
	runes  []rune // by code, from 1
	glyphs []uint16
}

func newTypeCase(fonts *page.Fonts) *typeCase {
	return &typeCase{fonts: fonts, of: map[*page.Font]*letterCase{}}
}

// show appends the operators that show a text: a font and a string of codes for each run of characters from one font. The strings are
// bytes, not hexadecimal: half as much to pack.
func (t *typeCase) show(b []byte, face page.Face, size float64, text string) []byte {
	var now *letterCase
	for _, r := range text {
		font, glyph := t.fonts.Pick(face, r)
		c := t.of[font]
		if c == nil {
			c = &letterCase{font: font, name: "T" + strconv.Itoa(len(t.cases)+1), codes: map[rune]uint16{}}
			t.cases, t.of[font] = append(t.cases, c), c
		}
		if c != now {
			if now != nil {
				b = append(b, ") Tj"...)
			}
			b = append(append(b, " /"...), c.name...)
			b = append(number(append(b, ' '), size, 3), " Tf ("...)
			now = c
		}
		code := c.code(r, glyph)
		b = literalByte(literalByte(b, byte(code>>8)), byte(code))
	}
	return append(b, ") Tj"...)
}

// literalByte appends a byte of a literal string (ISO 32000-1, 7.3.4.2). A carriage return would be read as an end of line.
func literalByte(b []byte, c byte) []byte {
	switch c {
	case '(', ')', '\\':
		return append(b, '\\', c)
	case '\r':
		return append(b, `\r`...)
	}
	return append(b, c)
}

func (c *letterCase) code(r rune, glyph uint16) uint16 {
	if int(r) < len(c.latin) && c.latin[r] != 0 {
		return c.latin[r]
	}
	if code, ok := c.codes[r]; ok {
		return code
	}
	code := uint16(len(c.runes) + 1)
	c.codes[r] = code
	if int(r) < len(c.latin) {
		c.latin[r] = code
	}
	c.runes, c.glyphs = append(c.runes, r), append(c.glyphs, glyph)
	return code
}
