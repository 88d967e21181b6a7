package doc

import (
	"fmt"
	"math"
	"strings"

	"hoistbook/kits/fact"
	"hoistbook/render/change"
	"hoistbook/render/page"
	"hoistbook/rules"
)

// ChangeSheetName is the name of the change sheet's file, without its extension.
const ChangeSheetName = "change-sheet"

// ChangeSheet sets what changed between two kits; the input is that of the second.
func ChangeSheet(in *Input, c *change.Comparison) (*page.Document, error) {
	title := in.Words.Say("change.title")
	s := newSheet(in, title)
	s.write(Document{Name: ChangeSheetName, title: "change.title", wide: true, write: func(s *sheet) { s.changeSheet(c) }})
	return s.finish(title)
}

func (s *sheet) changeSheet(c *change.Comparison) {
	var sides page.KeyValues
	for _, side := range []struct {
		id string
		change.Side
	}{{"change.from", c.Before}, {"change.to", c.After}} {
		k := side.Manifest.Kit
		sides = append(sides, page.KeyValue{Key: s.say(side.id), Value: page.Strong(k.Name).Then(page.Plain(" · "+s.say("running.revision", "revision", string(k.Revision))+" · "+side.Name+" · "),
			page.Code(side.Manifest.Digest()))})
	}
	s.add(sides)
	s.add(page.Space(2), s.turn(c))
	for _, l := range c.After.Manifest.Layers() {
		if len(l.Stale) == 0 {
			continue
		}
		panel := page.Panel{Signal: page.Caution, Word: strings.ToUpper(s.Words.Name("signal", string(rules.SignalCaution))), Text: []page.Words{page.Strong(s.say("change.stale", "overlay", l.Name))}}
		for _, p := range l.Stale {
			panel.Text = append(panel.Text, page.Plain(stale(p)))
		}
		s.add(panel)
	}
	s.heading(1, s.say("change.what"))
	if len(c.Subjects) == 0 {
		s.paragraph(s.say("change.nothing"))
	} else {
		s.add(s.changed(c.Subjects))
	}
	s.fitting(c.Fits)
	if !c.OneKit() {
		s.paragraph(s.say("change.two-kits"))
	}
	s.heading(1, s.say("change.margins"))
	s.paragraph(s.say("change.margins-about"))
	s.add(s.shifted(c))
	if len(c.Crew) > 0 {
		s.heading(1, s.say("change.crew"))
		s.add(s.readOtherwise(c.Crew))
	}
	s.add(page.Space(4), s.signatures("sign.read", "sign.checker"))
}

// turn is the verdict before and after.
func (s *sheet) turn(c *change.Comparison) page.Figure {
	word := map[rules.Decision]string{rules.Go: s.say("verdict.go"), rules.NoGo: s.say("verdict.no-go")}
	count := map[rules.Kind]int{}
	for _, m := range c.Margins {
		count[m.Kind()]++
	}
	text := s.Words.Count("change.broken", count[rules.Broken]) + " " + s.Words.Count("change.thinner", count[rules.Thinner]) + " " +
		s.Words.Count("change.better", count[rules.Wider]+count[rules.Mended])
	return s.sign(word[c.Before.Verdict]+" → "+word[c.After.Verdict], text, c.After.Verdict != rules.Go)
}

var stateWords = map[change.State]string{change.New: "change.new", change.Gone: "change.gone", change.Replaced: "change.replaced", change.Altered: "change.altered"}

// changed lists what is said otherwise, thing by thing.
func (s *sheet) changed(subjects []change.Subject) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("change.thing"), Weight: 1}, {Title: s.say("change.before"), Weight: 1}, {Title: s.say("change.after"), Weight: 1}, {Title: s.say("change.difference"), Align: page.Right}}}
	for _, subject := range subjects {
		title := s.Words.Label(subject.Kind)
		if subject.Ref != "" {
			title = strings.TrimSuffix(subject.Ref+", "+subject.Name, ", ")
		}
		t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(title + ": " + s.say(stateWords[subject.State])), Span: len(t.Columns)}}})
		if subject.State == change.Gone {
			continue
		}
		for _, l := range subject.Lines {
			t.Rows = append(t.Rows, page.Row{Cells: page.Cells(s.Words.Label(l.What), s.orDash(l.Before), s.orDash(l.After), s.Words.Number(l.Difference))})
		}
	}
	return t
}

func (s *sheet) orDash(text string) string {
	if text == "" {
		return "–"
	}
	return s.Words.Number(text)
}

var wayWords = map[change.Way]string{
	change.Voltage: "way.voltage", change.Current: "way.current", change.Endurance: "way.endurance", change.Level: "way.level", change.Weight: "way.mass",
	change.Reach: "way.reach", change.Isolation: "way.isolation", change.Price: "way.price", change.Other: "way.else",
}

