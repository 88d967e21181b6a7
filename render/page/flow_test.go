package page

import (
	"fmt"
	"strings"
	"testing"
)

// A table of two thousand rows keeps its order, repeats its head on every page and loses no row.
func TestLongTable(t *testing.T) {
	f := NewFlow(Setup{Paper: A4})
	table := Table{Columns: []Column{{Title: "Part"}, {Title: "What it is", Weight: 1}, {Title: "Mass", Align: Right, Whole: true}}}
	for i := range 2000 {
		table.Rows = append(table.Rows, Row{Cells: Cells(fmt.Sprintf("P%04d", i), "a part that is described at some length, so that it wraps over two lines of the table", fmt.Sprintf("%d g", i))})
	}
	f.Add(Heading{Text: "Bill of materials"}, table)
	doc, err := f.Finish(Document{Title: "Parts"})
	if err != nil {
		t.Fatal(err)
	}
	next := 0
	for i, p := range doc.Pages {
		heads := 0
		for _, it := range p.Items {
			text, ok := it.(Text)
			if !ok {
				continue
			}
			if text.Text == "Part" {
				heads++
			}
			if strings.HasPrefix(text.Text, "P") && len(text.Text) == 5 {
				if want := fmt.Sprintf("P%04d", next); text.Text != want {
					t.Fatalf("page %d: got row %s, want %s", i+1, text.Text, want)
				}
				next++
			}
		}
		if heads != 1 {
			t.Errorf("page %d has %d table heads, want 1", i+1, heads)
		}
	}
	if next != 2000 {
		t.Errorf("%d rows came out, want 2000", next)
	}
}
