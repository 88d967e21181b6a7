package doc

import (
	"strings"

	"hoistbook/render/page"
	"hoistbook/rules"
)

var findings = Document{Name: "findings", title: "findings.title", fine: true, write: (*sheet).findings}

// findings are all rules in force with their outcomes, in the order of the packs, and on whose authority. Those that only ask the
// manifest to say something, and are met, are told shortly at the end.
func (s *sheet) findings() {
	s.paragraph(s.say("findings.about"))
	if len(s.Findings) == 0 {
		s.paragraph(s.say("findings.none"))
		return
	}
	t := page.Table{Columns: []page.Column{{Title: s.say("finding.says"), Weight: 1}, {Title: s.say("finding.outcome"), Align: page.Right, Whole: true}}}
	stated := map[rules.Level]page.Words{}
	var refs references
	rule := ""
	for _, f := range s.Findings {
		level := s.Words.Name("level", string(f.Level))
		if f.Relation == rules.Present && f.Outcome == rules.Met {
			stated[f.Level] = stated[f.Level].Then(page.Plain(s.name(f)+" "), page.Code(f.Rule), page.Plain("; "))
			continue
		}
		outcome := page.Plain(s.say("finding.stands", "level", level, "outcome", s.Words.Name("outcome", f.Outcome.String())))
		if f.Outcome != rules.Met {
			outcome = page.Strong(outcome.String())
		}
		says := sentence(f.Message)
		if f.Subject != "" && !strings.Contains(f.Message, f.Subject) {
			says = f.Subject + ": " + says
		}
		if f.Waived != "" {
			says += " " + s.say("finding.waived", "reason", f.Waived)
		}
		one := f.Subject == ""
		if f.Rule != rule { // the title of a rule over several subjects stands once
			right := outcome
			if !one {
				right = nil
			}
			t.Rows = append(t.Rows, entitled(page.Strong(f.Title+" ").Then(page.Code(f.Rule), page.Plain(" "+refs.cite(f.Source))), right))
		}
		rule = f.Rule
		if one {
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Plain(says), Span: 2}}})
			continue
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Plain(says)}, {Words: outcome}}})
	}
	if len(t.Rows) > 0 {
		s.add(page.Columns{Count: 2, Blocks: []page.Block{t}})
	}
	if len(stated) > 0 {
		s.add(page.Heading{Level: 1, Text: s.say("findings.stated")}, page.Paragraph{Text: page.Plain(s.say("findings.stated-about")), Leads: true})
	}
	for _, level := range []rules.Level{rules.Must, rules.Should} {
		if words := stated[level]; len(words) > 0 {
			s.add(page.Paragraph{Fine: true, Text: page.Strong(s.Words.Name("level", string(level))+": ").Then(words[:len(words)-1], page.Plain("."))})
		}
	}
	s.references(&refs)
}
