package doc

import (
	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/render/change"
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
	t := page.Table{Columns: []page.Column{{Title: s.say("change.thing"), Weight: 1}, {Title: s.say("origins.says"), Weight: 1}, {Title: s.say("changes.now"), Weight: 1}}}
	group := func(words page.Words) {
		t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: words, Span: len(t.Columns)}}})
	}
	for i, l := range layers {
		switch {
		case l.MadeFor == nil:
			group(page.Plain(s.say("origins.made-for-nothing", "overlay", l.Name)))
		case len(l.Stale) > 0:
			group(page.Plain(s.say("origins.made-for-another", "overlay", l.Name, "revision", string(l.MadeFor.Revision))))
		default:
			group(page.Plain(l.Name))
		}
		for _, row := range s.said(i, l) {
			t.Rows = append(t.Rows, page.Row{Cells: page.Cells(row[0], s.orDash(row[1]), s.orDash(row[2]))})
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

// said lists what an overlay says in the place of what lies below it: of what, below, and now.
func (s *sheet) said(layer int, l manifest.Layer) [][3]string {
	sources := s.Facts.Manifest.Sources()
	below, wrong := manifest.Load(sources[0], sources[1:1+layer]...)
	above, wrong2 := manifest.Load(sources[0], sources[1:2+layer]...)
	var rows [][3]string
	if wrong != nil || wrong2 != nil { // an overlay that stands only together with a later one is told as it is written
		for _, c := range l.Changes {
			rows = append(rows, [3]string{c.Pointer, written(c.Before), written(c.After)})
		}
		return rows
	}
	for _, subject := range change.Subjects(below, above, s.System) {
		title := s.Words.Label(subject.Kind)
		if subject.Ref != "" {
			title = subject.Ref
		}
		if subject.State == change.Gone {
			rows = append(rows, [3]string{title, subject.Name, s.say("change.gone")})
			continue
		}
		for _, line := range subject.Lines {
			rows = append(rows, [3]string{title + ": " + s.Words.Label(line.What), line.Before, line.After})
		}
	}
	return rows
}

// written is a value of a manifest as it stands there; what is no text and no number is told in short.
func written(n *jsontree.Node) string {
	const most = 200
	switch {
	case n == nil:
		return ""
	case n.Kind == jsontree.String || n.Kind == jsontree.Number:
		return n.Text
	}
	text := []rune(string(n.JSON()))
	if len(text) > most {
		return string(text[:most-1]) + "…"
	}
	return string(text)
}
