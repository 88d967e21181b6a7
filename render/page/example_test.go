package page_test

import (
	"fmt"
	"os"

	"hoistbook/render/page"
)

// A document is blocks added to a flow.
func ExampleFlow() {
	f := page.NewFlow(page.Setup{
		Paper: page.A4,
		Scale: &page.Afield,
		Running: page.Running{
			Kit: "Fen relay", Revision: "Rev. 1.2.0", Digest: "3f9a0c77", Title: "Pre-flight",
			Page: func(n, m int) string { return fmt.Sprintf("page %d of %d", n, m) },
		}.Items,
	})
	f.Add(
		page.Heading{Text: "Pre-flight", Anchor: "preflight"},
		page.Panel{Signal: page.Warning, Word: "WARNING", Text: []page.Words{page.Plain("Any thunder: ground the balloon.")}},
		page.Checklist{{
			Number: "1", Name: "pre.1", Challenge: page.Plain("Neck lift"), Critical: true, Response: page.Plain("at least 1.86 kg"),
			Reading: &page.Reading{Label: "scale reads", Unit: "kg"},
		}},
		page.Table{
			Columns: []page.Column{{Title: "Part", Weight: 1}, {Title: "Mass", Align: page.Right, Whole: true}},
			Rows: []page.Row{
				{Cells: page.Cells("Envelope", "350 g")},
				{Kind: page.Total, Cells: page.Cells("Total", "350 g")},
			},
		},
	)
	doc, err := f.Finish(page.Document{Title: "Pre-flight", Language: "en"})
	if err != nil {
		fmt.Println(err)
		return
	}
	first := &doc.Pages[0]
	first.Running, first.Items = only[page.Text](first.Running), only[page.Text](first.Items) // for a short output
	page.Dump(doc, os.Stdout)                                                                 // and pdf.Write(doc, file) writes the file

	// Output:
	// document "Pre-flight" language "en"
	// page 1 A4 210.0 × 297.0
	//   text 22.0 18.0 bold 8 "Fen relay"
	//   text 38.4 18.0 sans 8 "Rev. 1.2.0"
	//   text 194.0 18.0 sans 8 right "Pre-flight"
	//   text 22.0 284.0 mono 7.6 "3f9a0c77"
	//   text 194.0 284.0 bold 8 right "page 1 of 1"
	//   text 22.0 35.4 bold 21 "Pre-flight"
	//   text 36.7 51.6 bold 16 "WARNING"
	//   text 26.6 61.1 sans 12 "Any thunder: ground the balloon."
	//   text 22.0 75.7 bold 13.5 "1"
	//   text 36.5 75.7 bold 13.5 "Neck lift"
	//   text 152.0 75.7 bold 13.5 "at least 1.86 kg"
	//   text 130.1 84.3 sans 10.5 "scale reads"
	//   text 188.2 84.3 sans 13.5 "kg"
	//   text 23.6 94.6 bold 10 "Part"
	//   text 182.3 94.6 bold 10 "Mass"
	//   text 23.6 101.2 sans 10.5 "Envelope"
	//   text 181.8 101.2 sans 10.5 "350 g"
	//   text 23.6 107.8 bold 10.5 "Total"
	//   text 180.7 107.8 bold 10.5 "350 g"
}

func only[T page.Item](items []page.Item) (kept []page.Item) {
	for _, it := range items {
		if _, ok := it.(T); ok {
			kept = append(kept, it)
		}
	}
	return kept
}
