package page

import "unicode"

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

// wrap breaks text into lines of at most the given width. A text without a letter gives no line.
func (s *setting) wrap(words Words, style Style, width MM) []line {
	return s.fill(s.atoms(words, style), style, width)
}

// balanced breaks text into as few lines as the width allows, and those as even as can be: no word stands alone in the last.
func (s *setting) balanced(words Words, style Style, width MM) []line {
	lines := s.wrap(words, style, width)
	if len(lines) < 2 {
		return lines
	}
	const steps = 6 // to a hundredth of the width
	_, word := s.widest(words, style)
	low, high := min(max(width*0.6, word), width), width
	for range steps {
		mid := (low + high) / 2
		if try := s.wrap(words, style, mid); len(try) == len(lines) {
			lines, high = try, mid
		} else {
			low = mid
		}
	}
	return lines
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
