package terminal

import (
	"fmt"
	"io"
	"math"
	"strings"

	"hoistbook/render/change"
	"hoistbook/rules"
)

// Compare prints two kits side by side: what changed, whether what was replaced still fits, what became of every margin with
// the worst first, what the crew reads otherwise, and the verdicts last.
func Compare(w io.Writer, c *change.Comparison, s Style) {
	for i, side := range []change.Side{c.Before, c.After} {
		word := [...]string{"from", "to"}[i]
		k := side.Manifest.Kit
		paragraph(w, fmt.Sprintf("%-5s", word), "     ", fmt.Sprintf("%s, revision %s, digest %s (%s)", k.Name, k.Revision, side.Manifest.ShortDigest(), side.Name))
		s.stale(w, side.Manifest.Layers())
	}
	if len(c.Subjects) == 0 {
		fmt.Fprintf(w, "\n  Both say the same.\n")
	}
	for _, subject := range c.Subjects {
		s.subject(w, subject)
	}
	for _, f := range c.Fits {
		s.fit(w, f)
	}
	if !c.OneKit() {
		fmt.Fprintf(w, "\n  These are two kits: no part is judged in the place of another.\n")
	} else if len(c.Subjects) > change.MostAlone {
		fmt.Fprintf(w, "\n  More than %d things changed: what each does alone is not shown.\n", change.MostAlone)
	}
	s.shifts(w, c)
	s.orders(w, c.Crew)
	s.verdicts(w, c)
}

// subject prints what was changed of one thing.
func (s Style) subject(w io.Writer, subject change.Subject) {
	title := subject.Kind
	if subject.Ref != "" {
		title = strings.TrimSuffix(subject.Ref+", "+subject.Name, ", ")
	}
	paragraph(w, "\n  ", "    ", s.paint(title, bold)+": "+string(subject.State))
	if subject.State == change.Gone {
		return
	}
	for _, l := range subject.Lines {
		text := said(l.Before) + " -> " + said(l.After)
		if subject.State == change.New {
			text = l.After
		}
		if l.Difference != "" {
			text += ", " + l.Difference
		}
		entryAt(w, 4, 26, l.What, text)
	}
}

func said(text string) string {
	if text == "" {
		return "not said"
	}
	return text
}

// entryAt prints a word and what is said of it, the latter in a column of its own.
func entryAt(w io.Writer, indent, columns int, word, text string) {
	lead := strings.Repeat(" ", indent)
	if width(word) >= columns {
		paragraph(w, lead, lead+"  ", word)
		paragraph(w, lead+strings.Repeat(" ", columns), lead+strings.Repeat(" ", columns), text)
		return
	}
	paragraph(w, lead+pad(word, columns, false), lead+strings.Repeat(" ", columns), text)
}

// fit prints whether a part still fits, way by way.
func (s Style) fit(w io.Writer, f change.Fit) {
	word, colour := "fits", green
	if !f.Holds() {
		word, colour = "does not fit", red
	}
	fmt.Fprintf(w, "\n  %s %s\n", s.paint("Does "+f.Subject.Ref+" fit?", bold), s.paint("It "+word+".", colour, bold))
	if !f.Alone {
		fmt.Fprintln(w, "    judged with all other changes: it cannot stand without them")
	}
	for _, a := range f.Aspects {
		tightest, touched := a.Tightest()
		switch {
		case !touched && a.Way == change.Other:
		case !touched:
			entryAt(w, 4, 15, string(a.Way), "no rule is touched")
		default:
			entryAt(w, 4, 15, string(a.Way), s.held(a, tightest))
		}
	}
	if len(f.Unsaid) > 0 {
		paragraph(w, "    ", "      ", "What "+strings.Join(f.Unsaid, " and ")+" says of levels was said of the part before: look it up for the new one.")
	}
}

// held says how one way is met, by its tightest rule.
func (s Style) held(a change.Aspect, tightest rules.Shift) string {
	f := tightest.After
	word := map[rules.Outcome]string{rules.Met: "holds", rules.NotMet: "does not hold", rules.NotShown: "is not shown"}[f.Outcome]
	text := word + ": " + subject(*f) + f.Title + ", "
	switch value, limit := s.valueAndLimit(*f); {
	case f.Outcome == rules.NotShown:
		text += f.Message
	case value == "":
		text = strings.TrimSuffix(text, ", ")
	default:
		text += value + " " + string(f.Relation) + " " + limit
		if was, _ := s.valueOf(tightest.Before); was != "" && was != value {
			text += " (was " + was + ")"
		}
	}
	if n := len(a.Touched); n > 1 {
		text += fmt.Sprintf("; %d rules touched", n)
	}
	return text + " " + s.rule(*f)
}

// rule names a rule behind what was said of it.
func (s Style) rule(f rules.Finding) string { return s.paint("["+f.Rule+"]", dim) }

func (s Style) valueOf(f *rules.Finding) (value, limit string) {
	if f == nil {
		return "", ""
	}
	return s.valueAndLimit(*f)
}

