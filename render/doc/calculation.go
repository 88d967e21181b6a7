package doc

import (
	"cmp"
	"slices"
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
	t := page.Table{Columns: []page.Column{{Title: s.say("calculation.how"), Weight: 1}, {Title: s.say("calculation.value"), Align: page.Right, Whole: true},
		{Title: s.say("calculation.source"), Align: page.Right, Whole: true}}}
	var refs references
	var spoken inputLists
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
			t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(s.Words.Name("topic", topic)), Span: len(t.Columns)}}})
		}
		if f.Entry != entry {
			row := page.Row{Cells: []page.Cell{{Words: s.named(f).Then(page.Plain("\n" + f.Entry.Formula))}, {}, {Words: page.Plain(refs.cite(works(f.Entry)))}}}
			if f.Subject == "" {
				row.Cells[0].Words = row.Cells[0].Words.Then(page.Plain("\n"))
				row = s.derived(row, f, &spoken)
			}
			t.Rows = append(t.Rows, row)
		}
		entry = f.Entry
		if f.Subject != "" {
			t.Rows = append(t.Rows, s.derived(page.Row{Cells: []page.Cell{{Words: page.Strong(f.Subject + " ")}, {}, {}}}, f, &spoken))
		}
	}
	s.add(t)
	if len(said) > 0 {
		s.heading(1, s.say("calculation.said"))
		s.add(page.Columns{Count: 2, Blocks: []page.Block{s.restated(said)}})
	}
	s.references(&refs)
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

// named is a fact's title and its id; of a family, the id with a star.
func (s *sheet) named(f kits.Fact) page.Words {
	return page.Strong(s.Words.Fact(f.Entry.ID, f.Entry.Title) + " ").Then(page.Code(f.Entry.ID))
}

// breakable lets a long id go on in the next line before any of its full stops.
func breakable(id string) string { return strings.ReplaceAll(id, ".", "\u200b.") }

// derived completes a row: what went into the fact behind what is there, and its value. A value of many words stands among the text.
func (s *sheet) derived(row page.Row, f kits.Fact, spoken *inputLists) page.Row {
	var how []string
	if with := s.inputs(f, spoken); with != "" {
		how = append(how, s.say("calculation.with", "inputs", with))
	}
	if !f.Value.Known() {
		how = append(how, s.say("calculation.unknown", "why", f.Value.Unknown))
	}
	for _, note := range f.Notes {
		how = append(how, s.say("calculation.note", "note", note))
	}
	text := page.Plain(strings.Join(how, "\n"))
	if f.Value.Kind == fact.Word {
		text = page.Strong("= " + s.value(f.Value) + " ").Then(text)
	} else {
		row.Cells[1].Words = page.Strong(s.value(f.Value))
	}
	row.Cells[0].Words = row.Cells[0].Words.Then(text)
	return row
}

func works(e *kits.Entry) []string {
	texts := make([]string, len(e.Sources))
	for i, ref := range e.Sources {
		texts[i] = ref.String()
	}
	return texts
}

// restated lists what the manifest says.
func (s *sheet) restated(said []kits.Fact) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("calculation.fact"), Weight: 1}, {Title: s.say("calculation.value"), Align: page.Right, Whole: true}}}
	for _, f := range said {
		title := s.Words.Fact(f.Entry.ID, f.Entry.Title)
		if f.Subject != "" {
			title = f.Subject + ": " + title
		}
		row := page.Row{Cells: []page.Cell{{Words: page.Plain(title + "\n").Then(page.Code(breakable(f.ID)))}, {Words: page.Plain(s.value(f.Value))}}}
		if f.Value.Kind == fact.Word { // of many words: not in the column of the numbers
			row.Cells[0].Words, row.Cells[1] = row.Cells[0].Words.Then(page.Plain(" = "+s.value(f.Value))), page.Cell{}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
