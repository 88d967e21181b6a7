package doc

import (
	"cmp"
	"slices"
	"strings"

	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/render/page"
)

var calculation = Document{Name: "calculation", title: "calculation.title", fine: true, write: (*sheet).calculation}

// calculation shows how every number comes about, so that a reader with a pocket calculator can follow: the formula in words,
// what went into it, the result, and who says so. Facts that merely restate the manifest are left to the list at the end.
func (s *sheet) calculation() {
	s.paragraph(s.say("calculation.about"))
	t := page.Table{Columns: []page.Column{{Title: s.say("calculation.how"), Weight: 1}, {Title: s.say("calculation.value"), Align: page.Right, Whole: true}}}
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
			about := page.Cell{Words: page.Code(f.Entry.ID).Then(page.Plain(": " + f.Entry.Formula + " " + refs.cite(works(f.Entry)))), Span: 2}
			title, value := page.Strong(s.Words.Fact(f.Entry.ID, f.Entry.Title)), page.Words{}
			if f.Subject == "" {
				var how page.Words
				how, value = s.derived(f, &spoken)
				about.Words = about.Words.Then(page.Plain("\n"), how)
			}
			t.Rows = append(t.Rows, entitled(title, value), page.Row{Cells: []page.Cell{about}})
		}
		entry = f.Entry
		if f.Subject != "" {
			how, value := s.derived(f, &spoken)
			const short = 40 // letters that have room beside the value
			if subject := page.Strong(f.Subject + " "); value.Empty() || len([]rune(how.String())) <= short {
				t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: subject.Then(how)}, {Words: value}}})
			} else {
				t.Rows = append(t.Rows, entitled(subject, value), page.Row{Cells: []page.Cell{{Words: how, Span: 2}}})
			}
		}
	}
	s.add(page.Columns{Count: 2, Blocks: []page.Block{t}})
	if len(said) > 0 {
		s.heading(1, s.say("calculation.said"))
		s.add(page.Columns{Count: 2, Blocks: []page.Block{s.restated(said)}})
	}
	s.references(&refs)
}

// entitled is a title with what belongs at its right end, over a row that takes the whole width.
func entitled(title, right page.Words) page.Row {
	if right.Empty() {
		return page.Row{Open: true, Cells: []page.Cell{{Words: title, Span: 2}}}
	}
	return page.Row{Open: true, Cells: []page.Cell{{Words: title}, {Words: right}}}
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

// derived is what went into a fact, and its value. A value of many words stands among the text.
func (s *sheet) derived(f kits.Fact, spoken *inputLists) (how, value page.Words) {
	var lines []string
	if with := s.inputs(f, spoken); with != "" {
		lines = append(lines, s.say("calculation.with", "inputs", with))
	}
	if why := s.needless(f.ID); !f.Value.Known() && why != "" {
		lines = append(lines, s.say("calculation.needless", "why", why))
	} else if !f.Value.Known() {
		lines = append(lines, s.say("calculation.unknown", "why", f.Value.Unknown))
	}
	for _, note := range f.Notes {
		lines = append(lines, s.say("calculation.note", "note", note))
	}
	how = page.Plain(strings.Join(lines, "\n"))
	if f.Value.Kind == fact.Word {
		return page.Strong("= " + s.valueOf(f.ID, f.Value) + " ").Then(how), nil
	}
	return how, page.Strong(s.valueOf(f.ID, f.Value))
}

func works(e *kits.Entry) []string {
	texts := make([]string, len(e.Sources))
	for i, ref := range e.Sources {
		texts[i] = ref.String()
	}
	return texts
}

// restated lists what the manifest says, a family of facts under its title.
func (s *sheet) restated(said []kits.Fact) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("calculation.fact"), Weight: 1}, {Title: s.say("calculation.value"), Align: page.Right, Whole: true}}}
	var entry *kits.Entry
	for _, f := range said {
		about := page.Plain(s.Words.Fact(f.Entry.ID, f.Entry.Title) + " ").Then(page.Code(f.Entry.ID))
		if f.Subject != "" {
			if f.Entry != entry {
				t.Rows = append(t.Rows, entitled(about, nil))
			}
			about = page.Plain(f.Subject)
		}
		entry = f.Entry
		row := page.Row{Cells: []page.Cell{{Words: about}, {Words: page.Plain(s.valueOf(f.ID, f.Value))}}}
		if f.Value.Kind == fact.Word { // of many words: not in the column of the numbers
			row.Cells = []page.Cell{{Words: about.Then(page.Plain(" = " + s.valueOf(f.ID, f.Value))), Span: 2}}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
