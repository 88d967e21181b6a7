// Package sample is one document with every kind of block, for the tests of the drawing packages and for eyes.
package sample

import (
	"fmt"
	"time"

	"hoistbook/render/page"
)

// Manifest is what the sample carries as an attachment.
var Manifest = []byte("{\n  \"format\": \"sample\",\n  \"name\": \"Łódź — Ω\"\n}\n")

// Document composes the sample on a sheet.
func Document(paper page.Paper) (*page.Document, error) {
	f := page.NewFlow(page.Setup{Paper: paper, Running: page.Running{
		Kit: "Fen relay", Revision: "Rev. 1.2.0", Digest: "sha256:3f9a…c41d", Title: "Kit book",
		Page: func(n, m int) string { return fmt.Sprintf("page %d of %d", n, m) },
	}.Items})
	front(f)
	figures(f)
	tables(f)
	f.SetScale(&page.Afield)
	f.Section("Pre-flight checklist")
	checklist(f)
	f.SetScale(&page.Desk)
	f.Section("Limits card")
	f.SetPaper(paper.Landscape())
	landscape(f)
	return f.Finish(page.Document{
		Title: "Fen relay: kit book", Subject: "Everything to build and fly the kit", Language: "en", Author: "Invented Marsh Radio Club",
		Keywords: []string{"relay", "balloon"}, Creator: "sample", Date: time.Date(2026, 3, 4, 5, 6, 7, 0, time.UTC),
		Attachments: []page.Attachment{
			{Name: "manifest.json", Description: "The manifest that this book was made from", MediaType: "application/json", Data: Manifest},
			{Name: "Überblick.txt", Description: "a name that is not ASCII", MediaType: "text/plain", Data: []byte("ok")},
		},
	})
}

func front(f *page.Flow) {
	f.Add(
		page.Heading{Text: "Fen relay, kit book", Anchor: "top"},
		page.Paragraph{Text: page.Plain("A small relay that hangs under a gas-filled balloon on a tether. This sheet shows every kind of block; its numbers are invented. ").
			Then(page.Strong("Nothing here is for flight."), page.Plain(" The mass aloft is "), page.Code("mass.aloft_kg"), page.Plain(" = 1.42 kg, resistances in Ω, lengths in µm, 4.75 V ≤ U ≤ 5.25 V, ±2 %, ✓ ☐ ⚠. See the "),
				page.Linked("limits card", "limits"), page.Plain(" or "), page.Linked("the format’s standard", "https://example.org/iso-32000?q=Ä"), page.Plain("."))},
		page.Heading{Level: 1, Text: "Contents"},
		page.Contents{{Text: "Drawings", Anchor: "drawings"}, {Text: "Bill of materials", Anchor: "bom"}, {Text: "Pre-flight checklist, with a title so long that it has to be set on more than one line of the list of contents of this book", Anchor: "preflight"}, {Text: "Limits card", Anchor: "limits", Level: 1}},
		page.Heading{Level: 1, Text: "Particulars"},
		page.KeyValues{
			{Key: "Maintainer", Value: page.Plain("Invented Marsh Radio Club")},
			{Key: "Licence", Value: page.Plain("CC-BY-4.0")},
			{Key: "Digest", Value: page.Code("sha256:3f9a0c77b1d24e6f8a9b0c1d2e3f405162738495a6b7c8d9eafb0c1d2e3fc41d")},
			{Key: "Duration to be covered", Value: page.Plain("12 h, battery changes included; the station is brought down for each change and the free lift is measured again before it goes up")},
		},
		page.Panel{Signal: page.Danger, Word: "DANGER", Text: []page.Words{page.Plain("Overhead lines. A wet tether conducts."), page.Plain("Contact will kill. Stay away by the length of the tether and the distance that the rules in force ask for.")}},
		page.Panel{Signal: page.Warning, Word: "WARNING", Text: []page.Words{page.Plain("Asphyxiation: the gas displaces air without a smell."), page.Plain("Fill in the open or in a hall with open gates; never breathe from the envelope.")}},
		page.Panel{Signal: page.Caution, Word: "CAUTION", Text: []page.Words{page.Plain("The running tether burns hands. Wear gloves.")}},
		page.Panel{Signal: page.Notice, Word: "NOTICE", Text: []page.Words{page.Plain("Do not over-fill: the envelope bursts above its largest volume.")}},
		page.Heading{Level: 1, Text: "Lists"},
		page.List{Items: []page.Words{page.Plain("a bullet"), page.Plain("another one, which is so long that it wraps: the quick brown fox jumps over the lazy dog, and then it does so again, until the line is full"), page.Strong("bold").Then(page.Plain(", then plain"))}},
		page.List{Numbered: true, First: 9, Items: []page.Words{page.Plain("Lay out the ground sheet."), page.Plain("Tie the neck to the filling hose."), page.Plain("Open the valve slowly.")}},
		page.Paragraph{Fine: true, Text: page.Plain("Small print: averyveryverylongwordthatnobodywouldwritebutsomebodywillwriteanywaybecausepartnumbersarelikethat-0000000000000000000000000000000000000 goes on.")},
	)
}

