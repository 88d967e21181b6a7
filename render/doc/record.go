package doc

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"hoistbook/render/page"
	"hoistbook/render/walk"
)

// RecordName is the name of the record's file, without its extension.
const RecordName = "record"

// Record sets the record of a walk-through: who, what, when, readings, verdicts, what was overruled, times up and down, what
// came back. It judges nothing: the verdicts are those that the record says were given.
func Record(in *Input, r *walk.Record, story *walk.Story) (*page.Document, error) {
	title := in.Words.Say("record.title")
	s := newSheet(in, title)
	s.write(Document{Name: RecordName, title: "record.title", write: func(s *sheet) { s.record(r, story) }})
	return s.finish(title)
}

func (s *sheet) record(r *walk.Record, story *walk.Story) {
	first, last := r.Entries[0], r.Entries[len(r.Entries)-1]
	if n := len(story.Flights) - 1; n >= 0 && story.Flights[n].Decided != nil {
		s.add(s.launched(story.Flights[n].Decided), page.Space(2))
	}
	s.add(s.recordVerdict(r), page.Space(2))
	if len(story.Open) > 0 {
		s.paragraph(s.say("record.aloft-open", "what", strings.Join(story.Open, "; ")))
	}
	s.add(page.KeyValues{
		{Key: s.say("record.began"), Value: page.Plain(stamp(first.At))}, {Key: s.say("record.ended"), Value: page.Plain(stamp(last.At))},
		{Key: s.say("record.program"), Value: page.Plain(first.Opening.Program)},
		{Key: s.say("record.check"), Value: page.Code(r.Chain.String())},
	})
	if back := setBack(r.Entries); back > 0 {
		s.paragraph(s.Words.Count("record.set-back", back))
	}
	s.recordCrew(story)
	s.flights(story)
	s.verdicts(r.Entries)
	s.overrulings(r.Entries)
	s.readings(r.Entries)
	s.backIn(story)
	s.heading(1, s.say("record.lines"))
	s.add(s.everyLine(r.Entries))
	s.add(page.Space(4), s.signatures("record.in-charge", "record.kept"))
}

// launched is what was decided before the last launch, as a bar: what was still to be checked aloft does not change it.
func (s *sheet) launched(d *walk.Decision) page.Figure {
	return s.sign(s.verdictWord(d.Verdict), s.say("record.decided", "time", stamp(d.At), "who", d.Who, "n", digits(d.N)), d.Verdict != walk.GO)
}

// recordVerdict is the last verdict as a bar, and whether the record is whole.
func (s *sheet) recordVerdict(r *walk.Record) page.Figure {
	last := r.Entries[len(r.Entries)-1]
	text := s.say("record.open", "n", digits(last.N))
	if r.Closed() {
		text = s.say("record.closed", "n", digits(last.N), "time", stamp(last.At))
		if last.Text != "" {
			text = strings.TrimSuffix(text, ".") + ": " + last.Text
		}
	}
	if r.Torn > 0 {
		text += " " + s.say("record.torn")
	}
	return s.sign(s.verdictWord(last.Verdict), text, !slices.Contains([]walk.Verdict{walk.GO, walk.ToCheck, walk.Complete}, last.Verdict))
}

func (s *sheet) verdictWord(v walk.Verdict) string { return s.Words.Name("walk-verdict", string(v)) }

// stamp prints a time as the record has it: the day, the hour, and how far it is from universal time (ISO 8601).
func stamp(t time.Time) string { return t.Format("2006-01-02 15:04:05 -07:00") }

func hour(t time.Time) string {
	if t.IsZero() {
		return "–"
	}
	return t.Format("15:04:05")
}

// setBack counts how often the clock went backwards: times on both sides of it tell no length.
func setBack(entries []walk.Entry) int {
	n := 0
	for i := 1; i < len(entries); i++ {
		if entries[i].At.Before(entries[i-1].At) {
			n++
		}
	}
	return n
}

func (s *sheet) recordCrew(story *walk.Story) {
	s.heading(1, s.say("record.crew"))
	t := page.Table{Columns: []page.Column{{Title: s.say("record.name"), Weight: 1}, {Title: s.say("record.role"), Weight: 1}}}
	for _, m := range story.Crew {
		role := m.Role
		if m.Lead {
			role = strings.TrimPrefix(role+", "+s.say("record.in-charge"), ", ")
		}
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(m.Name, role)})
	}
	s.addOr(t, "record.no-crew")
}

// addOr adds a table, or says that there is nothing to put into one.
func (s *sheet) addOr(t page.Table, empty string) {
	if len(t.Rows) == 0 {
		s.paragraph(s.say(empty))
		return
	}
	s.add(t)
}

// flights are the times up and down, and what they add up to.
func (s *sheet) flights(story *walk.Story) {
	s.heading(1, s.say("record.flights"))
	t := page.Table{Columns: []page.Column{{Title: s.say("record.up"), Weight: 1}, {Title: s.say("record.down"), Weight: 1}, {Title: s.say("record.time"), Align: page.Right}, {Title: s.say("record.decision"), Weight: 1}}}
	for _, f := range story.Flights {
		down, span := s.say("record.still-up"), "–"
		if !f.Down.IsZero() {
			down = stamp(f.Down)
			if f.Down.After(f.Up) {
				span = walk.Span(f.Down.Sub(f.Up))
			}
		}
		decision := "–"
		if d := f.Decided; d != nil {
			decision = s.verdictWord(d.Verdict) + " " + hour(d.At) + ", " + d.Who
		}
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(stamp(f.Up), down, span, decision)})
	}
	s.addOr(t, "record.no-flight")
	hours := page.Table{Columns: []page.Column{{Title: s.say("bill.ref"), Whole: true}, {Title: s.say("record.set")}, {Title: s.say("record.flown"), Align: page.Right}, {Title: s.say("record.times"), Align: page.Right}}}
	for _, h := range story.Hours() {
		hours.Rows = append(hours.Rows, page.Row{Cells: page.Cells(h.Part, h.Label, walk.Span(h.Time), digits(h.Times))})
	}
	if len(hours.Rows) > 0 {
		s.add(page.Space(2), hours)
	}
}

