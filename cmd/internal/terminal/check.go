package terminal

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"hoistbook/cmd/internal/assess"
	"hoistbook/kits/fact"
	"hoistbook/rules"
)

// Check prints an assessment: what is not met, what is not shown, what is met with the thinnest margin first, what was
// assumed, and the verdict.
func Check(w io.Writer, a *assess.Assessment, s Style) {
	k := a.Manifest.Kit
	fmt.Fprintf(w, "%s  revision %s  digest %s\n", s.paint(k.Name, bold), k.Revision, a.Manifest.ShortDigest())
	s.stale(w, a.Manifest.Layers())
	s.complaints(w, a.Findings, rules.NotMet, "Not met", red)
	s.complaints(w, a.Findings, rules.NotShown, "Not shown: the manifest does not say enough", yellow)
	s.met(w, a)
	s.assumptions(w, a)
	s.verdict(w, a)
}

// complaints prints findings that need words: what is wrong, and what to do.
func (s Style) complaints(w io.Writer, findings []rules.Finding, outcome rules.Outcome, title string, colour ink) {
	first := true
	for _, f := range findings {
		if f.Outcome != outcome {
			continue
		}
		if first {
			fmt.Fprintf(w, "\n%s\n", s.paint(title, colour, bold))
			first = false
		}
		head := fmt.Sprintf("  %-7s", f.Level)
		if f.Waived != "" {
			head = "  waived "
		}
		paragraph(w, head, "         ", subject(f)+f.Title)
		paragraph(w, "         ", "         ", f.Message)
		if f.Waived != "" {
			paragraph(w, "         ", "         ", "set aside by the manifest: "+f.Waived)
		} else if f.Hint != "" {
			paragraph(w, "      -> ", "         ", f.Hint)
		}
		fmt.Fprintln(w, s.paint("         "+f.Rule, dim))
		if s.Verbose {
			s.cited(w, "         ", f)
		}
	}
}

// cited names the works on whose authority a rule asks.
func (s Style) cited(w io.Writer, indent string, f rules.Finding) {
	for _, source := range f.Source {
		for _, line := range wrap(source, Columns-width(indent)) {
			fmt.Fprintln(w, s.paint(indent+line, dim))
		}
	}
}

func subject(f rules.Finding) string {
	if f.Subject == "" {
		return ""
	}
	return f.Subject + ": "
}

// The columns of the table of what is met; what is measured and what is asked for stand side by side.
const (
	titleColumns  = 37
	valueColumns  = 12
	limitColumns  = 15
	marginColumns = Columns - 2 - titleColumns - 1 - valueColumns - 1 - limitColumns - 1
)

func (s Style) met(w io.Writer, a *assess.Assessment) {
	var compared, counted, said []rules.Finding
	for _, f := range a.Findings {
		switch {
		case f.Outcome != rules.Met:
		case !math.IsNaN(f.Share):
			compared = append(compared, f)
		case f.HasMargin():
			counted = append(counted, f)
		default:
			said = append(said, f)
		}
	}
	slices.SortStableFunc(compared, func(a, b rules.Finding) int { return cmp.Compare(a.Share, b.Share) })
	if len(compared)+len(counted) > 0 {
		fmt.Fprintf(w, "\n%s\n", s.paint("  "+pad("Met, thinnest margin first", titleColumns, false)+" "+pad("value", valueColumns, true)+" "+
			pad("limit", limitColumns, true)+" "+pad("margin", marginColumns, true), bold))
	}
	for _, f := range append(compared, counted...) {
		s.row(w, f, currency(a))
	}
	if len(said) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", s.paint(fmt.Sprintf("  Met without a margin: %d that ask for something to be there or to be said", len(said)), bold))
	if !s.Verbose {
		paragraph(w, "  ", "  ", strings.Join(ids(said), "  "))
		return
	}
	for _, f := range said {
		paragraph(w, "  ", "  ", subject(f)+f.Title)
		s.reference(w, f)
	}
}

// reference says under a finding that is met which rule it is, how binding, and on whose authority.
func (s Style) reference(w io.Writer, f rules.Finding) {
	if !s.Verbose {
		return
	}
	fmt.Fprintln(w, s.paint(fmt.Sprintf("    %s (%s)", f.Rule, f.Level), dim))
	s.cited(w, "    ", f)
}