func figures(f *page.Flow) {
	pen := page.Stroke{Width: 0.35}
	drawing := []page.Item{
		page.Line{X1: 5, Y1: 75, X2: 115, Y2: 75, Stroke: page.Stroke{Width: 0.7}},
		page.Circle{X: 75, Y: 14, R: 10, Fill: page.Grey(0.93), Stroke: pen},
		page.Path{From: page.Point{X: 20, Y: 75}, Steps: []page.Step{{To: page.Point{X: 75, Y: 24}, Curve: true, A: page.Point{X: 35, Y: 70}, B: page.Point{X: 72, Y: 50}}}, Stroke: pen},
		page.Rect{Box: page.Box{X: 71, Y: 30, W: 8, H: 6}, Round: 1.5, Fill: page.White, Stroke: pen},
		page.Line{X1: 100, Y1: 14, X2: 100, Y2: 75, Stroke: page.Stroke{Width: 0.2, Dash: []page.MM{1.5, 1}}},
		page.Polygon{Points: []page.Point{{X: 100, Y: 14}, {X: 99, Y: 17}, {X: 101, Y: 17}}, Fill: page.Black},
		page.Text{X: 103, Y: 46, Size: 8, Turn: 90, Align: page.Middle, Text: "height 41 m"},
		page.Text{X: 75, Y: 15, Size: 7, Align: page.Middle, Text: "2.2 m³"},
		page.Text{X: 20, Y: 79, Face: page.Bold, Size: 7, Align: page.Middle, Text: "anchor"},
	}
	dark := make([][]bool, 21)
	for i := range dark {
		dark[i] = make([]bool, 21)
		for k := range dark[i] {
			dark[i][k] = (i*i+3*k*i+k)%5 < 2
		}
	}
	f.Add(page.Heading{Level: 1, Text: "Drawings", Anchor: "drawings"},
		page.Figure{W: 120, H: 82, Items: drawing, Caption: page.Strong("Figure 1. ").Then(page.Plain("Side view in the design wind, to scale."))},
		page.Beside{Shares: []float64{2, 1}, Blocks: [][]page.Block{
			{page.Heading{Level: 2, Text: "On the left"}, page.Paragraph{Text: page.Plain("Text beside other text, in a share of two thirds. It wraps on its own width and knows nothing of its neighbour.")}},
			{page.Heading{Level: 2, Text: "On the right", Silent: true}, page.List{Items: []page.Words{page.Plain("one third"), page.Plain("of the width")}}},
		}},
		page.Code2D{Dark: dark, Size: 22, Words: page.Plain("A matrix code with words beside it: the place where the newest manifest is kept.")},
		page.Rule{},
		page.Columns{Count: 2, Blocks: []page.Block{page.Heading{Level: 2, Text: "In two columns"}, page.Paragraph{Text: page.Plain(longText)}, page.Paragraph{Text: page.Plain(longText)}}},
	)
}

const longText = "The line is paid out hand over hand while the person in charge watches the sky. Nobody stands within a bight of the line. The reading of the scale is called out loudly, repeated, and written down before anything else happens; a reading that nobody wrote down was not taken."

