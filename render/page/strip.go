package page

// strip is a horizontal slice of a page that is not cut any further. Blocks turn into strips, and a [Flow] stacks strips.
type strip struct {
	before, after MM // white above and below; between two strips the larger one counts, at the top of a page none
	height        MM
	items         []Item  // from the strip's own top-left corner
	bond          bond    // to the strip that follows
	head          []strip // set again above this strip when it begins a page
	breaks        bool    // begins a new page
	// elastic sets as much as the room allows and returns the rest, if any; the strip's height is then the least room it needs.
	elastic func(room MM) (set strip, rest *strip)
}

// bond says how badly a strip wants to be on the same page as the next one.
type bond uint8

const (
	free   bond = iota
	loose       // unless they do not fit on a page together
	strong      // a heading and what it is the heading of
)

// setting is what blocks are set in.
type setting struct {
	fonts  *Fonts
	scale  *Scale
	height MM // of a whole page's text block: no strip is higher
	fail   func(error)
}

// Block is a part of a document: a heading, a paragraph, a table … Its kinds are in this package.
type Block interface {
	strips(s *setting, width MM) []strip
}

// baseline is where letters stand in a line, from the line's top.
func (st Style) baseline() MM {
	up, down := st.Face.Ascent(st.Size), st.Face.Descent(st.Size)
	return (st.Leading-up-down)/2 + up
}

// set places one line of text in an area of the given width.
func (s *setting) set(l line, style Style, ink Ink, x, y, width MM, align Align) []Item {
	switch align {
	case Right:
		x += width - l.width
	case Middle:
		x += (width - l.width) / 2
	}
	base := y + style.baseline()
	var items []Item
	for _, p := range l.pieces {
		items = append(items, Text{X: x + p.x, Y: base, Face: p.face, Size: style.Size, Ink: ink, Text: p.text})
		if p.link != "" {
			under := base + style.Size.MM()*0.14
			items = append(items,
				Line{x + p.x, under, x + p.x + p.w, under, Stroke{Width: hairline}},
				Link{Box{x + p.x, y, p.w, style.Leading}, p.link})
		}
	}
	return items
}

// setAll places lines below each other.
func (s *setting) setAll(lines []line, style Style, ink Ink, x, y, width MM, align Align) []Item {
	var items []Item
	for i, l := range lines {
		items = append(items, s.set(l, style, ink, x, y+MM(i)*style.Leading, width, align)...)
	}
	return items
}

// text sets a paragraph as one strip a line. Its first two and its last two lines stay together.
func (s *setting) text(words Words, style Style, ink Ink, x, width MM) []strip {
	lines := s.wrap(words, style, width-x)
	strips := make([]strip, len(lines))
	for i, l := range lines {
		strips[i] = strip{height: style.Leading, items: s.set(l, style, ink, x, 0, width-x, Left)}
		if i == 0 || i == len(lines)-2 {
			strips[i].bond = loose
		}
	}
	if n := len(strips); n > 0 {
		strips[n-1].bond = free
	}
	return strips
}

// raise takes white away at the top.
func (st *strip) raise(by MM) {
	st.items = move(st.items, 0, -by)
	st.height -= by
}

// spaced puts white before the first and after the last of some strips.
func spaced(strips []strip, before, after MM) []strip {
	if n := len(strips); n > 0 {
		strips[0].before = max(strips[0].before, before)
		strips[n-1].after = max(strips[n-1].after, after)
	}
	return strips
}

// bonded joins all of some strips, but not the last to what follows.
func bonded(strips []strip, by bond) []strip {
	for i := range strips[:max(len(strips)-1, 0)] {
		strips[i].bond = max(strips[i].bond, by)
	}
	return strips
}

// stacked is the height of strips that begin a page.
func stacked(strips []strip) MM {
	var h MM
	for i, st := range strips {
		if i > 0 {
			h += max(strips[i-1].after, st.before)
		}
		h += st.height
	}
	return h
}

// merged stacks strips into the items of one.
func merged(strips []strip, x, y MM) []Item {
	var items []Item
	for i, st := range strips {
		if i > 0 {
			y += max(strips[i-1].after, st.before)
		}
		items = append(items, move(st.items, x, y)...)
		y += st.height
	}
	return items
}