// fitting judges the parts that were replaced or added.
func (s *sheet) fitting(fits []change.Fit) {
	for _, f := range fits {
		answer := s.say("change.fits", "part", f.Subject.Ref)
		if !f.Holds() {
			answer = s.say("change.fits-not", "part", f.Subject.Ref)
		}
		s.heading(1, answer)
		if !f.Alone {
			s.paragraph(s.say("change.together"))
		}
		if len(f.Unsaid) > 0 {
			s.paragraph(s.say("change.unsaid", "lines", strings.Join(f.Unsaid, ", ")))
		}
		t := page.Table{Columns: []page.Column{{Title: s.say("change.way")}, {Title: s.say("finding.outcome"), Whole: true}, {Title: s.say("change.tightest"), Weight: 1},
			{Title: s.say("finding.value"), Align: page.Right, Whole: true}, {Title: s.say("finding.limit"), Align: page.Right, Whole: true}, {Title: s.say("change.was"), Align: page.Right, Whole: true},
			{Title: s.say("change.touched"), Align: page.Right, Least: 16}}}
		for _, a := range f.Aspects {
			tightest, touched := a.Tightest()
			if !touched {
				t.Rows = append(t.Rows, page.Row{Cells: page.Cells(s.say(wayWords[a.Way]), s.say("change.untouched"), "", "", "", "", "0")})
				continue
			}
			value, limit := s.compared(tightest.After)
			was, _ := s.compared(tightest.Before)
			row := page.Row{Cells: page.Cells(s.say(wayWords[a.Way]), "", s.name(*tightest.After), value, limit, was, digits(len(a.Touched)))}
			row.Cells[1].Words = s.outcome(*tightest.After)
			t.Rows = append(t.Rows, row)
		}
		s.add(t)
	}
}

// outcome names what became of a rule, in bold where it does not hold.
func (s *sheet) outcome(f rules.Finding) page.Words {
	text := s.Words.Name("outcome", f.Outcome.String())
	if f.Outcome != rules.Met {
		return page.Strong(text)
	}
	return page.Plain(text)
}

// compared prints what a finding compared, and with what; nothing where there was no comparison.
func (s *sheet) compared(f *rules.Finding) (value, limit string) {
	switch {
	case f == nil || f.Fact == "" || f.Relation == rules.Present || f.Relation == rules.Absent:
		return "", ""
	case f.Measure.Kind == fact.Number && f.Limit.Kind == fact.Number && f.Measure.Known() && f.Limit.Known():
		value, limit = f.Pair(s.System)
		return s.Words.Number(value), s.Words.Number(limit)
	}
	return s.value(f.Measure), s.value(f.Limit)
}

// shifted lists the findings that are not the same, the worst first, with what each change does alone.
func (s *sheet) shifted(c *change.Comparison) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("finding.what"), Weight: 1.6}, {Title: s.say("finding.outcome"), Whole: true}, {Title: s.say("change.before"), Align: page.Right, Whole: true},
		{Title: s.say("change.after"), Align: page.Right, Whole: true}, {Title: s.say("finding.limit"), Align: page.Right, Whole: true}, {Title: s.say("change.margin-before"), Align: page.Right, Whole: true},
		{Title: s.say("change.margin-after"), Align: page.Right, Whole: true}, {Title: s.say("change.alone"), Weight: 1}}}
	same := 0
	for _, m := range c.Margins {
		if m.Kind() == rules.Same {
			same++
			continue
		}
		was, _ := s.compared(m.Before)
		is, limit := s.compared(m.After)
		row := page.Row{Cells: page.Cells(s.name(*m.Now()), "", was, is, limit, s.percent(m.Before), s.percent(m.After), s.alone(m.Alone))}
		row.Cells[1].Words = s.outcome(*m.Now())
		if m.Kind() == rules.Broken {
			row.Cells[0].Words = page.Strong(s.name(*m.Now()))
		}
		if m.After == nil {
			row.Cells[1].Words = page.Plain(s.say("change.gone"))
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows = append(t.Rows, page.Row{Kind: page.Subtotal, Cells: []page.Cell{{Words: page.Plain(s.Words.Count("change.same", same)), Span: len(t.Columns)}}})
	return t
}

// percent prints a margin as a part of its limit, rounded down.
func (s *sheet) percent(f *rules.Finding) string {
	if f == nil || math.IsNaN(f.Share) {
		return ""
	}
	if percent := 100 * f.Share; math.Abs(percent) >= 10 {
		return fmt.Sprintf("%+.0f %%", math.Floor(percent))
	}
	return s.Words.Number(fmt.Sprintf("%+.1f %%", math.Floor(1000*f.Share)/10))
}

// alone says what each change does by itself, in points of the limit.
func (s *sheet) alone(shares []change.Share) string {
	var texts []string
	for _, a := range shares {
		text := a.Subject
		if points := 100 * a.Shift.Points(); !math.IsNaN(points) {
			text += " " + s.Words.Number(fmt.Sprintf("%+.1f", points))
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, "; ")
}

// readOtherwise lists what the crew reads otherwise.
func (s *sheet) readOtherwise(orders []change.Order) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("change.list"), Whole: true}, {Title: s.say("change.item"), Weight: 1}, {Title: s.say("change.before"), Weight: 1}, {Title: s.say("change.after"), Weight: 1}}}
	for _, o := range orders {
		list := s.Words.Name("list", o.List)
		if o.List == "cautions" {
			list = s.say("cautions.title")
		}
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(list, o.Text, s.orDash(o.Before), s.orDash(o.After))})
	}
	return t
}
