package page

// Contents lists parts of the document with the pages on which they begin.
type Contents []ContentsLine

// ContentsLine leads to the anchor of a [Heading].
type ContentsLine struct {
	Text, Anchor string
	Level        int
}

func (c Contents) strips(s *setting, width MM) []strip {
	style := s.scale.Body
	number := s.fonts.Width(style.Face, style.Size, "00000")
	var all []strip
	for _, entry := range c {
		x := MM(max(entry.Level, 0)) * listIndent
		lines := s.wrap(Plain(entry.Text), style, width-number-x-small)
		if len(lines) == 0 {
			continue
		}
		strips := make([]strip, len(lines))
		for i, l := range lines {
			strips[i] = strip{height: style.Leading, items: s.set(l, style, 0, x, 0, width-number-x, Left), bond: loose}
			if i == len(lines)-1 {
				base := style.baseline()
				strips[i].bond = free
				strips[i].items = append(strips[i].items,
					PageNumber{entry.Anchor, Text{X: width, Y: base, Face: style.Face, Size: style.Size, Align: Right}},
					Link{Box{x, 0, width - x, style.Leading}, entry.Anchor})
				strips[i].items = append(strips[i].items, leader(x+l.width, width-number+small, base)...)
			}
		}
		all = append(all, spaced(strips, small*0.4, small*0.4)...)
	}
	return spaced(all, medium, medium)
}
