package doc

import (
	"strings"

	"hoistbook/kits"
	"hoistbook/render/page"
)

// atOnce is how many kits are packed side by side from one table.
const atOnce = 12

// pick is the list by which kits are packed: part by part along the shelf, a box to tick for each kit.
func (s *sheet) pick(o *kits.Order) {
	s.paragraph(s.say("order.pick-about"))
	serials := o.Serials()
	for from := 0; from < len(serials); from += atOnce {
		some := serials[from:min(from+atOnce, len(serials))]
		if len(serials) > atOnce {
			s.heading(1, s.say("order.pick-kits", "first", some[0], "last", some[len(some)-1]))
		}
		s.add(s.pickTable(o, some))
	}
	s.add(page.Space(4), s.signatures("sign.packed", "sign.checker"))
}

func (s *sheet) pickTable(o *kits.Order, serials []string) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("bill.ref"), Whole: true}, {Title: s.say("bill.part"), Weight: 1, Least: 45}, {Title: s.say("order.a-kit"), Align: page.Right, Least: 12}}}
	for _, serial := range serials {
		t.Columns = append(t.Columns, page.Column{Title: serial[strings.LastIndexByte(serial, '-')+1:], Width: 9.5})
	}
	for _, box := range o.Boxes() {
		name := box
		if box == "" {
			name = s.say("recovery.no-box")
		}
		t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(name), Span: len(t.Columns)}}})
		for _, p := range o.In(box) {
			row := page.Row{Cells: page.Cells(string(p.Ref), p.Part.Name, digits(p.EachKit))}
			row.Cells[2].Words = page.Strong(digits(p.EachKit))
			for _, serial := range serials {
				row.Cells = append(row.Cells, page.Cell{Tick: s.field(serial, string(p.Ref)), Label: s.say("order.is-packed", "part", string(p.Ref), "kit", serial)})
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// The grid of labels. They are cut along dashed lines, or printed on sheets to peel where those fit.
const (
	labelsAbreast = 3
	labelHeight   = page.MM(23)
	labelPad      = page.MM(2.2)
)

// A tag is one label: what goes into which kit.
type tag struct {
	serial string
	part   kits.OrderPart
}

// labels are as many as there are bags, kit by kit and box by box.
func (s *sheet) labels(o *kits.Order) {
	s.add(page.Paragraph{Fine: true, Text: page.Plain(s.say("order.labels-about"))})
	var tags []tag
	for _, serial := range o.Serials() {
		for _, box := range o.Boxes() {
			for _, p := range o.In(box) {
				tags = append(tags, tag{serial, p})
			}
		}
	}
	for from := 0; from < len(tags); from += labelsAbreast {
		s.add(s.labelRow(tags[from:min(from+labelsAbreast, len(tags))]))
	}
}

func (s *sheet) labelRow(tags []tag) page.Figure {
	d := s.drawing(s.flow.Frame().W, 0)
	w := d.w / labelsAbreast
	d.h = labelHeight
	for _, t := range tags {
		trial := s.drawing(s.flow.Frame().W, 0)
		d.h = max(d.h, s.label(trial, t, 0, w)+labelPad)
	}
	cut := page.Stroke{Width: thin, Dash: []page.MM{1.2, 1.2}}
	for i, t := range tags {
		x := page.MM(i) * w
		s.label(d, t, x, w)
		d.add(page.Rect{Box: page.Box{X: x, W: w, H: d.h}, Stroke: cut})
	}
	return d.figure("")
}

// label draws one label and returns where it ends.
func (s *sheet) label(d *drawing, t tag, x, w page.MM) page.MM {
	serial, box := label{face: page.Bold, size: 10, shrinks: true}, label{size: 7.5, align: page.Right}
	ref, count := label{face: page.Bold, size: 15, shrinks: true}, label{face: page.Bold, size: 15, align: page.Right}
	left, right := x+labelPad, x+w-labelPad
	room := right - left
	times := "×\u00a0" + digits(t.part.EachKit)
	wide := min(s.Fonts.Width(count.face, count.size, times), room/2)
	y := max(d.put(t.serial, serial, left, labelPad*0.6, room*0.6), d.put(t.part.Part.PackedIn, box, right, labelPad*0.6, room*0.38))
	y = max(d.put(string(t.part.Ref), ref, left, y, room-wide-1), d.put(times, count, right, y, wide))
	return d.put(t.part.Part.Name, label{size: 7.5}, left, y+0.5, room)
}
