package terminal

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"hoistbook/render/walk"
)

// A walk-through prints plain lines and moves no cursor, so that it works over a serial line and into a file. What is asked
// stands over the right answer; who answers stands at the right.

// margin is the width of an item's number.
const margin = 5

// WalkHead prints what is walked through.
func (s Style) WalkHead(w io.Writer, v walk.View) {
	fmt.Fprintf(w, "%s  revision %s  digest %s\n", s.paint(v.Kit, bold), v.Revision, v.Digest)
}

// WalkPhase prints a heading.
func (s Style) WalkPhase(w io.Writer, p walk.Phase) {
	line := "== " + p.Title + " "
	fmt.Fprintf(w, "\n%s\n", s.paint(line+strings.Repeat("=", max(Columns-width(line), 0)), bold))
}

// WalkCautions prints the cautions that are read before a phase.
func (s Style) WalkCautions(w io.Writer, p walk.Phase) {
	for _, c := range p.Cautions {
		word := strings.ToUpper(c.Signal)
		paint := yellow
		if c.Signal == "danger" || c.Signal == "warning" {
			paint = red
		}
		for i, text := range []string{c.Hazard + " " + c.Consequence, "-> " + c.Avoid} {
			for j, l := range wrap(text, Columns-10) {
				lead := strings.Repeat(" ", 10)
				if i+j == 0 {
					lead = s.paint(pad(word, 10, false), paint, bold)
				}
				fmt.Fprintln(w, lead+l)
			}
		}
	}
}

// WalkItem prints a step to be answered.
func (s Style) WalkItem(w io.Writer, it walk.Item) {
	indent := strings.Repeat(" ", margin)
	lines := wrap(it.Challenge, Columns-margin-1-width(it.Role))
	fmt.Fprintln(w)
	for i, l := range lines {
		lead, tail := indent, ""
		if i == 0 {
			lead = pad(fmt.Sprint(it.Number, " "), margin, true)
			tail = strings.Repeat(" ", Columns-margin-width(l)-width(it.Role)) + s.paint(it.Role, dim)
		}
		fmt.Fprintln(w, lead+s.paint(l, bold)+tail)
	}
	paragraph(w, indent+"-> ", indent+"   ", it.Response)
	if it.Notes != "" {
		paragraph(w, indent+"   ", indent+"   ", "("+it.Notes+")")
	}
	if it.Asks != nil && it.Asks.Labels {
		paragraph(w, indent+"   ", indent+"   ", "(where there are several sets, name the one that is in: 12.4 V set B)")
	}
	if it.Why != "" {
		paragraph(w, indent+"!  ", indent+"   ", it.Why)
	}
	if it.Answer != "" {
		paragraph(w, indent+"   ", indent+"   ", "answered: "+it.Answer+", "+it.By)
	}
	if it.Hold {
		fmt.Fprintln(w, indent+s.paint("HOLD POINT: the person in charge answers", yellow, bold))
	}
}

// marks say how a step stands.
var marks = map[string]string{"open": "[ ]", "settled": "[x]", "not met": "[!]", "not shown": "[?]", "overruled": "[o]"}

// WalkList prints the steps, each on a line with how it stands: all of them, or those of the phases in which something can be
// done now or stands against a pass.
func (s Style) WalkList(w io.Writer, v walk.View, all bool) {
	for _, p := range v.Phases {
		behind, live := 0, all
		for _, it := range p.Items {
			switch it.State {
			case "settled", "overruled":
				behind++
			default:
				live = live || it.State != "open" || slices.Contains(v.Turn, it.Key)
			}
		}
		sum := fmt.Sprintf("%d of %d answered", behind, len(p.Items))
		fmt.Fprintln(w, s.paint(p.Title, bold)+strings.Repeat(" ", max(Columns-width(p.Title)-width(sum), 1))+sum)
		if !live {
			continue
		}
		for _, it := range p.Items {
			answer := it.Answer
			if it.Tally != nil {
				answer = counted(it.Tally)
			}
			room := Columns - 10 - width(answer) - 1
			lines := wrap(it.Challenge, room)
			head := fmt.Sprintf("%4d  %s ", it.Number, marks[it.State])
			for i, l := range lines {
				lead, tail := strings.Repeat(" ", 10), ""
				if i == 0 {
					lead, tail = head, strings.Repeat(" ", room+1-width(l))+answer
				}
				fmt.Fprintln(w, strings.TrimRight(lead+l+tail, " "))
			}
		}
	}
	fmt.Fprintln(w, s.paint("[ ] open  [x] settled  [!] not met  [?] not shown  [o] overruled", dim))
}

