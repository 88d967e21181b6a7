package page

import "fmt"

// Table sets rows in columns. Its widths come from what stands in it; its head is repeated on every page; a row is parted
// only if it is nearly as high as a page, and a small table not at all.
type Table struct {
	Columns []Column
	Rows    []Row
	NoHead  bool // does not print the columns' titles
	Tight   bool // has neither rules nor air between its rows
}

// Column says how the cells of a column are set. A Width is kept; otherwise the column is as wide as its content, at least Least,
// and takes a share of spare width by its Weight. Without any weight the table is as wide as it needs to be.
type Column struct {
	Title        string
	Align        Align
	Width, Least MM
	Weight       float64
	Whole        bool // cells are not wrapped if it can be helped: numbers with their units
}

// Row is a row of a table.
type Row struct {
	Cells []Cell
	Kind  RowKind
	Open  bool // goes on in the next row: no rule between them, and they stay together

	follows bool // the row above is open
}

// RowKind says what a row is to its neighbours.
type RowKind uint8

// The kinds of rows.
const (
	Entry    RowKind = iota
	Group            // heads the rows below, and stays with the next
	Subtotal         // sums up the rows above, and stays with the last
	Total            // the same for the whole table
)

// Cell is one place of a table: words, a line to write on, a box to tick, or words beside a box.
type Cell struct {
	Words Words
	Span  int    // how many columns it takes; 0 is 1
	Field string // name of a text field that fills the cell
	Tick  string // name of a check box at the left of the cell
	Ticks int    // how many boxes stand there; more than one are named Tick/1, Tick/2 …
	Label string // what the field or the box is for
}

// tickRoom is what the boxes take of the cell's width.
func (c Cell) tickRoom() MM {
	if c.Tick == "" {
		return 0
	}
	return MM(max(c.Ticks, 1)) * (cellTick + small)
}

// Cells makes cells of plain text.
func Cells(texts ...string) []Cell {
	cells := make([]Cell, len(texts))
	for i, t := range texts {
		cells[i].Words = Plain(t)
	}
	return cells
}

func (t Table) strips(s *setting, width MM) []strip {
	for i, row := range t.Rows {
		n := 0
		for _, c := range row.Cells {
			n += max(c.Span, 1)
		}
		if n > len(t.Columns) {
			s.fail(fmt.Errorf("table row %d takes %d columns of %d", i+1, n, len(t.Columns)))
			return nil
		}
	}
	if floor := sum(t.floors()); len(t.Columns) == 0 || floor > width {
		s.fail(fmt.Errorf("a table of %d columns, which take %.0f mm at least, does not fit on %.0f mm", len(t.Columns), floor, width))
		return nil
	}
	texts := t.atoms(s)
	widths := t.widths(s, texts, width)
	var across MM
	for _, w := range widths {
		across += w
	}
	var head []strip
	if !t.NoHead {
		head = t.head(s, widths, across)
	}
	repeated := head
	if stacked(head) > 0.15*s.height {
		repeated = nil // a row of 0.8 of the page must fit below
	}
	var all []strip
	for i, row := range t.Rows {
		row.follows = i > 0 && t.Rows[i-1].Open
		strips := t.row(s, row, texts[i], widths, across)
		for i := range strips {
			strips[i].head = repeated
		}
		if n := len(all); n > 0 && (row.Kind == Subtotal || row.Kind == Total) {
			all[n-1].bond = max(all[n-1].bond, loose)
		}
		all = append(all, strips...)
	}
	if n := len(all); n > 0 {
		all[n-1].bond = free
	}
	if stacked(all) < s.height*smallTable {
		all = bonded(all, loose)
	}
	return spaced(append(head[:len(head):len(head)], all...), medium, medium)
}

// atoms cuts the texts of all cells once, for measuring and for setting.
func (t Table) atoms(s *setting) [][][]atom {
	texts := make([][][]atom, len(t.Rows))
	for i, row := range t.Rows {
		texts[i] = make([][]atom, len(row.Cells))
		for k, c := range row.Cells {
			texts[i][k] = s.atoms(c.Words, row.style(s))
		}
	}
	return texts
}

// style is that of all cells of a row.
func (r Row) style(s *setting) Style {
	style := s.scale.Table
	if r.Kind != Entry {
		style.Face = Bold
	}
	return style
}

// head sets the titles of the columns over a rule.
func (t Table) head(s *setting, widths []MM, across MM) []strip {
	row := tableRow{padX: cellPadX, padY: cellPadY}
	var x MM
	for i, c := range t.Columns {
		style := s.scale.Column
		row.cells = append(row.cells, setCell{lines: s.wrap(Plain(c.Title), style, widths[i]-2*cellPadX), style: style, x: x, w: widths[i], align: c.Align, low: true})
		x += widths[i]
	}
	strips := s.rowStrips(row)
	last := &strips[len(strips)-1]
	last.items = append(last.items, Line{0, last.height, across, last.height, Stroke{Width: rule}})
	for i := range strips {
		strips[i].bond = strong
	}
	return strips
}

// row sets one row over a hairline, which holds up in black and white where a tint might not.
func (t Table) row(s *setting, r Row, texts [][]atom, widths []MM, across MM) []strip {
	style := r.style(s)
	row := tableRow{padX: cellPadX, padY: cellPadY, least: style.Leading + 2*cellPadY, cells: make([]setCell, 0, len(r.Cells))}
	if r.follows || t.Tight {
		row.least = 0
	}
	if t.Tight {
		row.padY = 0
	}
	var x MM
	column := 0
	for i, c := range r.Cells {
		var w MM
		for _, cw := range widths[column : column+max(c.Span, 1)] {
			w += cw
		}
		inner := w - 2*cellPadX - c.tickRoom()
		row.cells = append(row.cells, setCell{lines: s.fill(texts[i], style, inner), style: style, x: x, w: w,
			align: t.Columns[column].Align, field: c.Field, tick: c.Tick, ticks: c.Ticks, label: c.Label})
		x += w
		column += max(c.Span, 1)
	}
	strips := s.rowStrips(row)
	first, last := &strips[0], &strips[len(strips)-1]
	under := Stroke{Width: hairline, Ink: ruleGrey}
	switch r.Kind {
	case Group:
		first.before = small
		for i := range strips {
			strips[i].items = append([]Item{Rect{Box: Box{0, 0, across, strips[i].height}, Fill: bandGrey}}, strips[i].items...)
		}
		last.bond = loose
	case Subtotal:
		first.items = append(first.items, Line{0, 0, across, 0, Stroke{Width: rule}})
	case Total:
		first.items = append(first.items, Line{0, 0, across, 0, Stroke{Width: heavy}})
		under = Stroke{Width: rule}
	}
	if r.follows && !t.Tight {
		first.raise(cellPadY)
	}
	switch {
	case t.Tight:
		return strips
	case r.Open:
		last.height -= cellPadY
		last.bond = loose
		return strips
	}
	last.items = append(last.items, Line{0, last.height, across, last.height, under})
	return strips
}
