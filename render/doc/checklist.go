package doc

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"hoistbook/kits/unit"
	"hoistbook/render/page"
	"hoistbook/rules"
)

// checklist sets a list phase by phase, each with the cautions that are read before it. Before the phase of the item with the id pause
// stands what pause sets.
func (s *sheet) checklist(list, how string, steps []rules.Step, before string, pause func()) {
	s.paragraph(how)
	s.warn(s.warnings(list))
	number := "%d"
	if len(steps) > 9 {
		number = "%02d" // all of one width, so that the boxes stand in a line
	}
	pausing := ""
	if i := slices.IndexFunc(steps, func(step rules.Step) bool { return step.ID == before }); i >= 0 {
		pausing = steps[i].Phase
	}
	phase := ""
	for i, step := range steps {
		if step.Phase == pausing && phase != pausing && pause != nil {
			pause()
			pause = nil
		}
		var group page.Together // the last warning of a phase stays with its first item
		if step.Phase != phase || i == 0 {
			phase = step.Phase
			s.heading(1, phase)
			panels := s.warnings(list + "/" + phase)
			last := max(len(panels)-1, 0)
			s.warn(panels[:last])
			for _, p := range panels[last:] {
				group = append(group, p)
			}
		}
		group = append(group, page.Checklist{s.row(step, fmt.Sprintf(number, i+1), s.field(step.ID, step.Subject))})
		if step.Hold {
			group = append(group, s.bar(s.say("checklist.go-on"), s.field(step.ID, step.Subject, "hold")))
		}
		s.add(group)
	}
	if len(steps) == 0 {
		s.paragraph(s.say("checklist.empty"))
	}
	if pause != nil {
		pause() // no pack in force has that item
	}
}

// row sets a step: what is critical in bold, who answers and how below it.
func (s *sheet) row(step rules.Step, number, field string) page.CheckRow {
	row := page.CheckRow{Number: number, Challenge: page.Plain(step.Challenge), Response: page.Plain(step.Response), Name: field, Critical: step.Critical}
	// Who answers stands beside what is read, or else below.
	who, notes := step.Role, page.Plain(step.Notes)
	if step.Reading != nil {
		row.Reading = &page.Reading{Label: s.say("checklist.reads", "who", who, "what", step.Reading.Name), Unit: s.readIn(*step.Reading)}
	} else {
		notes = page.Plain(who)
		if step.Notes != "" {
			notes = notes.Then(page.Plain(" · " + step.Notes))
		}
	}
	if !notes.Empty() {
		row.Notes = []page.Words{notes}
	}
	return row
}

// readIn is the unit for a reading: that of its limit, so that the two can be compared at a glance.
func (s *sheet) readIn(g rules.Gauge) string {
	for _, limit := range []unit.Quantity{g.Least.Quantity, g.Most.Quantity, g.High} {
		if limit.Dim == g.Dim && limit.SI == limit.SI && limit != (unit.Quantity{Dim: g.Dim}) {
			return limit.Unit(s.System)
		}
	}
	return g.High.Unit(s.System)
}

// bar is a hold point: everybody waits until somebody has put a tick and initials here.
func (s *sheet) bar(goOn, field string) page.Figure {
	const pad, box, write = page.MM(3), page.MM(5.2), page.MM(30)
	d := s.drawing(s.flow.Frame().W, 0)
	stop, text := label{face: page.Bold, size: 14, ink: page.White}, label{face: page.Bold, size: 11.5}
	left := s.Fonts.Width(stop.face, stop.size, s.say("checklist.hold")) + 2*pad
	room := d.w - left - write - box - 4*pad
	d.h = max(11, d.height(goOn, text, room)+3)
	middle := func(h page.MM) page.MM { return (d.h - h) / 2 }
	d.add(page.Rect{Box: page.Box{X: thick / 2, Y: thick / 2, W: d.w - thick, H: d.h - thick}, Stroke: page.Stroke{Width: thick}})
	d.add(page.Rect{Box: page.Box{W: left, H: d.h}, Fill: page.Black})
	d.put(s.say("checklist.hold"), stop, pad, middle(d.height(s.say("checklist.hold"), stop, left)), left)
	d.put(goOn, text, left+pad, middle(d.height(goOn, text, room)), room)
	d.add(page.TickBox{X: left + 2*pad + room, Y: middle(box), Size: box, Name: field, Label: goOn})
	d.add(page.Field{Box: page.Box{X: d.w - write - pad, Y: middle(6), W: write, H: 6}, Name: field + "/initials", Label: s.say("checklist.initials"), Size: 11})
	return d.figure("")
}

// warnings are the cautions that belong before a place in a list. Those under one signal word share a panel: the fewer frames,
// the more each is read.
func (s *sheet) warnings(place string) []page.Panel {
	var panels []page.Panel
	var open *page.Panel
	var signal rules.Signal
	shut := func() {
		if open != nil {
			panels = append(panels, *open)
		}
	}
	for _, a := range s.Cautions {
		if !a.Precedes(place) {
			continue
		}
		text := page.Strong(sentence(a.Hazard)).Then(page.Plain(" " + sentence(a.Consequence) + " " + sentence(a.Avoidance)))
		if open != nil && a.Signal == signal {
			open.Text = append(open.Text, text)
			continue
		}
		shut()
		panel := s.panel(a, text)
		open, signal = &panel, a.Signal
	}
	shut()
	return panels
}

// warn adds panels. One that has no room on the page begins there all the same, if some of its cautions have, and goes on overleaf
// under its signal word.
func (s *sheet) warn(panels []page.Panel) {
	for _, p := range panels {
		first := p
		for first.Text = p.Text; len(first.Text) > 1 && !s.flow.Fits(first); {
			first.Text = first.Text[:len(first.Text)-1]
		}
		if n := len(first.Text); n < len(p.Text) && s.flow.Fits(first) {
			s.add(first)
			p.Text = p.Text[n:]
		}
		s.add(p)
	}
}

// sentence begins a text with a capital and ends it with a full stop, as a panel has whole sentences.
func sentence(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	text = string(unicode.ToUpper(first)) + text[size:]
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "!") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

var signals = map[rules.Signal]page.Signal{
	rules.SignalDanger: page.Danger, rules.SignalWarning: page.Warning, rules.SignalCaution: page.Caution, rules.SignalNotice: page.Notice,
}

// panel frames a caution under its signal word. One that the table does not know is a danger: it must not look harmless.
func (s *sheet) panel(a rules.Alert, text ...page.Words) page.Panel {
	return page.Panel{Signal: signals[a.Signal], Word: strings.ToUpper(s.Words.Name("signal", string(a.Signal))), Text: text}
}
