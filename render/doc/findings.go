package doc

import (
	"hoistbook/render/page"
	"hoistbook/rules"
)

var findings = Document{Name: "findings", title: "findings.title", write: (*sheet).findings}

// findings are all rules in force with their outcomes, in the order of the packs, and on whose authority. Those that only ask the
// manifest to say something, and are met, are told shortly at the end.
func (s *sheet) findings() {
	s.paragraph(s.say("findings.about"))
	if len(s.Findings) == 0 {
		s.paragraph(s.say("findings.none"))
		return
	}
	t := page.Table{Columns: []page.Column{{Title: s.say("finding.level"), Whole: true}, {Title: s.say("finding.outcome"), Whole: true}, {Title: s.say("finding.says"), Weight: 1},
		{Title: s.say("calculation.source"), Align: page.Right, Whole: true}}}
	stated := page.Table{NoHead: true, Columns: []page.Column{{Whole: true}, {Weight: 1}}}
	var refs references
	for _, f := range s.Findings {
		level, name := s.Words.Name("level", string(f.Level)), page.Strong(s.name(f)+" ").Then(page.Code(f.Rule))
		if f.Relation == rules.Present && f.Outcome == rules.Met {
			stated.Rows = append(stated.Rows, page.Row{Cells: []page.Cell{{Words: page.Plain(level)}, {Words: page.Plain(s.name(f) + " ").Then(page.Code(f.Rule))}}})
			continue
		}
		outcome := page.Plain(s.Words.Name("outcome", f.Outcome.String()))
		if f.Outcome != rules.Met {
			outcome = page.Strong(outcome.String())
		}
		says := sentence(f.Message)
		if f.Waived != "" {
			says += " " + s.say("finding.waived", "reason", f.Waived)
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Plain(level)}, {Words: outcome}, {Words: name.Then(page.Plain("\n" + says))},
			{Words: page.Plain(refs.cite(f.Source))}}})
	}
	if len(t.Rows) > 0 {
		s.add(t)
	}
	if len(stated.Rows) > 0 {
		s.add(page.Together{page.Heading{Level: 1, Text: s.say("findings.stated")}, page.Paragraph{Text: page.Plain(s.say("findings.stated-about")), Leads: true},
			page.Columns{Count: 2, Blocks: []page.Block{stated}}})
	}
	s.references(&refs)
}
