package doc

import (
	"slices"
	"strings"

	"hoistbook/kits/manifest"
	"hoistbook/render/crew"
	"hoistbook/render/page"
)

var packing = Document{Name: "packing", title: "packing.title", write: (*sheet).packing}

// packing is what the crew takes to the field: the boxes of the kit, and box by box the tools and instruments that the lists ask
// for and that are no part of the kit.
func (s *sheet) packing() {
	s.flow.SetScale(&bench)
	s.paragraph(s.say("packing.about"))
	s.heading(1, s.say("packing.kit"))
	s.add(s.kitBoxes())
	s.heading(1, s.say("packing.gear"))
	boxes := crew.Field(slices.Concat(s.Preflight, s.Change, s.Recovery), s.Cautions)
	if len(boxes) == 0 {
		s.paragraph(s.say("packing.no-gear"))
	} else {
		s.add(s.gear(boxes))
	}
	s.add(page.Space(4), s.signatures("sign.packed-up"))
}

// kitBoxes are the boxes of the kit with the pieces that must be in them, what is used up among them.
func (s *sheet) kitBoxes() page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("packing.in"), Align: page.Left}, {Title: s.say("packing.box"), Whole: true}, {Title: s.say("packing.pieces"), Align: page.Right, Least: 14}, {Title: s.say("packing.what"), Weight: 1},
	}}
	for _, box := range s.boxes() {
		name, n := box, 0
		if box == "" {
			name = s.say("recovery.no-box")
		}
		var list []string
		for ref, p := range manifest.Sorted(s.Facts.Manifest.Parts) {
			if p.PackedIn == box {
				n += pieces(p)
				list = append(list, digits(pieces(p))+"\u00a0"+string(ref))
			}
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{
			{Tick: s.field("box", box), Label: name}, {Words: page.Strong(name)}, {Words: page.Plain(digits(n))}, {Words: page.Plain(strings.Join(list, ", "))},
		}})
	}
	return t
}

// gear is what the lists ask for, a table for each box.
func (s *sheet) gear(boxes []crew.Box) page.Columns {
	both := page.Columns{Count: 2}
	for _, box := range boxes {
		t := page.Table{NoHead: true, Columns: []page.Column{{Align: page.Left}, {Align: page.Right, Least: 10}, {Weight: 1}}}
		t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(s.Words.Name("box", box.Name)), Span: 3}}})
		for _, g := range box.Gear {
			count := digits(g.Count)
			if g.Each {
				count = s.say("packing.each")
			}
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{
				{Tick: s.field("gear", box.Name, g.What), Label: g.What}, {Words: page.Plain(count)}, {Words: page.Plain(g.What)},
			}})
		}
		both.Blocks = append(both.Blocks, t)
	}
	return both
}
