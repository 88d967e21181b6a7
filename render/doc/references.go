package doc

import (
	"strings"

	"hoistbook/render/page"
)

// references number the published works of a document in the order of their first mention: a page reads lighter with [3] than with the
// same title twenty times.
type references struct {
	numbers map[string]int
	works   []string
}

// cite gives the marks of some works.
func (r *references) cite(works []string) string {
	var b strings.Builder
	for _, w := range works {
		n, known := r.numbers[w]
		if !known {
			if r.numbers == nil {
				r.numbers = map[string]int{}
			}
			n = len(r.works) + 1
			r.numbers[w], r.works = n, append(r.works, w)
		}
		b.WriteString("[" + digits(n) + "]\u200b")
	}
	return b.String()
}

// references lists them at the end.
func (s *sheet) references(r *references) {
	if len(r.works) == 0 {
		return
	}
	t := page.Table{NoHead: true, Tight: true, Columns: []page.Column{{Align: page.Right, Whole: true}, {Weight: 1}}}
	for i, w := range r.works {
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells("["+digits(i+1)+"]", w)})
	}
	s.heading(1, s.say("references.title"))
	s.flow.SetScale(&page.Reference)
	s.add(page.Columns{Count: 2, Blocks: []page.Block{t}})
}
