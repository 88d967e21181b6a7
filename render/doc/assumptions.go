package doc

import "hoistbook/render/page"

var assumptions = Document{Name: "assumptions", title: "assumptions.title", write: (*sheet).assumptions}

// assumptions are what was taken because the manifest is silent, the limits of the models, and what the crew must make true.
func (s *sheet) assumptions() {
	s.paragraph(s.say("assumptions.about"))
	t := page.Table{Columns: []page.Column{{Title: s.say("assumptions.where")}, {Title: s.say("assumptions.what"), Weight: 1}}}
	for _, a := range s.Facts.Assumptions {
		where := page.Code(a.Pointer)
		if a.Pointer == "" {
			where = page.Plain(s.say("assumptions.model"))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: where}, {Words: page.Plain(a.Text)}}})
	}
	if len(t.Rows) == 0 {
		s.paragraph(s.say("assumptions.none"))
	} else {
		s.add(t)
	}
	notes := map[string]bool{}
	var list page.List
	for _, f := range s.Facts.All {
		for _, note := range f.Notes {
			if !notes[note] {
				notes[note] = true
				list.Items = append(list.Items, page.Plain(note))
			}
		}
	}
	if len(list.Items) > 0 {
		s.heading(1, s.say("assumptions.limits"))
		s.add(list)
	}
	s.heading(1, s.say("assumptions.always"))
	var always page.List
	for _, id := range []string{"always.hot-lift", "always.cold-drag", "always.mass", "always.gas", "always.diameter", "always.wind", "always.steady", "always.volts", "always.radio"} {
		always.Items = append(always.Items, page.Plain(s.say(id)))
	}
	s.add(always)
}