func tables(f *page.Flow) {
	table := page.Table{Columns: []page.Column{{Title: "Ref"}, {Title: "Part", Weight: 1}, {Title: "Quantity", Align: page.Right}, {Title: "Mass each", Align: page.Right, Whole: true}, {Title: "Price", Align: page.Right, Whole: true}, {Title: "Got"}}}
	for group := range 4 {
		table.Rows = append(table.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(fmt.Sprintf("Group %d", group+1)), Span: 6}}})
		for i := range 11 {
			cells := page.Cells(fmt.Sprintf("P%d%02d", group, i), "Regulator, buck, 6 V to 24 V, 5.0 V, 3 A", fmt.Sprint(i+1), fmt.Sprintf("%d g", 7*i*i), fmt.Sprintf("%d.50", 3*i))
			if i%4 == 3 {
				cells[1].Words = page.Plain("Envelope, natural rubber, with a neck of 30 mm and a tail of cotton tape; kept dark, cool and dry, and never folded sharply")
			}
			table.Rows = append(table.Rows, page.Row{Cells: append(cells, page.Cell{Tick: fmt.Sprintf("got.%d.%d", group, i), Label: "received"})})
		}
		table.Rows = append(table.Rows, page.Row{Kind: page.Subtotal, Cells: append([]page.Cell{{Words: page.Plain("Subtotal"), Span: 3}}, page.Cells("2\u202f695 g", "165.00")...)})
	}
	table.Rows = append(table.Rows, page.Row{Kind: page.Total, Cells: append([]page.Cell{{Words: page.Plain("Total"), Span: 3}}, page.Cells("10\u202f780 g", "660.00")...)})
	f.Add(page.Heading{Text: "Bill of materials", Anchor: "bom"}, table)

	log := page.Table{Columns: []page.Column{{Title: "Time", Weight: 1}, {Title: "Wind", Weight: 1}, {Title: "Battery", Weight: 1}, {Title: "Remarks", Weight: 3}}}
	for i := range 5 {
		var cells []page.Cell
		for _, c := range []string{"time", "wind", "battery", "remarks"} {
			cells = append(cells, page.Cell{Field: fmt.Sprintf("log.%d.%s", i, c), Label: c})
		}
		log.Rows = append(log.Rows, page.Row{Cells: cells})
	}
	f.Add(page.Heading{Level: 1, Text: "Station log"}, log)
}

func checklist(f *page.Flow) {
	f.Add(page.Heading{Text: "Pre-flight checklist", Anchor: "preflight"},
		page.Panel{Signal: page.Warning, Word: "WARNING", Text: []page.Words{page.Plain("Any thunder: ground the balloon and take shelter.")}},
		page.Checklist{
			{Number: "1", Name: "pre.1", Challenge: page.Plain("Site clear of lines"), Response: page.Plain("CLEAR"), Role: "Person in charge"},
			{Number: "2", Name: "pre.2", Challenge: page.Plain("Neck lift"), Response: page.Plain("at least 1.86 kg"), Reading: &page.Reading{Label: "scale reads", Unit: "kg"}, Notes: []page.Words{page.Plain("Hang the scale between the neck and the ground ring, wait for it to settle, and read it in a lull.")}, Role: "Filler"},
			{Number: "3", Name: "pre.3", Challenge: page.Plain("Wind at 2 m, mean of the last ten minutes, measured away from walls and vehicles"), Response: page.Plain("at most 5.0 m/s"), Reading: &page.Reading{Label: "meter reads", Unit: "m/s"}},
			{Number: "4", Name: "pre.4", Challenge: page.Plain("Battery at rest"), Response: page.Plain("between 12.2 V and 12.6 V, each of the two packs"), Reading: &page.Reading{Label: "voltmeter reads", Unit: "V"}},
			{Number: "10", Name: "pre.10", Challenge: page.Plain("Relay answers on the hand-held"), Response: page.Plain("ANSWERS")},
		},
		page.Heading{Level: 1, Text: "Sign-off"},
		page.SignOff{Captions: [3]string{"Name", "Signature", "Date and time"}, Lines: []page.SignLine{{Role: "Person in charge", Name: "sign.lead"}, {Role: "Launch crew", Name: "sign.crew"}}},
	)
}

func landscape(f *page.Flow) {
	table := page.Table{Columns: []page.Column{{Title: "Tether out"}}}
	row := page.Row{Cells: page.Cells("45 m")}
	for i := range 12 {
		table.Columns = append(table.Columns, page.Column{Title: fmt.Sprintf("%.1f kg neck", 1.5+0.1*float64(i)), Align: page.Right, Weight: 1})
		row.Cells = append(row.Cells, page.Cell{Words: page.Plain(fmt.Sprintf("%.1f m/s", 3+0.2*float64(i)))})
	}
	for range 8 {
		table.Rows = append(table.Rows, row)
	}
	f.Add(page.Heading{Text: "Limits card", Anchor: "limits"}, page.Paragraph{Text: page.Plain("Back to the ").Then(page.Linked("first page", "top"), page.Plain(".")), Fine: true}, page.Together{page.Heading{Level: 1, Text: "Greatest wind"}, table})
}
