package pdf

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/go-fonts/dejavu/dejavusansmono"
	"github.com/go-pdf/fpdf"

	"hoistbook/render/page"
)

const benchPages = 20

// book composes about twenty pages as a kit book has them: tables, text and checklists in three faces.
func book(tb testing.TB) *page.Document {
	f := page.NewFlow(page.Setup{Paper: page.A4, Running: page.Running{Kit: "Kit", Revision: "Rev. 1", Digest: "sha256:0123", Title: "Book", Page: func(n, m int) string { return fmt.Sprintf("page %d of %d", n, m) }}.Items})
	for part := range benchPages / 4 {
		table := page.Table{Columns: []page.Column{{Title: "Ref"}, {Title: "Part", Weight: 1}, {Title: "Quantity", Align: page.Right}, {Title: "Mass", Align: page.Right, Whole: true}, {Title: "Source"}}}
		for i := range 75 {
			cells := page.Cells(fmt.Sprintf("P%d", i), "Regulator, buck, 6 V to 24 V, 5.0 V, 3 A, with heat sink and screws", fmt.Sprint(i), fmt.Sprintf("%d g", 17*i))
			table.Rows = append(table.Rows, page.Row{Cells: append(cells, page.Cell{Words: page.Code("mass.aloft")})})
		}
		var list page.Checklist
		for i := range 10 {
			list = append(list, page.CheckRow{Number: fmt.Sprint(i + 1), Name: fmt.Sprintf("c%d.%d", part, i), Challenge: page.Plain("Battery at rest, read at the plug"), Response: page.Plain("at least 12.2 V"), Reading: &page.Reading{Label: "reads", Unit: "V"}})
		}
		f.Add(page.PageBreak{}, page.Heading{Text: fmt.Sprintf("Part %d", part+1)}, table, page.PageBreak{}, page.Heading{Level: 1, Text: "Checklist"}, list)
	}
	doc, err := f.Finish(page.Document{Title: "Book"})
	if err != nil {
		tb.Fatal(err)
	}
	return doc
}

// plain is the same number of pages with lines of text set by hand, without any layout.
func plain(pages int) *page.Document {
	doc := &page.Document{Title: "Plain"}
	for range pages {
		p := page.Page{Paper: page.A4}
		for line := range 55 {
			p.Items = append(p.Items, page.Text{X: 20, Y: page.MM(20 + 4.5*float64(line)), Size: 9.5, Face: page.Face(line % 3), Text: "The line is paid out hand over hand while the person in charge watches."})
		}
		doc.Pages = append(doc.Pages, p)
	}
	return doc
}

func BenchmarkBook20(b *testing.B) {
	pages := 0
	for b.Loop() {
		doc := book(b)
		if _, err := Bytes(doc); err != nil {
			b.Fatal(err)
		}
		pages = len(doc.Pages)
	}
	b.ReportMetric(float64(pages), "pages")
}

func BenchmarkPlain20(b *testing.B) {
	for b.Loop() {
		if _, err := Bytes(plain(benchPages)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPlain1(b *testing.B) {
	for b.Loop() {
		if _, err := Bytes(plain(1)); err != nil {
			b.Fatal(err)
		}
	}
}

// The same plain pages with the same fonts, the library doing it all.
func BenchmarkPlain20LibraryAlone(b *testing.B) {
	for b.Loop() {
		f := fpdf.New("P", "mm", "A4", "")
		for name, ttf := range map[string][]byte{"sans": dejavusans.TTF, "bold": dejavusansbold.TTF, "mono": dejavusansmono.TTF} {
			f.AddUTF8FontFromBytes(name, "", bytes.Clone(ttf))
		}
		for _, p := range plain(benchPages).Pages {
			f.AddPage()
			for it := range p.All() {
				text := it.(page.Text)
				f.SetFont(text.Face.String(), "", float64(text.Size))
				f.Text(float64(text.X), float64(text.Y), text.Text)
			}
		}
		var out bytes.Buffer
		if err := f.Output(&out); err != nil {
			b.Fatal(err)
		}
	}
}
