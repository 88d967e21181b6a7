package doc

import (
	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/render/page"
)

// origins say which revision of the shared kit this one is made from, and what each overlay says in its place.
func (s *sheet) origins() {
	m := s.Facts.Manifest
	layers := m.Layers()
	if len(layers) == 0 {
		return
	}
	s.heading(1, s.say("changes.overlays"))
	s.paragraph(s.say("changes.overlays-about"))
	shared := m.Shared()
	s.add(page.KeyValues{{Key: s.say("origins.shared"), Value: page.Plain(string(shared.ID) + " " + string(shared.Revision) + " · ").Then(page.Code(string(shared.Digest)))}})
	t := page.Table{Columns: []page.Column{{Title: s.say("assumptions.where"), Weight: 1}, {Title: s.say("origins.says"), Weight: 1}, {Title: s.say("changes.now"), Weight: 1}}}
	for _, l := range layers {
		name := l.Name
		switch {
		case l.MadeFor == nil:
			name = s.say("origins.made-for-nothing", "overlay", l.Name)
		case len(l.Stale) > 0:
			name = s.say("origins.made-for-another", "overlay", l.Name, "revision", string(l.MadeFor.Revision))
		}
		t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(name), Span: len(t.Columns)}}})
		for _, c := range l.Changes {
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Code(c.Pointer)}, {Words: page.Plain(written(c.Before))}, {Words: page.Plain(written(c.After))}}})
		}
	}
	s.add(t)
	for _, l := range layers {
		for _, p := range l.Stale {
			s.paragraph(stale(p))
		}
	}
}

// stale is what no longer fits of an overlay, its place without the folder that its file lies in.
func stale(p diag.Problem) string {
	p.Place.File = manifest.FileName(p.Place.File)
	return p.String()
}

// written is a value of a manifest as it stands there; what is no text and no number is told in short.
func written(n *jsontree.Node) string {
	const most = 200
	switch {
	case n == nil:
		return "–"
	case n.Kind == jsontree.String || n.Kind == jsontree.Number:
		return n.Text
	}
	text := []rune(string(n.JSON()))
	if len(text) > most {
		return string(text[:most-1]) + "…"
	}
	return string(text)
}
