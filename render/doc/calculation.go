package doc

import (
	"strings"

	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/render/page"
)

var calculation = Document{Name: "calculation", title: "calculation.title", write: (*sheet).calculation}

// calculation shows how every number comes about, so that a reader with a pocket calculator can follow: the formula in words,
// what went into it, the result, and who says so. Facts that merely restate the manifest are left to the list at the end.
func (s *sheet) calculation() {
	s.paragraph(s.say("calculation.about"))
	topic := ""
	var said []kits.Fact
	for _, f := range s.Facts.All {
		if restates(f) {
			said = append(said, f)
			continue
		}
		if name, _, _ := strings.Cut(f.ID, "."); name != topic {
			topic = name
			s.heading(1, s.Words.Name("topic", topic))
		}
		s.derivation(f)
	}
	if len(said) > 0 {
		s.heading(1, s.say("calculation.said"))
		t := page.Table{Columns: []page.Column{{Title: s.say("calculation.fact"), Weight: 1}, {Title: s.say("calculation.value"), Align: page.Right, Whole: true}}}
		for _, f := range said {
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Plain(s.factTitle(f) + " ").Then(page.Code(f.ID))}, {Words: page.Plain(s.value(f.Value))}}})
		}
		s.add(t)
	}
}

// restates says that a fact repeats what the manifest says.
func restates(f kits.Fact) bool { return f.Entry.Restates() }

func (s *sheet) factTitle(f kits.Fact) string {
	if f.Subject == "" {
		return f.Entry.Title
	}
	return f.Subject + ": " + f.Entry.Title
}

// derivation sets one fact.
func (s *sheet) derivation(f kits.Fact) {
	result := page.Strong(s.factTitle(f) + " = " + s.value(f.Value)).Then(page.Plain("  "), page.Code(f.ID))
	block := page.Together{page.Paragraph{Text: result}, page.Paragraph{Text: page.Plain("= " + f.Entry.Formula), Fine: true}}
	if len(f.Inputs) > 0 {
		var with []string
		for _, in := range f.Inputs {
			with = append(with, s.input(in))
		}
		block = append(block, page.Paragraph{Text: page.Plain(s.say("calculation.with", "inputs", strings.Join(with, "; "))), Fine: true})
	}
	if !f.Value.Known() {
		block = append(block, page.Paragraph{Text: page.Plain(s.say("calculation.unknown", "why", f.Value.Unknown)), Fine: true})
	}
	for _, note := range f.Notes {
		block = append(block, page.Paragraph{Text: page.Plain(s.say("calculation.note", "note", note)), Fine: true})
	}
	var sources []string
	for _, ref := range f.Entry.Sources {
		sources = append(sources, ref.String())
	}
	s.add(append(block, page.Paragraph{Text: page.Plain(s.say("cautions.source", "sources", strings.Join(sources, "; "))), Fine: true}, page.Rule{}))
}

// input is what a formula read, with its name.
func (s *sheet) input(in kits.Input) string {
	text := s.value(in.Value)
	if in.Value.Kind == fact.Word && in.Value.Known() {
		text = in.Value.Text
	}
	if in.Assumed {
		text += " " + s.say("calculation.assumed")
	}
	return in.Name + " " + text
}
