package doc

import (
	"slices"
	"strings"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
	"hoistbook/rules"
)

var recovery = Document{Name: "recovery", title: "recovery.title", field: true, write: (*sheet).recovery}

// recovery is the way home: the list, then the count of what was taken out.
func (s *sheet) recovery() {
	s.add(s.launchSite())
	steps, next := s.onceCounted(s.Recovery)
	s.checklist("recovery", s.say("checklist.how-home"), steps, next, s.count)
	if r := s.Facts.Manifest.Recovery; r != nil {
		s.add(page.Together{page.Heading{Level: 1, Text: s.say("recovery.lost")}, s.reached(r)})
	}
}

// reached is what stands on the payload and whom its finder calls. Words without a digit are no number: there is a line to write it on.
func (s *sheet) reached(r *manifest.Recovery) page.Table {
	t := page.Table{NoHead: true, Columns: []page.Column{{Whole: true}, {Weight: 1}}}
	for _, kv := range []struct{ id, text string }{{"recovery.label", r.Label}, {"recovery.contact", r.Contact}} {
		if kv.text != "" {
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Strong(s.say(kv.id))}, {Words: page.Plain(kv.text)}}})
		}
	}
	if !strings.ContainsAny(r.Contact, "0123456789@") {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Strong(s.say("recovery.number"))}, {Field: s.field("number"), Label: s.say("recovery.number")}}})
	}
	return t
}

// onceCounted leaves out the items that count a box: on paper the table does. It stands before the phase of the step that comes next.
func (s *sheet) onceCounted(all []rules.Step) (steps []rules.Step, next string) {
	boxes, phase := s.Facts.Subjects("packing"), ""
	for _, step := range all {
		if step.Reading != nil && step.Reading.Dim == unit.DimCount && slices.Contains(boxes, step.Subject) {
			phase, next = step.Phase, ""
			continue
		}
		if phase != "" && next == "" && step.Phase != phase {
			next = step.ID
		}
		steps = append(steps, step)
	}
	return steps, next
}

// count is the table of what must come back, and who counted it.
func (s *sheet) count() {
	s.heading(1, s.say("recovery.count"))
	s.leading(s.say("recovery.count-how"))
	s.add(s.packIn(), page.Space(4), s.signatures("sign.counted"))
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