func counted(tally []walk.Tally) string {
	n := 0
	for _, t := range tally {
		if t.Back != nil {
			n++
		}
	}
	return fmt.Sprintf("%d of %d parts counted", n, len(tally))
}

// VerdictWord prints a verdict's word in its colour.
func (s Style) VerdictWord(v walk.Verdict) string {
	colour := yellow
	switch v {
	case walk.GO, walk.Complete:
		colour = green
	case walk.NoGo:
		colour = red
	}
	return s.paint(string(v), colour, bold)
}

// Brief is how many reasons stand with a verdict that changes while the crew is busy: the gravest and latest, which fit a
// screen with the next question.
const Brief = 3

// WalkVerdict prints the verdict with what stands against it, so many of the reasons at most, and what would mend each.
func (s Style) WalkVerdict(w io.Writer, v walk.View, most int) {
	paragraph(w, s.VerdictWord(v.Verdict)+"  ", "         ", v.Summary)
	for i, r := range v.Reasons {
		if i == most {
			fmt.Fprintf(w, "         and %d more; v lists them all\n", len(v.Reasons)-most)
			break
		}
		title, which := r.Title, cmp.Or(r.Rule, r.Item)+subjectOf(r.Subject)
		if r.Number > 0 {
			which = fmt.Sprint(r.Number)
			title = "item " + which + ", " + title
		}
		paragraph(w, fmt.Sprintf("  %-7s", r.Level), "         ", title)
		paragraph(w, "         ", "         ", cmp.Or(r.Text, r.Outcome))
		if r.Mend != "" {
			paragraph(w, "      -> ", "         ", r.Mend)
		}
		if r.May {
			paragraph(w, "         ", "         ", "the person in charge may overrule: over "+which+" REASON")
		}
	}
	for _, o := range v.Over {
		paragraph(w, "  over   ", "         ", o.Title+" (overruled by "+o.Who+": "+o.Reason+")")
	}
}

func subjectOf(subject string) string {
	if subject == "" {
		return ""
	}
	return "/" + subject
}

// WalkNumbers prints the limits and what they were computed from, the flight and the batteries.
func (s Style) WalkNumbers(w io.Writer, v walk.View) {
	if v.List == walk.Preflight {
		for _, p := range v.Limits {
			fmt.Fprintf(w, "  %-22s %s\n", p.Name, p.Text)
		}
	}
	if v.List == walk.Preflight && len(v.Measured) > 0 {
		paragraph(w, fmt.Sprintf("  %-22s ", "Measured"), strings.Repeat(" ", 25), Pairs(v.Measured)+"; all else as planned")
	}
	for _, p := range v.Flight {
		fmt.Fprintf(w, "  %-22s %s\n", p.Name, p.Text)
	}
	for _, set := range v.Sets {
		text := "in since " + set.Since
		switch {
		case set.Until != "":
			text = set.Since + " to " + set.Until
		case set.Late:
			text += ", change was due at " + set.Due
		case set.Due != "":
			text += ", change due at " + set.Due
		}
		if set.Volts != "" {
			text += ", read " + set.Volts
		}
		fmt.Fprintf(w, "  %-22s %s\n", set.Battery+", set "+set.Label, text)
	}
	for _, p := range v.Home {
		paragraph(w, fmt.Sprintf("  %-22s ", p.Name), strings.Repeat(" ", 25), p.Text)
	}
}

// WalkScales prints the parts that may be weighed, with what was stated and what they weigh.
func (s Style) WalkScales(w io.Writer, v walk.View) {
	if len(v.Weighing) == 0 {
		s.WalkSaid(w, "! nothing is weighed on the way home")
	}
	for _, one := range v.Weighing {
		text := "stated " + one.Stated
		if one.Weighs != "" {
			text += ", weighed " + one.Weighs
		}
		paragraph(w, fmt.Sprintf("  %-8s ", one.Part), strings.Repeat(" ", 11), one.Name+": "+text)
	}
}

// Pairs are names and values in one line of text.
func Pairs(all []walk.Pair) string {
	var text []string
	for _, p := range all {
		text = append(text, p.Name+" "+p.Text)
	}
	return strings.Join(text, ", ")
}

// WalkSaid prints lines that are not questions, with a hanging indent.
func (s Style) WalkSaid(w io.Writer, text string) {
	indent := strings.Repeat(" ", margin)
	paragraph(w, indent, indent, text)
}
