package doc

import (
	"hoistbook/kits/manifest"
	"hoistbook/render/page"
)

var recovery = Document{Name: "recovery", title: "recovery.title", field: true, write: (*sheet).recovery}

// recovery is the way home: the list, then the count of what was taken out.
func (s *sheet) recovery() {
	s.add(s.launchSite())
	s.checklist("recovery", s.say("checklist.how-home"), s.Recovery, "", nil)
	s.heading(1, s.say("recovery.count"))
	s.leading(s.say("recovery.count-how"))
	s.add(s.packIn())
	var last page.Together
	if r := s.Facts.Manifest.Recovery; r != nil {
		last = page.Together{page.Heading{Level: 1, Text: s.say("recovery.lost")}, page.KeyValues{
			{Key: s.say("recovery.label"), Value: page.Plain(r.Label)}, {Key: s.say("recovery.contact"), Value: page.Plain(r.Contact)},
		}}
	}
	s.add(append(last, page.Space(4), s.signatures("sign.counted")))
}

// packIn lists by box what must come back, and counts what the list counts. What is used up is ticked: its remains are here.
func (s *sheet) packIn() page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("recovery.back"), Align: page.Left}, {Title: s.say("bill.ref"), Whole: true}, {Title: s.say("bill.part"), Weight: 1},
		{Title: s.say("recovery.out"), Align: page.Right, Least: 14}, {Title: s.say("recovery.in"), Width: 16}, {Title: s.say("recovery.state"), Width: 28},
	}}
	for _, box := range s.boxes() {
		name := box
		if box == "" {
			name = s.say("recovery.no-box")
		}
		t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(name), Span: 6}}})
		for ref, p := range manifest.Sorted(s.Facts.Manifest.Parts) {
			if p.PackedIn != box {
				continue
			}
			what, field := p.Name, s.field("in", string(ref))
			out, count := page.Cell{Words: page.Plain(digits(pieces(p)))}, page.Cell{Field: field + "/count", Label: s.say("recovery.in")}
			switch {
			case !p.ComesHome():
				what += " · " + s.say("recovery.remains")
				out, count = page.Cell{Words: page.Plain("–")}, page.Cell{}
			case p.Consumable:
				what += " · " + s.say("recovery.emptied")
			}
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{
				{Tick: field, Label: s.say("recovery.is-back", "part", string(ref))}, {Words: page.Plain(string(ref))}, {Words: page.Plain(what)},
				out, count, {Field: field + "/state", Label: s.say("recovery.state")},
			}})
		}
	}
	return t
}

// boxes lists the boxes in the order in which the parts name them, what has none last.
func (s *sheet) boxes() []string {
	var boxes []string
	seen := map[string]bool{"": true}
	loose := false
	for _, p := range manifest.Sorted(s.Facts.Manifest.Parts) {
		loose = loose || p.PackedIn == ""
		if !seen[p.PackedIn] {
			seen[p.PackedIn] = true
			boxes = append(boxes, p.PackedIn)
		}
	}
	if loose {
		boxes = append(boxes, "")
	}
	return boxes
}

// pieces is how many of a part travel in one kit, all sets of a battery that is changed on station included; one when the
// manifest is silent.
func pieces(p manifest.Part) int {
	n := 1
	if p.Quantity != nil {
		n = *p.Quantity
	}
	if p.Battery != nil && p.Battery.InRotation != nil {
		n *= *p.Battery.InRotation
	}
	return n
}