// currency is that of all prices, with a space before it; empty when nobody says.
func currency(a *assess.Assessment) string {
	if c, ok := a.Facts.Lookup("cost.currency"); ok && c.Known() {
		return " " + c.Text
	}
	return ""
}

// ids names the rules, each once.
func ids(findings []rules.Finding) []string {
	var list []string
	for _, f := range findings {
		if !slices.Contains(list, f.Rule) {
			list = append(list, f.Rule)
		}
	}
	return list
}

// sides prints what is measured and what is asked for.
func (s Style) sides(f rules.Finding, currency string) (value, limit string) {
	value, limit = f.Pair(s.System)
	if f.Measure.Kind == fact.Money {
		value, limit = value+currency, limit+currency
	}
	return value, symbol(f.Relation) + limit
}

func (s Style) row(w io.Writer, f rules.Finding, currency string) {
	value, limit := s.sides(f, currency)
	title := wrap(subject(f)+f.Title, titleColumns)
	last := len(title) - 1
	for _, line := range title[:last] {
		fmt.Fprintln(w, "  "+line)
	}
	line := "  " + pad(title[last], titleColumns, false) + " " + pad(value, valueColumns, true) + " " + pad(limit, limitColumns, true) + " " + pad(share(f), marginColumns, true)
	fmt.Fprintln(w, strings.TrimRight(line, " "))
	s.reference(w, f)
}

// share prints the margin as a part of the limit, rounded down: kilograms, volts and hours side by side compare in no other
// way. A count has none.
func share(f rules.Finding) string {
	percent := 100 * f.Share
	switch {
	case math.IsNaN(percent):
		return ""
	case percent < 10:
		return fmt.Sprintf("%+.1f %%", math.Floor(10*percent)/10)
	}
	return fmt.Sprintf("%+.0f %%", math.Floor(percent))
}

func symbol(r rules.Relation) string {
	switch r {
	case rules.AtLeast:
		return "≥ "
	case rules.AtMost:
		return "≤ "
	case rules.Above:
		return "> "
	case rules.Below:
		return "< "
	case rules.IsNot:
		return "not "
	}
	return ""
}

func (s Style) assumptions(w io.Writer, a *assess.Assessment) {
	if len(a.Facts.Assumptions) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", s.paint("  Assumed where the manifest is silent, and models beyond their limits", bold))
	for _, assumed := range a.Facts.Assumptions {
		about := assumed.Pointer
		if about == "" {
			about = strings.Join(assumed.Facts, ", ")
		}
		paragraph(w, "  ", "    ", about+": "+assumed.Text)
	}
}

// thinnest says again, where the eye is, by what margin the kit hangs, and how to see more.
func (s Style) thinnest(w io.Writer, a *assess.Assessment) {
	row := RowOf("", a, nil)
	if f := row.Thinnest; f.Rule != "" && f.Outcome == rules.Met {
		value, limit := s.sides(f, currency(a))
		paragraph(w, "Thinnest margin ", "  ", fmt.Sprintf("%s: %s%s, %s %s (%s)", share(f), subject(f), f.Title, value, limit, f.Rule))
	}
	if !s.Verbose {
		fmt.Fprintln(w, s.paint("check -v names every rule and its source; explain RULE shows the working.", dim))
	}
}

func (s Style) verdict(w io.Writer, a *assess.Assessment) {
	count, aside := map[rules.Outcome]int{}, 0
	for _, f := range a.Findings {
		if f.Waived != "" && f.Outcome != rules.Met {
			aside++
			continue
		}
		count[f.Outcome]++
	}
	waived := ""
	if aside > 0 {
		waived = fmt.Sprintf(", %d set aside", aside)
	}
	colour := green
	if a.Verdict != rules.Go {
		colour = red
	}
	fmt.Fprintf(w, "\n%s  %d met, %d not met, %d not shown%s\n", s.paint(string(a.Verdict), colour, bold), count[rules.Met], count[rules.NotMet], count[rules.NotShown], waived)
	s.thinnest(w, a)
	fmt.Fprintln(w, s.paint("Advice only: local law, the licence holder and the person in charge decide.", dim))
}