// verdicts are the moments at which the verdict changed, and what stood against it then.
func (s *sheet) verdicts(entries []walk.Entry) {
	s.heading(1, s.say("record.verdicts"))
	t := page.Table{Columns: []page.Column{{Title: s.say("record.at"), Whole: true}, {Title: s.say("record.line"), Align: page.Right}, {Title: s.say("record.verdict"), Whole: true}, {Title: s.say("record.because"), Weight: 1}}}
	var said walk.Verdict
	for _, e := range entries {
		if e.Verdict == said && e.Because == nil {
			continue
		}
		said = e.Verdict
		because := page.Plain("")
		for i, b := range e.Because {
			if i > 0 {
				because = because.Then(page.Plain(" · "))
			}
			because = because.Then(page.Plain(b))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Plain(hour(e.At))}, {Words: page.Plain(digits(e.N))}, {Words: page.Strong(s.verdictWord(e.Verdict))}, {Words: because}}})
	}
	s.add(t)
}

func (s *sheet) overrulings(entries []walk.Entry) {
	s.heading(1, s.say("record.overruled"))
	t := page.Table{Columns: []page.Column{{Title: s.say("record.at"), Whole: true}, {Title: s.say("record.what"), Weight: 1}, {Title: s.say("record.by")}, {Title: s.say("record.reason"), Weight: 1}}}
	for _, e := range entries {
		switch e.Do {
		case walk.Overrule:
			t.Rows = append(t.Rows, page.Row{Cells: page.Cells(hour(e.At), e.Challenge+": "+e.Response, e.Who, e.Text)})
		case walk.Withdraw:
			t.Rows = append(t.Rows, page.Row{Cells: page.Cells(hour(e.At), e.Rule+e.Item, e.Who, s.Words.Name("deed", string(e.Do)))})
		}
	}
	s.addOr(t, "record.none-overruled")
}

// readings are what instruments and scales showed.
func (s *sheet) readings(entries []walk.Entry) {
	s.heading(1, s.say("record.readings"))
	t := page.Table{Columns: []page.Column{
		{Title: s.say("record.at"), Whole: true}, {Title: s.say("record.what"), Weight: 1}, {Title: s.say("record.asked"), Weight: 1},
		{Title: s.say("record.read"), Align: page.Right, Whole: true}, {Title: s.say("record.outcome"), Whole: true}, {Title: s.say("record.by"), Whole: true},
	}}
	for _, e := range entries {
		if e.Value == "" {
			continue
		}
		value := s.Words.Number(e.Value)
		if e.Label != "" {
			value += " (" + s.say("record.set") + " " + e.Label + ")"
		}
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(hour(e.At), e.Challenge, e.Response, value, s.Words.Name("outcome", e.Outcome), e.Who)})
	}
	s.addOr(t, "record.no-readings")
}

// backIn is what came back, what is lost, and what is to be mended or replaced.
func (s *sheet) backIn(story *walk.Story) {
	stock := story.Stock()
	if story.List != walk.Recovery && len(stock) == 0 {
		return
	}
	s.heading(1, s.say("record.back-in"))
	t := page.Table{Columns: []page.Column{
		{Title: s.say("bill.ref"), Whole: true}, {Title: s.say("bill.part"), Weight: 1}, {Title: s.say("recovery.out"), Align: page.Right}, {Title: s.say("record.back"), Align: page.Right},
		{Title: s.say("record.lost"), Align: page.Right}, {Title: s.say("record.mend"), Align: page.Right}, {Title: s.say("record.replace"), Align: page.Right},
	}}
	parts := map[string]string{}
	for ref, p := range story.Manifest.Parts {
		parts[string(ref)] = p.Name
	}
	none := func(n int) string {
		if n == 0 {
			return "–"
		}
		return strconv.Itoa(n)
	}
	for _, one := range stock {
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(one.Part, parts[one.Part], digits(one.Out), digits(one.Back), none(one.Lost), none(one.Mend), none(one.Replace))})
	}
	s.addOr(t, "record.not-counted")
	for _, d := range story.Damage {
		s.paragraph(s.say("record.damage", "part", d.Part, "n", digits(d.Pieces), "fate", s.say("record."+d.Fate), "what", d.What))
	}
}

// everyLine is the whole record, line by line; the verdict stands where it changed.
func (s *sheet) everyLine(entries []walk.Entry) page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("record.line"), Align: page.Right}, {Title: s.say("record.at"), Whole: true}, {Title: s.say("record.by"), Whole: true},
		{Title: s.say("record.deed"), Whole: true}, {Title: s.say("record.what"), Weight: 1}, {Title: s.say("record.verdict"), Whole: true},
	}}
	var said walk.Verdict
	for _, e := range entries {
		word := ""
		if e.Verdict != said {
			word = s.verdictWord(e.Verdict)
		}
		said = e.Verdict
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(digits(e.N), hour(e.At), e.Who, s.Words.Name("deed", string(e.Do)), e.About(), word)})
	}
	return t
}
