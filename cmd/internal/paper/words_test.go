package paper

import (
	"encoding/xml"
	"math"
	"slices"
	"strings"
	"testing"

	"hoistbook/render/page"
)

// A word is what poppler reads as one, and where: in millimetres from the top-left corner.
type word struct {
	page.Box
	text string
}

type sheet struct {
	paper page.Box
	words []word
}

// read has poppler read a file back, word by word.
func read(t *testing.T, file string) []sheet {
	t.Helper()
	var found struct {
		Pages []struct {
			Width  float64 `xml:"width,attr"`
			Height float64 `xml:"height,attr"`
			Words  []struct {
				XMin float64 `xml:"xMin,attr"`
				YMin float64 `xml:"yMin,attr"`
				XMax float64 `xml:"xMax,attr"`
				YMax float64 `xml:"yMax,attr"`
				Text string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal(tool(t, "pdftotext", "-bbox", file, "-"), &found); err != nil {
		t.Fatal(err)
	}
	mm := func(points float64) page.MM { return page.Pt(points).MM() }
	sheets := make([]sheet, len(found.Pages))
	for i, p := range found.Pages {
		sheets[i].paper = page.Box{W: mm(p.Width), H: mm(p.Height)}
		for _, w := range p.Words {
			sheets[i].words = append(sheets[i].words, word{page.Box{X: mm(w.XMin), Y: mm(w.YMin), W: mm(w.XMax - w.XMin), H: mm(w.YMax - w.YMin)}, w.Text})
		}
	}
	return sheets
}

// A line is the words that stand side by side on one baseline, from left to right.
type line []word

func (l line) String() string {
	texts := make([]string, len(l))
	for i, w := range l {
		texts[i] = w.text
	}
	return strings.Join(texts, " ")
}

// lines gathers words by their height on the sheet, top to bottom.
func lines(words []word) []line {
	sorted := slices.Clone(words)
	slices.SortStableFunc(sorted, func(a, b word) int {
		if d := (a.Y + a.Bottom()) - (b.Y + b.Bottom()); math.Abs(float64(d)) > 1.5 {
			return int(math.Copysign(1, float64(d)))
		}
		return 0
	})
	var all []line
	for _, w := range sorted {
		if n := len(all) - 1; n >= 0 && math.Abs(float64((all[n][0].Y+all[n][0].Bottom())-(w.Y+w.Bottom()))) <= 1.5 {
			all[n] = append(all[n], w)
			continue
		}
		all = append(all, line{w})
	}
	for _, l := range all {
		slices.SortFunc(l, func(a, b word) int { return int(math.Copysign(1, float64(a.X-b.X))) })
	}
	return all
}
