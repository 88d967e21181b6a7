package pdf

import (
	"fmt"
	"net/url"
	"strings"

	"hoistbook/render/page"
)

// annotations are the things that lie on top of pages: links and form fields, as object numbers by page.
type annotations struct {
	of     [][]int
	fields []int
}

// place is where an anchor stands.
type place struct {
	page   int
	x, y   page.MM
	height page.MM
}

// destination opens a page at a place, a little above it.
func (p place) destination(f *file) string {
	const above = page.MM(4)
	return fmt.Sprintf("[%s/XYZ %s null]", ref(f.pageObject(p.page)), join(max(p.x-above, 0).Pt(), min(p.height-p.y+above, p.height).Pt()))
}

func (f *file) annotations(doc *page.Document) annotations {
	anchors := map[string]place{}
	for i, p := range doc.Pages {
		for _, it := range p.Items {
			if a, ok := it.(page.Anchor); ok {
				anchors[a.Name] = place{i, a.X, a.Y, p.Paper.Height}
			}
		}
	}
	notes := annotations{of: make([][]int, len(doc.Pages))}
	looks := appearances{f: f}
	for i, p := range doc.Pages {
		for _, it := range p.Items {
			n := 0
			switch it := it.(type) {
			case page.Link:
				n = f.add(f.link(it, p.Paper.Height, anchors))
			case page.TickBox:
				n = f.add(tickBox(it, f.pageObject(i), p.Paper.Height, &looks))
				notes.fields = append(notes.fields, n)
			case page.Field:
				n = f.add(textField(it, f.pageObject(i), p.Paper.Height, &looks))
				notes.fields = append(notes.fields, n)
			default:
				continue
			}
			notes.of[i] = append(notes.of[i], n)
		}
	}
	return notes
}

// link leads to an anchor (ISO 32000-1, 12.5.6.5) or to an address.
func (f *file) link(l page.Link, height page.MM, anchors map[string]place) string {
	body := "<</Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect" + rect(l.Box, height)
	if page.Outward(l.To) {
		return body + "/A<</S/URI/URI" + literal(address(l.To)) + ">>>>"
	}
	return body + "/Dest" + anchors[l.To].destination(f) + ">>"
}

// address is an address in ASCII, as the format asks for.
func address(to string) string {
	if u, err := url.Parse(to); err == nil {
		to = u.String()
	}
	var b strings.Builder
	for _, c := range []byte(to) {
		if c <= ' ' || c > '~' {
			fmt.Fprintf(&b, "%%%02X", c)
		} else {
			b.WriteByte(c)
		}
	}
	return b.String()
}
