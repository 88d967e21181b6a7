package page

// hair is for rounding: a line that is exactly as wide as its cell must not wrap.
const hair = MM(0.01)

// widths shares the room out among a table's columns, once for all rows. Every column wants its natural width, on which nothing
// wraps. If all fit, the spare width goes by weight. If not, columns shrink towards their longest unbreakable piece, those that
// ask for most giving most; if even those do not fit, the widest are cut down to a common measure and text breaks by character.
func (t Table) widths(s *setting, texts [][][]atom, room MM) []MM {
	n := len(t.Columns)
	natural, least, floors := make([]MM, n), make([]MM, n), t.floors()
	for i, c := range t.Columns {
		full, word := s.widest(Plain(c.Title), s.scale.Column)
		natural[i] = max(word+2*cellPadX+hair, c.Least, floors[i])
		least[i] = natural[i]
		if full <= 1.6*word {
			natural[i] = max(natural[i], full+2*cellPadX+hair)
		}
	}
	for i, row := range t.Rows {
		column := 0
		for k, cell := range row.Cells {
			if cell.Span <= 1 {
				t.measure(texts[i][k], cell, column, natural, least)
			}
			column += max(cell.Span, 1)
		}
	}
	for i, c := range t.Columns {
		if c.Width > 0 {
			natural[i], least[i] = max(c.Width, floors[i]), max(c.Width, floors[i])
		}
	}
	switch {
	case sum(natural) <= room:
		return t.spread(natural, room)
	case sum(least) <= room:
		return shrink(natural, least, room)
	}
	return level(least, floors, room)
}

// floors are the widths below which no column is cut: one wide letter, and a box to tick where there is one.
func (t Table) floors() []MM {
	floors := make([]MM, len(t.Columns))
	for i := range floors {
		floors[i] = leastColumn
	}
	for _, row := range t.Rows {
		column := 0
		for _, cell := range row.Cells {
			if column < len(floors) {
				floors[column] = max(floors[column], leastColumn+cell.tickRoom())
			}
			column += max(cell.Span, 1)
		}
	}
	return floors
}

// measure widens a column to what a cell asks for.
func (t Table) measure(text []atom, cell Cell, column int, natural, least []MM) {
	full, word := widest(text)
	extra := 2*cellPadX + cell.tickRoom()
	if t.Columns[column].Whole {
		word = full
	}
	natural[column] = max(natural[column], full+extra+hair)
	least[column] = max(least[column], word+extra+hair)
}

func (t Table) spread(natural []MM, room MM) []MM {
	var weights float64
	for _, c := range t.Columns {
		weights += max(c.Weight, 0)
	}
	spare := room - sum(natural)
	for i, c := range t.Columns {
		if weights > 0 {
			natural[i] += spare * MM(max(c.Weight, 0)/weights)
		}
	}
	return natural
}

func shrink(natural, least []MM, room MM) []MM {
	over, give := sum(natural)-room, sum(natural)-sum(least)
	widths := make([]MM, len(natural))
	for i := range widths {
		widths[i] = natural[i] - over*(natural[i]-least[i])/give
	}
	return widths
}

// level cuts the widest columns down to one measure, so that the narrow ones keep what they need.
func level(least, floors []MM, room MM) []MM {
	cut := func(to MM) []MM {
		widths := make([]MM, len(least))
		for i, w := range least {
			widths[i] = max(floors[i], min(w, to))
		}
		return widths
	}
	low, high := MM(0), room
	for range 50 {
		mid := (low + high) / 2
		if sum(cut(mid)) <= room {
			low = mid
		} else {
			high = mid
		}
	}
	return cut(low)
}

func sum(widths []MM) (total MM) {
	for _, w := range widths {
		total += w
	}
	return total
}
