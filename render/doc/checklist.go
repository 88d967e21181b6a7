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
	phase, who, note := "", "", ""
	for i, step := range steps {
		if step.Phase == pausing && phase != pausing && pause != nil {
			pause()
			pause = nil
		}
		var group page.Together // the last warning of a phase stays with its first item
		if step.Phase != phase || i == 0 {
			phase, who, note = step.Phase, answerer(steps[i:]), ""
			s.add(page.Heading{Level: 1, Text: s.Words.Name("phase", phase), Aside: who})
			panels := s.warnings(list + "/" + phase)
			last := max(len(panels)-1, 0)
			s.warn(panels[:last])
			for _, p := range panels[last:] {
				group = append(group, p)
			}
		}
		group = append(group, page.Checklist{s.row(step, fmt.Sprintf(number, i+1), who, note)})
		note = step.Notes
		if step.Hold {
			goOn := "checklist.go-on"
			if i == len(steps)-1 {
				goOn = "checklist.end"
			}
			last := &group[len(group)-1]
			*last = page.Together{*last, s.bar(s.say(goOn), s.field(step.ID, step.Subject, "hold"))}
		}
		s.add(page.Under{Head: page.Heading{Level: 2, Text: s.Words.Name("phase", phase), Aside: who, Silent: true}, Blocks: group})
	}
	if len(steps) == 0 {
		s.paragraph(s.say("checklist.empty"))
	}
	if pause != nil {
		pause() // no pack in force has that item
	}
}

// answerer is who answers most items of the phase that begins here: named once beside its heading, and below an item only where
// it is somebody else.
func answerer(steps []rules.Step) string {
	counts, most := map[string]int{}, ""
	for _, step := range steps {
		if step.Phase != steps[0].Phase {
			break
		}
		counts[step.Role]++
	}
	for _, step := range steps {
		if counts[step.Role] > counts[most] {
			most = step.Role
		}
	}
	return most
}

// row sets a step: what is critical in bold; below it what is read, who answers if that is not whom the heading names, and what to
// know, unless the item above has just said it.
func (s *sheet) row(step rules.Step, number, who, said string) page.CheckRow {
	row := page.CheckRow{Number: number, Challenge: page.Plain(step.Challenge), Response: page.Plain(step.Response), Name: s.field(step.ID, step.Subject), Critical: step.Critical}
	var notes []string
	if step.Reading != nil {
		label := step.Reading.Name
		if step.Role != who {
			label = s.say("checklist.reads", "who", step.Role, "what", label)
		}
		row.Reading = &page.Reading{Label: label, Unit: s.readIn(*step.Reading)}
	} else if step.Role != who {
		notes = append(notes, step.Role)
	}
	if step.Reading != nil {
		notes = append(notes, s.expected(*step.Reading)...)
	}
	if step.Beyond != "" {
		notes = append(notes, step.Beyond)
	}
	if step.Notes != "" && step.Notes != said {
		notes = append(notes, step.Notes)
	}
	if text := page.Plain(strings.Join(notes, " · ")); !text.Empty() {
		row.Notes = []page.Words{text}
	}
	return row
}

// expected says what a reading should be that its limits do not ask for.
func (s *sheet) expected(g rules.Gauge) []string {
	var all []string
	least, most := g.Hopes(s.System)
	for _, e := range []struct {
		relation rules.Relation
		limit    string
	}{{rules.AtLeast, least}, {rules.AtMost, most}} {
		if e.limit != "" {
			all = append(all, s.say("finding.relation", "relation", s.Words.Name("relation", string(e.relation)), "limit", s.Words.Number(e.limit)))
		}
	}
	if len(all) == 0 {
		return nil
	}
	return []string{s.say("checklist.expected", "what", strings.Join(all, ", "))}
}

// readIn is the unit for a reading: that of its limit, so that the two can be compared at a glance.
func (s *sheet) readIn(g rules.Gauge) string {
	return unit.Written(g.In(s.System))
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

// warnings are the cautions that belong before a place in a list.
func (s *sheet) warnings(place string) []page.Panel {
	return s.panels(func(a rules.Alert) bool { return a.Precedes(place) }, nil)
}

// panels frames cautions, those under one signal word together: the fewer frames, the more each is read. What fine says of
// each stands below it.
func (s *sheet) panels(which func(rules.Alert) bool, fine func(rules.Alert) string) []page.Panel {
	var panels []page.Panel
	var signal rules.Signal
	for _, a := range s.Cautions {
		if !which(a) {
			continue
		}
		if len(panels) == 0 || a.Signal != signal {
			panels = append(panels, s.panel(a))
		}
		open := &panels[len(panels)-1]
		open.Text = append(open.Text, page.Strong(sentence(a.Hazard)).Then(page.Plain(" "+sentence(a.Consequence)+" "+sentence(a.Avoidance))))
		if fine != nil {
			open.Fine = append(open.Fine, page.Plain(fine(a)))
		}
		signal = a.Signal
	}
	return panels
}

// warn adds panels. One that has no room on the page begins there all the same, if some of its cautions have, and goes on overleaf
// under its signal word.
func (s *sheet) warn(panels []page.Panel) {
	for _, p := range panels {
		p.Parts = true
		s.add(p)
	}
}

// sentence begins a text with a capital and ends it with a full stop, as a panel has whole sentences.
func sentence(text string) string {
	if text == "" {
		return text
	}
	if word, _, _ := strings.Cut(text, " "); !strings.ContainsAny(word, "._/") { // the id of a fact stays as it is
		text = capital(text)
	}
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "!") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// capital begins a text with a capital.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

var signals = map[rules.Signal]page.Signal{
	rules.SignalDanger: page.Danger, rules.SignalWarning: page.Warning, rules.SignalCaution: page.Caution, rules.SignalNotice: page.Notice,
}

// panel frames a caution under its signal word. One that the table does not know is a danger: it must not look harmless.
func (s *sheet) panel(a rules.Alert) page.Panel {
	return page.Panel{Signal: signals[a.Signal], Word: strings.ToUpper(s.Words.Name("signal", string(a.Signal)))}
}
