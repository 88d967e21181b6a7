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
	var meanings page.KeyValues
	for _, signal := range []rules.Signal{rules.SignalDanger, rules.SignalWarning, rules.SignalCaution, rules.SignalNotice} {
		meanings = append(meanings, page.KeyValue{Key: strings.ToUpper(s.Words.Name("signal", string(signal))), Value: page.Plain(s.Words.Name("signal-meaning", string(signal)))})
	}
	s.add(meanings)
	var refs references
	for _, a := range s.Cautions {
		panel := s.panel(a, page.Strong(sentence(a.Hazard)).Then(page.Plain(" "+sentence(a.Consequence)+" "+sentence(a.Avoidance))))
		if whence := s.whence(a, &refs); whence != "" {
			panel.Blocks = []page.Block{page.Paragraph{Text: page.Plain(whence), Fine: true}}
		}
		s.add(panel)
	}
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
			name += ": " + phase
		}
		places = append(places, name)
	}
	text := ""
	if len(places) > 0 {
		text = s.say("cautions.before", "places", strings.Join(places, "; "))
	}
	return strings.TrimSpace(text + " " + refs.cite(a.Source))
}
