package doc

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"testing"
	"time"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/go-fonts/dejavu/dejavusansmono"
	"github.com/go-pdf/fpdf"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
	"hoistbook/render/pdf"
)

// grown is the first demonstration kit with as many parts: modules with wires, cases, spares, each with a mass and an offer.
func grown(tb testing.TB, parts int) *manifest.Manifest {
	tb.Helper()
	source, ok := kits.Demo(kits.FirstDemo)
	if !ok {
		tb.Fatal("no demonstration kit")
	}
	var kit map[string]any
	if err := json.Unmarshal(source.Data, &kit); err != nil {
		tb.Fatal(err)
	}
	all := kit["parts"].(map[string]any)
	for i := len(all); i < parts; i++ {
		p := map[string]any{
			"name": fmt.Sprintf("module %d, with housing, two screws and a label", i), "place": []string{"aloft", "ground"}[i%2], "mass": "1 g", "mass_basis": "weighed", "packed_in": "relay box",
			"offers": []any{map[string]any{"supplier": "S1", "order_code": fmt.Sprintf("M-%d", i), "price": "1.00", "lead_time": "7 d"}},
		}
		if i%4 == 0 {
			p["place"], p["load"] = "aloft", map[string]any{"rail": "5V", "rated": "4.5 V to 5.5 V", "damaged_above": "6 V",
				"current": map[string]any{"transmit": "1 mA", "receive": "1 mA", "standby": "1 mA"}, "wire": map[string]any{"gauge": "AWG 26", "length": "10 cm"}}
		}
		all[fmt.Sprintf("Z%04d", i)] = p
	}
	data, err := json.Marshal(kit)
	if err != nil {
		tb.Fatal(err)
	}
	m, err := manifest.Load(manifest.Source{Name: "grown.json", Data: data})
	if err != nil {
		tb.Fatal(err)
	}
	return m
}

// plainPages are as many pages with lines of text set by hand in the same three faces, without any layout: 55 lines of 65 letters, about what a
// page of the book holds.
func plainPages(pages int) *page.Document {
	doc := &page.Document{Title: "Plain"}
	for range pages {
		p := page.Page{Paper: page.A4}
		for line := range 55 {
			p.Items = append(p.Items, page.Text{X: 20, Y: page.MM(20 + 4.5*float64(line)), Size: 9.5, Face: page.Face(line % 3), Text: "The line is paid out hand over hand while the person in charge waits."})
		}
		doc.Pages = append(doc.Pages, p)
	}
	return doc
}

// libraryPages are the same plain pages in the same fonts, the PDF library doing it all.
func libraryPages(b *testing.B, pages int) {
	f := fpdf.New("P", "mm", "A4", "")
	for face, ttf := range map[page.Face][]byte{page.Sans: dejavusans.TTF, page.Bold: dejavusansbold.TTF, page.Mono: dejavusansmono.TTF} {
		f.AddUTF8FontFromBytes(face.String(), "", bytes.Clone(ttf))
	}
	for _, p := range plainPages(pages).Pages {
		f.AddPage()
		for _, it := range p.Items {
			text := it.(page.Text)
			f.SetFont(text.Face.String(), "", float64(text.Size))
			f.Text(float64(text.X), float64(text.Y), text.Text)
		}
	}
	if err := f.Output(io.Discard); err != nil {
		b.Fatal(err)
	}
}

// The whole book, from the checked manifest to the bytes of the file, against as many plain pages in the same fonts, in one run:
//
//	go test -run '^$' -bench Book ./render/doc
//
// "xlibrary" is how many times the time of the plain pages it takes when the PDF library makes them, "xplain" when our own writer does,
// which is several times as fast; "ms/part" shows how it grows.
func BenchmarkBook(b *testing.B) {
	all := builtIn(b)
	for _, parts := range []int{40, 200, 1000, 2000} {
		m := grown(b, parts)
		b.Run(fmt.Sprintf("parts=%d", parts), func(b *testing.B) {
			var stages [3]time.Duration
			var beside, library time.Duration
			pages := 0
			for b.Loop() {
				at := time.Now()
				stage := func(n int) {
					now := time.Now()
					stages[n] += now.Sub(at)
					at = now
				}
				in := Gather(kits.Assess(m), all, unit.SI, words(b, "en"))
				stage(0)
				book, err := Book(in)
				if err != nil {
					b.Fatal(err)
				}
				stage(1)
				if _, err := pdf.Bytes(book); err != nil {
					b.Fatal(err)
				}
				stage(2)
				b.StopTimer()
				pages = len(book.Pages)
				begun := time.Now()
				if _, err := pdf.Bytes(plainPages(pages)); err != nil {
					b.Fatal(err)
				}
				beside += time.Since(begun)
				begun = time.Now()
				libraryPages(b, pages)
				library += time.Since(begun)
				b.StartTimer()
			}
			for n, name := range []string{"ms-judging", "ms-setting", "ms-writing"} {
				b.ReportMetric(stages[n].Seconds()*1000/float64(b.N), name)
			}
			total := stages[0] + stages[1] + stages[2]
			b.ReportMetric(float64(pages), "pages")
			b.ReportMetric(total.Seconds()*1000/float64(b.N)/float64(parts), "ms/part")
			b.ReportMetric(total.Seconds()*1000/float64(b.N), "ms-ours")
			b.ReportMetric(library.Seconds()*1000/float64(b.N), "ms-floor")
			b.ReportMetric(total.Seconds()/beside.Seconds(), "xplain")
			b.ReportMetric(total.Seconds()/library.Seconds(), "xlibrary")
		})
	}
}
