package page

import (
	"math"
	"strings"
	"testing"
)

func TestColumnWidths(t *testing.T) {
	long := strings.Repeat("some words that wrap ", 20)
	s := &setting{scale: &Desk, height: 200}
	natural := func(text string) MM { return Width(Sans, Desk.Table.Size, text) + 2*cellPadX }
	for _, c := range []struct {
		name  string
		table Table
		room  MM
		check func([]MM) bool
	}{
		{"content that fits keeps its natural width", Table{Columns: make([]Column, 2), Rows: []Row{{Cells: Cells("a short text", "another text")}}}, 170,
			func(w []MM) bool { return near(w[0], natural("a short text")) && near(w[1], natural("another text")) }},
		{"spare width goes by weight", Table{Columns: []Column{{Weight: 1}, {}, {Weight: 3}}, Rows: []Row{{Cells: Cells("some text", "some text", "some text")}}}, 170,
			func(w []MM) bool {
				each := natural("some text")
				return near(sum(w), 170) && near(w[1], each) && near(3*(w[0]-each), w[2]-each)
			}},
		{"long text makes room for numbers", Table{Columns: []Column{{}, {Whole: true}}, Rows: []Row{{Cells: Cells(long, "1 234 567 kg of it")}}}, 100,
			func(w []MM) bool { return near(sum(w), 100) && near(w[1], natural("1 234 567 kg of it")) }},
		{"a fixed width is kept", Table{Columns: []Column{{Width: 30}, {}}, Rows: []Row{{Cells: Cells("x", long)}}}, 100,
			func(w []MM) bool { return near(w[0], 30) && near(sum(w), 100) }},
		{"a least width is kept", Table{Columns: []Column{{Least: 30}, {}}, Rows: []Row{{Cells: Cells("x", "y")}}}, 100,
			func(w []MM) bool { return near(w[0], 30) }},
		{"words too long for all are cut to one measure", Table{Columns: make([]Column, 3), Rows: []Row{{Cells: Cells(strings.Repeat("M", 90), strings.Repeat("W", 90), "small")}}}, 100,
			func(w []MM) bool { return sum(w) <= 100 && near(w[0], w[1]) && near(w[2], natural("small")) }},
		{"a cell over two columns does not widen them", Table{Columns: make([]Column, 2), Rows: []Row{{Cells: []Cell{{Words: Plain("a text of some length"), Span: 2}}}, {Cells: Cells("a", "b")}}}, 100,
			func(w []MM) bool { return near(w[0], leastColumn) && near(w[1], leastColumn) }},
	} {
		if got := c.table.widths(s, c.table.atoms(s), c.room); !c.check(got) {
			t.Errorf("%s: got %.2f", c.name, got)
		}
	}
}

func near(a, b MM) bool { return math.Abs(float64(a-b)) < 0.05 }

// A matrix code comes out dark exactly where its modules are, whatever the rectangles that make it up.
func TestModuleRuns(t *testing.T) {
	m := Modules{X: 10, Y: 20, Size: 4, Dark: [][]bool{{true, true, false, true}, {}, {false, true}, {true, true, true, true}}}
	var got [4][4]bool
	for _, b := range m.Runs() {
		for x := b.X; x < b.Right()-0.01; x++ {
			got[int(math.Round(float64(b.Y-20)))][int(math.Round(float64(x-10)))] = true
		}
	}
	want := [4][4]bool{{true, true, false, true}, {}, {false, true}, {true, true, true, true}}
	if got != want || len(m.Runs()) != 4 {
		t.Errorf("got %v in %d runs, want %v in 4", got, len(m.Runs()), want)
	}
}
