package doc

import (
	"strings"

	"hoistbook/render/page"
)

var notices = Document{Name: "notices", title: "notices.title", write: (*sheet).notices, when: func(in *Input) bool { return len(in.Notices) > 0 }}

// notices are worksheets for the messages that must reach somebody before the launch: what the kit knows is filled in, the
// rest is left for a pen.
func (s *sheet) notices() {
	s.paragraph(s.say("notices.about"))
	for i, n := range s.Notices {
		if i > 0 {
			s.add(page.PageBreak{})
		}
		s.heading(1, n.Title)
		s.add(page.KeyValues{{Key: s.say("notices.to"), Value: page.Plain(n.To)}, {Key: s.say("notices.ahead"), Value: page.Strong(s.say("notices.before", "time", s.text(n.Ahead.Quantity())))}})
		t := page.Table{NoHead: true, Columns: []page.Column{{Least: 50}, {Weight: 1}}}
		for k, line := range n.Lines {
			field := s.field(n.ID, digits(k+1))
			cell := page.Cell{Words: page.Plain(line.Text)}
			if line.Text == "" {
				cell = page.Cell{Field: field, Label: line.Label}
			}
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Strong(line.Label)}, cell}})
		}
		for _, id := range []string{"notices.answered-by", "notices.answered-at", "notices.number"} {
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Strong(s.say(id))}, {Field: s.field(n.ID, id), Label: s.say(id)}}})
		}
		s.add(t)
		if n.Notes != "" {
			s.paragraph(sentence(n.Notes))
		}
		if len(n.Source) > 0 {
			s.add(page.Paragraph{Text: page.Plain(s.say("cautions.source", "sources", strings.Join(n.Source, "; "))), Fine: true})
		}
	}
}
