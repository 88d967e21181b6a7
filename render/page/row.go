package page

import "strconv"

// tableRow is a row whose cells are wrapped to their widths.
type tableRow struct {
	cells      []setCell
	padX, padY MM // inside each cell
	least      MM // height
}

type setCell struct {
	lines       []line
	style       Style
	x, w        MM
	align       Align
	low         bool // stands on the row's last line rather than on its first
	field, tick string
	ticks       int // how many boxes
	label       string
}

// rowStrips sets a row as one strip. One that would be higher than a page becomes several, each a page's worth of lines.
func (s *setting) rowStrips(r tableRow) []strip {
	height := r.height()
	if height <= s.height*0.8 {
		return []strip{{height: height, items: s.row(r, height)}}
	}
	// How many lines each part may have: the tallest leading decides, and a repeated head must fit above.
	var leading MM
	longest := 0
	for _, c := range r.cells {
		leading, longest = max(leading, c.style.Leading), max(longest, len(c.lines))
	}
	chunk := max(int((s.height*0.5-2*r.padY)/leading), 1)
	var strips []strip
	for from := 0; from < longest; from += chunk {
		part := r
		part.cells = make([]setCell, len(r.cells))
		for i, c := range r.cells {
			c.lines = c.lines[min(from, len(c.lines)):min(from+chunk, len(c.lines))]
			if from > 0 {
				c.field, c.tick = "", ""
			}
			part.cells[i] = c
		}
		h := part.height()
		strips = append(strips, strip{height: h, items: s.row(part, h)})
	}
	return strips
}

func (r tableRow) height() MM {
	h := r.least
	for _, c := range r.cells {
		h = max(h, MM(len(c.lines))*c.style.Leading+2*r.padY)
		if c.tick != "" {
			h = max(h, cellTick+2*r.padY)
		}
		if c.field != "" {
			h = max(h, writeHeight)
		}
	}
	return h
}

func (s *setting) row(r tableRow, height MM) []Item {
	var items []Item
	for _, c := range r.cells {
		x, w, y := c.x+r.padX, c.w-2*r.padX, r.padY
		if c.low {
			y = height - r.padY - MM(len(c.lines))*c.style.Leading
		}
		if c.tick != "" {
			top := y + (c.style.Leading-cellTick)/2
			for i := range max(c.ticks, 1) {
				name := c.tick
				if c.ticks > 1 {
					name += "/" + strconv.Itoa(i+1)
				}
				items = append(items, TickBox{x, max(top, 0), cellTick, name, c.label})
				x, w = x+cellTick+small, w-cellTick-small
			}
		}
		items = append(items, s.setAll(c.lines, c.style, 0, x, y, w, c.align)...)
		if c.field != "" {
			if c.x > 0 {
				items = append(items, Line{c.x, 0, c.x, height, Stroke{Width: hairline, Ink: ruleGrey}})
			}
			items = append(items, Field{Box: Box{c.x, 0, c.w, height}.grown(-hairline), Name: c.field, Label: c.label, Size: c.style.Size, Bare: true})
		}
	}
	return items
}
