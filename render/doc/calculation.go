package doc

import (
	"cmp"
	"slices"
	"strings"

	"hoistbook/kits"
	"hoistbook/render/page"
)

var calculation = Document{Name: "calculation", title: "calculation.title", write: (*sheet).calculation}

// calculation shows how every number comes about, so that a reader with a pocket calculator can follow: the formula in words,
// what went into it, the result, and who says so. Facts that merely restate the manifest are left to the list at the end.
func (s *sheet) calculation() {
	s.paragraph(s.say("calculation.about"))
	t := page.Table{NoHead: true, Columns: []page.Column{{Width: s.flow.Frame().W * 0.34}, {Weight: 1}}}
	topic := ""
	var said []kits.Fact
	var entry *kits.Entry
	for _, f := range byTopic(s.Facts.All) {
		if f.Entry.Restates() {
			said = append(said, f)
			continue
		}
		if name := topicOf(f); name != topic {
			topic = name
			t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(s.Words.Name("topic", topic)), Span: 2}}})
		}
		if f.Subject != "" && f.Entry != entry {
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: s.named(f.Entry, f.Entry.ID)}, {Words: s.formula(f.Entry)}}})
		}
		entry = f.Entry
		t.Rows = append(t.Rows, s.derivation(f))
	}
	s.add(t)
	if len(said) > 0 {
		s.heading(1, s.say("calculation.said"))
		s.add(s.restated(said))
	}
}

// topicOf is the first word of a fact's id.
func topicOf(f kits.Fact) string {
	topic, _, _ := strings.Cut(f.ID, ".")
	return topic
}

// byTopic gathers the facts of each topic, the topics in the order in which the catalogue first has them.
func byTopic(facts []kits.Fact) []kits.Fact {
	first := map[string]int{}
	for i, f := range facts {
		if _, known := first[topicOf(f)]; !known {
			first[topicOf(f)] = i
		}
	}
	sorted := slices.Clone(facts)
	slices.SortStableFunc(sorted, func(a, b kits.Fact) int { return cmp.Compare(first[topicOf(a)], first[topicOf(b)]) })
	return sorted
}

// named is a fact's title over its id.
func (s *sheet) named(e *kits.Entry, id string) page.Words {
	return page.Strong(s.Words.Fact(e.ID, e.Title)).Then(page.Plain("\n"), page.Code(strings.ReplaceAll(id, ".", "\u200b.")))
}

// derivation is the row of one fact. What the members of a family share stands above the first of them.
func (s *sheet) derivation(f kits.Fact) page.Row {
	how := page.Strong("= " + s.value(f.Value))
	line := func(id string, pairs ...string) { how = how.Then(page.Plain("\n" + s.say(id, pairs...))) }
	if f.Subject == "" {
		line("calculation.formula", "formula", f.Entry.Formula)
	}
	if with := s.inputs(f); with != "" {
		line("calculation.with", "inputs", with)
	}
	if !f.Value.Known() {
		line("calculation.unknown", "why", f.Value.Unknown)
	}
	for _, note := range f.Notes {
		line("calculation.note", "note", note)
	}
	if f.Subject != "" {
		return page.Row{Cells: []page.Cell{{Words: page.Strong(f.Subject)}, {Words: how}}}
	}
	line("cautions.source", "sources", sources(f.Entry))
	return page.Row{Cells: []page.Cell{{Words: s.named(f.Entry, f.ID)}, {Words: how}}}
}

// formula says how a family is computed, in words, and on whose authority.
func (s *sheet) formula(e *kits.Entry) page.Words {
	return page.Plain(s.say("calculation.formula", "formula", e.Formula) + "\n" + s.say("cautions.source", "sources", sources(e)))
}

func sources(e *kits.Entry) string {
	texts := make([]string, len(e.Sources))
	for i, ref := range e.Sources {
		texts[i] = ref.String()
	}
	return strings.Join(texts, "; ")
}

// inputs is what a formula read, with its names. That there is one of a part where the manifest says nothing else needs no
// words.
func (s *sheet) inputs(f kits.Fact) string {
	var with []string
	for _, in := range f.Inputs {
		if in.Assumed && strings.HasSuffix(in.Name, "/quantity") {
			continue
		}
		text := strings.TrimPrefix(in.Name, "/parts/") + " " + s.value(in.Value)
		if in.Assumed {
			text += " " + s.say("calculation.assumed")
		}
		with = append(with, text)
	}
	return strings.Join(with, "; ")
}

// restated lists what the manifest says.
func (s *sheet) restated(said []kits.Fact) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("calculation.fact"), Weight: 1}, {Title: s.say("calculation.value"), Align: page.Right}}}
	for _, f := range said {
		title := s.Words.Fact(f.Entry.ID, f.Entry.Title)
		if f.Subject != "" {
			title = f.Subject + ": " + title
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Plain(title + " ").Then(page.Code(f.ID))}, {Words: page.Plain(s.value(f.Value))}}})
	}
	return t
}
