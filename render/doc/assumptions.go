package doc

import "hoistbook/render/page"

var assumptions = Document{Name: "assumptions", title: "assumptions.title", write: (*sheet).assumptions}

// assumptions are what was taken because the manifest is silent, the limits of the models, and what the crew must make true.
func (s *sheet) assumptions() {
	s.paragraph(s.say("assumptions.about"))
	t := page.Table{Columns: []page.Column{{Title: s.say("assumptions.where")}, {Title: s.say("assumptions.what"), Weight: 1}}}
	var limits page.List
	for _, a := range s.Facts.Assumptions {
		if a.Pointer == "" {
			limits.Items = append(limits.Items, page.Plain(a.Text))
			continue
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Code(a.Pointer)}, {Words: page.Plain(a.Text)}}})
	}
	if len(t.Rows) == 0 {
		s.paragraph(s.say("assumptions.none"))
	} else {
		s.add(t)
	}
	if len(limits.Items) > 0 {
		s.heading(1, s.say("assumptions.limits"))
		s.add(limits)
	}
	s.heading(1, s.say("assumptions.always"))
	var always page.List
	for _, id := range []string{"always.hot-lift", "always.cold-drag", "always.mass", "always.gas", "always.diameter", "always.wind", "always.steady", "always.volts", "always.radio", "always.limits"} {
		always.Items = append(always.Items, page.Plain(s.say(id)))
	}
	s.add(always)
}
