package pdf

import (
	"crypto/sha256"
	"fmt"
	"strings"
)

// marks lists what lies on top of a page. The look of a field that nobody has filled in belongs to it; once it is filled in, its look is
// what was written there, and stays inside its frame (ISO 32000-1, 12.5.5).
func (e *eye) marks(o any) ([]SeenMark, error) {
	if o == nil {
		return nil, nil
	}
	list, err := e.list(o)
	if err != nil {
		return nil, err
	}
	var marks []SeenMark
	for _, entry := range list {
		d, err := e.dictionary(entry)
		if err != nil {
			return nil, err
		}
		m, err := e.mark(d)
		if err != nil {
			return nil, err
		}
		marks = append(marks, m)
	}
	return marks, nil
}

func (e *eye) mark(d dictionary) (SeenMark, error) {
	kind, _ := d["Subtype"].(nameObject)
	m := SeenMark{Kind: string(kind), Where: e.rectangle(d["Rect"])}
	if name, ok := d["T"].(string); ok {
		m.Name = name
	}
	rest := dictionary{}
	for _, key := range []nameObject{"A", "AA", "Dest"} {
		if d[key] != nil {
			rest[key] = d[key]
		}
	}
	m.Filled = m.Kind == "Widget" && filled(d)
	if !m.Filled && d["AP"] != nil {
		rest["AP"] = d["AP"]
	}
	h := sha256.New()
	if m.Kind == "Link" { // where it leads, and not all that is there
		rest = dictionary{"A": d["A"], "Dest": e.goal(d["Dest"])}
	}
	if err := e.fold(h, rest, 0); err != nil {
		return m, err
	}
	m.To = hexOf(h)
	return m, nil
}

// filled reports whether a field says something.
func filled(d dictionary) bool {
	switch v := d["V"].(type) {
	case string:
		return v != ""
	case nameObject:
		return v != "Off"
	case nil:
		return false
	}
	return true
}

// goal is a place in the file without the page that it leads to, which leads to everything.
func (e *eye) goal(o any) any {
	list, ok := o.(array)
	if !ok || len(list) == 0 {
		return o
	}
	if n, ok := list[0].(reference); ok {
		return append(array{e.pageNumber(n)}, list[1:]...)
	}
	return o
}

// pageNumber is by which a page is told from others: its number among objects, which the writer gives by their order.
func (e *eye) pageNumber(n reference) string { return fmt.Sprintf("page object %d", n) }

// rectangle prints a rectangle to a tenth of a point.
func (e *eye) rectangle(o any) string {
	list, err := e.list(o)
	if err != nil {
		return "nowhere"
	}
	texts := make([]string, len(list))
	for i, side := range list {
		n, ok := numberOf(side)
		if !ok {
			return "nowhere"
		}
		texts[i] = fmt.Sprintf("%.1f", n)
	}
	return strings.Join(texts, " ")
}
