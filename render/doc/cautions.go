package doc

import (
	"strings"

	"hoistbook/render/page"
	"hoistbook/rules"
)

var cautions = Document{Name: "cautions", title: "cautions.title", write: (*sheet).cautions}

// cautions are all that can hurt somebody, the gravest first, after what the signal words mean.
func (s *sheet) cautions() {
	s.paragraph(s.say("cautions.about"))
	var meanings []page.Block
	for _, signal := range []rules.Signal{rules.SignalDanger, rules.SignalWarning, rules.SignalCaution, rules.SignalNotice} {
		word := strings.ToUpper(s.Words.Name("signal", string(signal)))
		meanings = append(meanings, page.Paragraph{Text: page.Strong(word + " ").Then(page.Plain(s.Words.Name("signal-meaning", string(signal))))})
	}
	s.add(page.Beside{Blocks: [][]page.Block{meanings[:2], meanings[2:]}})
	var refs references
	s.warn(s.panels(func(rules.Alert) bool { return true }, func(a rules.Alert) string { return s.whence(a, &refs) }))
	if len(s.Cautions) == 0 {
		s.paragraph(s.say("cautions.none"))
	}
	s.references(&refs)
}

// whence says when a caution is read and on whose authority.
func (s *sheet) whence(a rules.Alert, refs *references) string {
	var places []string
	for _, place := range a.Before {
		list, phase, _ := strings.Cut(place, "/")
		name := s.Words.Name("list", list)
		if phase != "" {
			name += ": " + s.Words.Name("phase", phase)
		}
		places = append(places, name)
	}
	text := ""
	if len(places) > 0 {
		text = s.say("cautions.before", "places", strings.Join(places, "; "))
	}
	return strings.TrimSpace(text + " " + refs.cite(a.Source))
}
