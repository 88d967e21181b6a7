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
	for _, a := range s.Cautions {
		s.add(page.Together{s.panel(a, page.Strong(sentence(a.Hazard)), page.Plain(sentence(a.Consequence)), page.Plain(sentence(a.Avoidance))), s.whence(a)})
	}
	if len(s.Cautions) == 0 {
		s.paragraph(s.say("cautions.none"))
	}
}

// whence says when a caution is read and on whose authority.
func (s *sheet) whence(a rules.Alert) page.Paragraph {
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
	if len(a.Source) > 0 {
		text = strings.TrimSpace(text + " " + s.say("cautions.source", "sources", strings.Join(a.Source, "; ")))
	}
	return page.Paragraph{Text: page.Plain(text), Fine: true}
}
