package doc

import (
	"hoistbook/kits/manifest"
	"hoistbook/render/page"
)

var changeRecord = Document{Name: "changes", title: "changes.title", write: (*sheet).changes}

// changes say which manifest this is, what an overlay changed in it, and leave lines for what is changed by hand.
func (s *sheet) changes() {
	m := s.Facts.Manifest
	s.add(page.KeyValues{
		{Key: s.say("kit.revision"), Value: page.Plain(string(m.Kit.Revision))}, {Key: s.say("kit.digest"), Value: page.Code(m.Digest())},
	})
	s.origins()
	if len(m.Waivers) > 0 {
		s.waivers()
	}
	s.heading(1, s.say("changes.by-hand"))
	s.paragraph(s.say("changes.by-hand-about"))
	const lines = 12
	t := page.Table{Columns: []page.Column{{Title: s.say("changes.date"), Width: 28}, {Title: s.say("changes.what"), Weight: 1}, {Title: s.say("changes.who"), Width: 40}}}
	for i := range lines {
		field := s.field("by-hand", digits(i+1))
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Field: field + "/date", Label: s.say("changes.date")}, {Field: field + "/what", Label: s.say("changes.what")}, {Field: field + "/who", Label: s.say("changes.who")}}})
	}
	s.add(t)
}

// waivers are the recommendations that the kit sets aside, with its reasons.
func (s *sheet) waivers() {
	s.heading(1, s.say("changes.waivers"))
	t := page.Table{Columns: []page.Column{{Title: s.say("finding.rule")}, {Title: s.say("changes.reason"), Weight: 1}}}
	for id, reason := range manifest.Sorted(s.Facts.Manifest.Waivers) {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Code(string(id))}, {Words: page.Plain(string(reason))}}})
	}
	s.add(t)
}
