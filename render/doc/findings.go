package doc

import (
	"strings"

	"hoistbook/render/page"
	"hoistbook/rules"
)

var findings = Document{Name: "findings", title: "findings.title", write: (*sheet).findings}

// findings are all rules in force with their outcomes, in the order of the packs, and on whose authority.
func (s *sheet) findings() {
	s.paragraph(s.say("findings.about"))
	t := page.Table{Columns: []page.Column{{Title: s.say("finding.rule")}, {Title: s.say("finding.level"), Whole: true}, {Title: s.say("finding.outcome"), Whole: true}, {Title: s.say("finding.says"), Weight: 1}}}
	for _, f := range s.Findings {
		words := page.Strong(s.name(f)).Then(page.Plain(": " + f.Message + "."))
		if len(f.Source) > 0 {
			words = words.Then(page.Plain(" " + s.say("cautions.source", "sources", strings.Join(f.Source, "; "))))
		}
		outcome := page.Plain(s.Words.Name("outcome", f.Outcome.String()))
		if f.Outcome != rules.Met {
			outcome = page.Strong(outcome.String())
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Code(f.Rule)}, {Words: page.Plain(s.Words.Name("level", string(f.Level)))}, {Words: outcome}, {Words: words}}})
	}
	if len(t.Rows) == 0 {
		s.paragraph(s.say("findings.none"))
		return
	}
	s.add(t)
}
