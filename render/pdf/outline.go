package pdf

import (
	"fmt"

	"hoistbook/render/page"
)

// entry is one bookmark; relatives are indices into the list of entries, -1 if there are none.
type entry struct {
	title                           string
	at                              place
	parent, first, last, prev, next int
	children                        int
}

// outline writes the bookmarks (ISO 32000-1, 12.3.3) and gives the number of their root, 0 if there are none. An entry that skips a
// level hangs below the last one there is.
func (f *file) outline(doc *page.Document) int {
	entries, roots := outlineTree(doc)
	if len(entries) == 0 {
		return 0
	}
	base := len(f.objects) + 1
	number := func(i int) string { return ref(base + i) }
	root := f.add(fmt.Sprintf("<</Type/Outlines/First %s/Last %s/Count %d>>", number(roots[0]), number(roots[len(roots)-1]), len(roots)))
	for _, e := range entries {
		body := "<</Title" + text(e.title) + "/Dest" + e.at.destination(f) + "/Parent "
		if e.parent >= 0 {
			body += number(e.parent)
		} else {
			body += ref(root)
		}
		for _, relative := range []struct {
			key string
			to  int
		}{{"First", e.first}, {"Last", e.last}, {"Prev", e.prev}, {"Next", e.next}} {
			if relative.to >= 0 {
				body += "/" + relative.key + " " + number(relative.to)
			}
		}
		if e.children > 0 {
			body += fmt.Sprintf("/Count %d", -e.children) // shut: a list of parts is looked at before what is in them
		}
		f.add(body + ">>")
	}
	return root
}

func outlineTree(doc *page.Document) (entries []entry, roots []int) {
	var open []int // the entries that the next one may hang below, outermost first
	var levels []int
	for i, p := range doc.Pages {
		for _, it := range p.Items {
			o, ok := it.(page.Outline)
			if !ok {
				continue
			}
			n := len(entries)
			e := entry{title: o.Title, at: place{i, 0, o.Y, p.Paper.Height}, parent: -1, first: -1, last: -1, prev: -1, next: -1}
			for len(open) > 0 && levels[len(open)-1] >= o.Level {
				e.prev = open[len(open)-1] // the last one shut is the one before, on the same level
				open = open[:len(open)-1]
			}
			if e.prev >= 0 {
				entries[e.prev].next = n
			}
			if len(open) > 0 {
				e.parent = open[len(open)-1]
				parent := &entries[e.parent]
				if parent.first < 0 {
					parent.first = n
				}
				parent.last = n
				parent.children++
			} else {
				roots = append(roots, n)
			}
			open, levels = append(open, n), append(levels[:len(open)], o.Level)
			entries = append(entries, e)
		}
	}
	return entries, roots
}
