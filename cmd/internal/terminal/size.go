package terminal

import (
	"fmt"
	"io"
	"math"
	"strings"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/size"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// Size prints how far a kit can be changed: the limits with what binds them, the line with the most coverage, the tables, and
// what matters most for the thinnest margin.
func Size(w io.Writer, a *assess.Assessment, r *size.Report, s Style) {
	k := a.Manifest.Kit
	fmt.Fprintf(w, "%s  revision %s  digest %s\n", s.paint(k.Name, bold), k.Revision, a.Manifest.ShortDigest())
	s.limits(w, r.Limits)
	s.height(w, r.Height)
	for _, t := range r.Tables {
		s.table(w, t)
	}
	s.sensitivity(w, r.Sensitivity)
	colour := green
	if r.Verdict != rules.Go {
		colour = red
	}
	fmt.Fprintf(w, "\n%s  as designed\n", s.paint(string(r.Verdict), colour, bold))
	fmt.Fprintln(w, s.paint("Advice only: local law, the licence holder and the person in charge decide.", dim))
}

// The columns of limits: what, now, the last value that is GO, the first that is not.
const (
	limitNumber = 13
	limitWhat   = Columns - 2 - 3*limitNumber
)

func (s Style) limits(w io.Writer, limits []size.Limit) {
	fmt.Fprintf(w, "\n%s\n", s.paint(pad("  One thing changed at a time", 2+limitWhat, false)+pad("now", limitNumber, true)+pad("GO to", limitNumber, true)+pad("NO-GO from", limitNumber, true), bold))
	for _, l := range limits {
		fmt.Fprintln(w, "  "+pad(l.What, limitWhat, false)+pad(known(l.Now), limitNumber, true)+pad(known(l.Go), limitNumber, true)+pad(known(l.NoGo), limitNumber, true))
		if l.Why != "" {
			paragraph(w, "    ", "    ", l.Why)
		}
		s.binds(w, l.Binds)
		s.aside(w, l.Aside)
	}
}

// known prints an amount, or a dash for none.
func known(a size.Amount) string {
	if !a.Known() {
		return "—"
	}
	return a.Text()
}

// binds prints what the first rule says, and the ids of all.
func (s Style) binds(w io.Writer, binds []size.Binding) {
	if len(binds) == 0 {
		return
	}
	paragraph(w, "    ", "    ", named(binds[0].Subject)+binds[0].Message)
	fmt.Fprintln(w, s.paint("    "+ruleIDs(binds, 4), dim))
}

func (s Style) aside(w io.Writer, aside []size.Binding) {
	if len(aside) > 0 {
		paragraph(w, "    ", "    ", "left out, as it is not met whatever is changed here: "+ruleIDs(aside, 4))
	}
}

func named(subject string) string {
	if subject == "" {
		return ""
	}
	return subject + ": "
}

// ruleIDs lists rules, each once, and how many more there are than fit.
func ruleIDs(binds []size.Binding, most int) string {
	var names []string
	seen := map[string]bool{}
	for _, b := range binds {
		if !seen[b.Rule] {
			names = append(names, b.Rule)
		}
		seen[b.Rule] = true
	}
	if more := len(names) - most; more > 0 {
		names = append(names[:most], fmt.Sprintf("and %d more", more))
	}
	return strings.Join(names, ", ")
}

// first names the first rule, and how many more there are.
func first(binds []size.Binding) string {
	if more := len(binds) - 1; more > 0 {
		return fmt.Sprintf("%s +%d", binds[0].Rule, more)
	}
	return binds[0].Rule
}

func (s Style) height(w io.Writer, h size.Height) {
	fmt.Fprintf(w, "\n%s\n", s.paint(pad("  The line that gives the most coverage", 2+limitWhat, false)+pad("now", limitNumber, true)+pad("best", limitNumber, true)+pad("NO-GO from", limitNumber, true), bold))
	for _, row := range []struct {
		what      string
		now, best size.Amount
		noGo      string
	}{
		{"line paid out", h.Now.Line, h.Best.Line, known(h.NoGo)}, {"lowest height, following the balloon", h.Now.Lowest, h.Best.Lowest, ""},
		{"coverage", h.Now.Coverage, h.Best.Coverage, ""},
	} {
		fmt.Fprintln(w, strings.TrimRight("  "+pad(row.what, limitWhat, false)+pad(known(row.now), limitNumber, true)+pad(known(row.best), limitNumber, true)+pad(row.noGo, limitNumber, true), " "))
	}
	if h.Why != "" {
		paragraph(w, "    ", "    ", h.Why)
	}
	s.binds(w, h.Binds)
	if h.LimitsIt != "" {
		paragraph(w, "    ", "    ", "the coverage ends with "+h.LimitsIt)
	}
	s.aside(w, h.Aside)
}

// The columns of a table.
const (
	cellFirst  = 13
	cellNumber = 10
	cellWord   = 21
)

func (s Style) table(w io.Writer, t size.Table) {
	fmt.Fprintf(w, "\n%s\n", s.paint("  "+t.Title, bold))
	if t.Why != "" {
		paragraph(w, "    ", "    ", t.Why)
		return
	}
	head := "  "
	for i, c := range t.Columns {
		head += cellIn(t, i, c.Title)
	}
	fmt.Fprintln(w, s.paint(head+"  the rules", dim))
	for _, r := range t.Rows {
		line := "  "
		if r.Now {
			line = "> "
		}
		for i, c := range r.Cells {
			text := c.Text()
			if c.Word == "" && !c.Known() {
				text = "—"
			}
			line += cellIn(t, i, text)
		}
		verdict := string(rules.Go)
		if !r.Go {
			verdict = string(rules.NoGo)
			if len(r.NotMet) > 0 {
				verdict = first(r.NotMet)
			}
		}
		fmt.Fprintln(w, line+"  "+verdict)
	}
	s.aside(w, t.Aside)
}

// cellIn puts words to the left of their column and numbers to the right.
func cellIn(t size.Table, column int, text string) string {
	if t.Columns[column].Words {
		return "  " + pad(text, cellWord-2, false)
	}
	if column == 0 {
		return pad(text, cellFirst, true)
	}
	return pad(text, cellNumber, true)
}

// The columns of what matters.
const (
	matterNow    = 11
	matterChange = 8
	matterEffect = 10
	matterStep   = 9
	matterName   = Columns - 2 - matterNow - matterChange - matterEffect - matterStep - matterEffect
)

func (s Style) sensitivity(w io.Writer, v size.Sensitivity) {
	fmt.Fprintf(w, "\n%s\n", s.paint("  What matters most for the thinnest margin", bold))
	if v.Why != "" {
		paragraph(w, "    ", "    ", v.Why)
		return
	}
	fmt.Fprintln(w, s.paint("    "+pad("", matterName-2, false)+pad("now", matterNow, true)+pad("change", matterChange, true)+pad("margin", matterEffect, true)+
		pad("step", matterStep, true)+pad("margin", matterEffect, true), dim))
	s.margin(w, v.Thinnest)
	if len(v.Others) > 0 {
		fmt.Fprintf(w, "\n%s\n", s.paint("  And for the next rules", bold))
	}
	for _, m := range v.Others {
		s.margin(w, m)
	}
	paragraph(w, "    ", "    ", "1 % of decibels is 1 % of the power that they stand for, of a temperature 1 % of the kelvins, of a gauge 1 % of the diameter.")
}

func (s Style) margin(w io.Writer, m size.Margin) {
	paragraph(w, "  ", "          ", pad(percent(m.Relative), 8, false)+named(m.Subject)+m.Title)
	for _, c := range m.Matters {
		name := wrap(size.Name(c.Pointer, c.End), matterName-2)
		last := len(name) - 1
		for _, line := range name[:last] {
			fmt.Fprintln(w, "    "+line)
		}
		fmt.Fprintln(w, "    "+pad(name[last], matterName-2, false)+pad(c.Now.TextIn(c.Unit), matterNow, true)+pad(c.Change, matterChange, true)+
			pad(percent(c.Effect), matterEffect, true)+pad(c.Step, matterStep, true)+pad(percent(c.ByStep), matterEffect, true))
	}
	if len(m.Matters) > 0 {
		s.sentence(w, m, m.Matters[0])
	}
}

// sentence says in words what the first line of figures says.
func (s Style) sentence(w io.Writer, m size.Margin, c size.Change) {
	if math.IsNaN(float64(c.ByStep)) || math.IsInf(float64(c.ByStep), 0) {
		return
	}
	verb, by := "adds", float64(c.ByStep)
	if by < 0 {
		verb, by = "takes", -by
	}
	to := map[string]string{"adds": "to", "takes": "from"}[verb]
	text := fmt.Sprintf("%s on %s %s %s %% %s the margin of %s", c.Step, size.Name(c.Pointer, c.End), verb, unit.Figures(100*by, 2), to, m.Rule)
	if c.Then != nil {
		text += fmt.Sprintf("; then %s is thinner, at %s", named(c.Then.Subject)+c.Then.Rule, percent(c.Then.Relative))
	}
	paragraph(w, "    ", "    ", s.paint(text, dim))
}

// percent prints a share of one with its sign.
func percent(share size.Share) string {
	text := unit.Figures(100*float64(share), 2) + " %"
	switch {
	case math.IsNaN(float64(share)) || math.IsInf(float64(share), 0):
		return "not shown"
	case share > 0:
		return "+" + text
	}
	return text
}