// valueAndLimit prints what was compared, or nothing where there was no comparison.
func (s Style) valueAndLimit(f rules.Finding) (value, limit string) {
	if f.Fact == "" || f.Relation == rules.Present || f.Relation == rules.Absent {
		return "", ""
	}
	return f.Pair(s.System)
}

// The columns of the table of margins.
const (
	ruleColumns  = 34
	wasColumns   = 11
	shareColumns = (Columns - 2 - ruleColumns - 2*(wasColumns+1) - 2) / 2
)

// shifts prints every finding that shifted, the worst first, with what each change alone does to it.
func (s Style) shifts(w io.Writer, c *change.Comparison) {
	same, first := 0, true
	for _, m := range c.Margins {
		if m.Kind() == rules.Same {
			same++
			continue
		}
		if first {
			fmt.Fprintf(w, "\n%s\n", s.paint("  "+pad("Margins, the worst change first", ruleColumns, false)+" "+pad("before", wasColumns, true)+" "+pad("after", wasColumns, true)+
				" "+pad("margin", shareColumns, true)+" "+pad("now", shareColumns, true), bold))
			first = false
		}
		s.shift(w, m)
	}
	if first {
		fmt.Fprintln(w, "\n  No margin changed.")
	} else {
		fmt.Fprintf(w, "  %d other findings are the same.\n", same)
	}
}

var kindWords = map[rules.Kind]string{
	rules.Broken: "no longer holds", rules.Gone: "no longer applies", rules.Begun: "applies now and is met", rules.Mended: "holds now",
}

func (s Style) shift(w io.Writer, m change.Margin) {
	now := *m.Now()
	was, _ := s.valueOf(m.Before)
	is, _ := s.valueOf(m.After)
	title := wrap(subject(now)+now.Title, ruleColumns)
	last := len(title) - 1
	colour := map[rules.Kind]ink{rules.Broken: red, rules.Mended: green}[m.Kind()]
	mark := func(text string) string {
		if colour == "" {
			return text
		}
		return s.paint(text, colour, bold)
	}
	for _, line := range title[:last] {
		fmt.Fprintln(w, "  "+mark(line))
	}
	line := "  " + mark(pad(title[last], ruleColumns, false)) + " " + pad(was, wasColumns, true) + " " + pad(is, wasColumns, true) +
		" " + pad(shareOf(m.Before), shareColumns, true) + " " + pad(shareOf(m.After), shareColumns, true)
	fmt.Fprintln(w, strings.TrimRight(line, " "))
	if word, ok := kindWords[m.Kind()]; ok {
		if m.Kind() == rules.Broken && m.After.Outcome == rules.NotShown {
			word = "is not shown: " + m.After.Message
		}
		paragraph(w, "    ", "    ", string(now.Level)+", "+word+" "+s.rule(now))
	} else if m.Kind() == rules.Changed {
		paragraph(w, "    ", "    ", now.Message+" "+s.rule(now))
	}
	if _, from := s.valueOf(m.Before); from != "" {
		if _, to := s.valueOf(m.After); to != "" && to != from {
			paragraph(w, "    ", "      ", "limit "+from+" -> "+to)
		}
	}
	if text := shares(m.Alone); text != "" {
		paragraph(w, "    ", "      ", text)
	}
}

func shareOf(f *rules.Finding) string {
	if f == nil {
		return ""
	}
	return share(*f)
}

// shares says what each change alone does, in points of the limit.
func shares(alone []change.Share) string {
	if len(alone) == 0 {
		return ""
	}
	texts := make([]string, len(alone))
	for i, a := range alone {
		points := 100 * a.Shift.Points()
		switch word, ok := kindWords[a.Shift.Kind()]; {
		case !math.IsNaN(points):
			texts[i] = fmt.Sprintf("%s %+.1f", a.Subject, points)
			if a.Shift.Kind() == rules.Broken {
				texts[i] += " and it fails"
			}
		case ok:
			texts[i] = a.Subject + " " + word
		default:
			texts[i] = a.Subject + " changes it"
		}
	}
	return "alone: " + strings.Join(texts, ", ")
}

// orders prints what the crew reads otherwise.
func (s Style) orders(w io.Writer, orders []change.Order) {
	if len(orders) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", s.paint("  The crew reads otherwise", bold))
	for _, o := range orders {
		switch {
		case o.Before == "":
			paragraph(w, "    ", "      ", o.List+", new: "+o.Text)
		case o.After == "":
			paragraph(w, "    ", "      ", o.List+", gone: "+o.Text)
		case o.Text == "":
			paragraph(w, "    ", "      ", o.List+": "+o.Before+" -> "+o.After)
		default:
			paragraph(w, "    ", "      ", o.List+": "+o.Text)
			paragraph(w, "      ", "        ", o.Before+" -> "+o.After)
		}
	}
}

func (s Style) verdicts(w io.Writer, c *change.Comparison) {
	colour := green
	if c.After.Verdict != rules.Go {
		colour = red
	}
	fmt.Fprintf(w, "\n%s -> %s\n", c.Before.Verdict, s.paint(string(c.After.Verdict), colour, bold))
	fmt.Fprintln(w, s.paint("Advice only: local law, the licence holder and the person in charge decide.", dim))
}
