package terminal

import (
	"fmt"
	"io"
	"strings"

	"hoistbook/render/walk"
)

// Record prints the record of a walk-through: its lines, what they add up to, and whether it is whole.
func Record(w io.Writer, r *walk.Record, story *walk.Story, s Style) {
	first, last := r.Entries[0], r.Entries[len(r.Entries)-1]
	o := first.Opening
	fmt.Fprintf(w, "%s  revision %s  digest %.12s\n", s.paint(o.Name, bold), o.Revision, strings.TrimPrefix(o.Digest, "sha256:"))
	fmt.Fprintf(w, "begun %s, last line %s\n", first.At.Format("2006-01-02 15:04"), last.At.Format("2006-01-02 15:04"))
	var said walk.Verdict
	for _, e := range r.Entries {
		lead := fmt.Sprintf("%4d  %s  ", e.N, e.At.Format("15:04"))
		text := e.Line()
		if e.Who != "" && e.Do != walk.Join {
			text = "[" + e.Who + "] " + text
		}
		paragraph(w, lead, strings.Repeat(" ", width(lead)), text)
		if e.Verdict != said {
			said = e.Verdict
			fmt.Fprintf(w, "%13s%s\n", "", s.VerdictWord(said))
		}
		for _, b := range e.Because {
			paragraph(w, strings.Repeat(" ", 15), strings.Repeat(" ", 15), b)
		}
	}
	s.recordSums(w, story)
	fmt.Fprintln(w)
	state := "not closed: whether lines are missing at its end cannot be seen from the file"
	if r.Closed() {
		state = "closed"
	}
	if r.Torn > 0 {
		state += "; a line that was not finished stands at its end"
	}
	paragraph(w, "", "", fmt.Sprintf("%d lines hold together; %s", len(r.Entries), state))
	fmt.Fprintf(w, "chain ends %s\n", r.Chain)
	fmt.Fprintf(w, "%s\n", s.VerdictWord(last.Verdict))
}

func (s Style) recordSums(w io.Writer, story *walk.Story) {
	if hours := story.Hours(); len(story.Flights) > 0 {
		fmt.Fprintf(w, "\n%s\n", s.paint("Flown", bold))
		for _, h := range hours {
			name := h.Part
			if h.Label != "" {
				name += ", set " + h.Label
			}
			fmt.Fprintf(w, "  %-22s %s\n", name, walk.Span(h.Time))
		}
	}
	var mend []string
	for _, one := range story.Stock() {
		for _, l := range []struct {
			n    int
			what string
		}{{one.Lost, "lost: order"}, {one.Replace, "to replace: order"}, {one.Mend, "to mend"}} {
			if l.n > 0 {
				mend = append(mend, fmt.Sprintf("  %-22s %d %s", one.Part, l.n, l.what))
			}
		}
	}
	if len(mend) > 0 {
		fmt.Fprintf(w, "\n%s\n%s\n", s.paint("To mend and to order", bold), strings.Join(mend, "\n"))
	}
}
