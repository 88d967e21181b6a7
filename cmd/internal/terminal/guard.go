package terminal

import (
	"fmt"
	"io"
	"unicode"
	"unicode/utf8"
)

// Guard writes to a terminal, and writes out what the terminal would obey or could not show: control characters but the
// end of a line and the tabulator, and marks of writing direction, as <U+001B>. Our own colours (ECMA-48 select graphic
// rendition) pass. Files are refused with such characters in them; names of files, and what the system says about them,
// come from elsewhere.
func Guard(w io.Writer) io.Writer { return &guard{w: w} }

type guard struct {
	w    io.Writer
	rest []byte // the beginning of a character or of a colour, whose end has not been written yet
}

func (g *guard) Write(p []byte) (int, error) {
	text := append(g.rest, p...)
	var out []byte
	for len(text) > 0 {
		if n := colour(text); n > 0 {
			out, text = append(out, text[:n]...), text[n:]
			continue
		} else if n < 0 {
			break
		}
		if !utf8.FullRune(text) {
			break
		}
		c, size := utf8.DecodeRune(text)
		switch {
		case c == utf8.RuneError && size == 1:
			out = fmt.Appendf(out, "<%02X>", text[0])
		case c == '\n' || c == '\t' || unicode.IsGraphic(c):
			out = append(out, text[:size]...)
		default:
			out = fmt.Appendf(out, "<U+%04X>", c)
		}
		text = text[size:]
	}
	g.rest = append([]byte(nil), text...)
	if _, err := g.w.Write(out); err != nil {
		return 0, err
	}
	return len(p), nil
}

// colour is how many bytes of a text are a colour at its beginning; below zero when that cannot be said yet.
func colour(text []byte) int {
	const escape, most = "\x1b[", 12
	for i, c := range text {
		switch {
		case i < len(escape) && c == escape[i], i >= len(escape) && i < most && (c >= '0' && c <= '9' || c == ';'):
		case i >= len(escape) && c == 'm':
			return i + 1
		default:
			return 0
		}
	}
	return -1
}
