package terminal

import (
	"fmt"
	"io"
	"strings"

	"hoistbook/cmd/internal/asbuilt"
	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
	"hoistbook/render/change"
)

// The columns of the table of readings.
const (
	partColumns = 36
	massColumns = (Columns - 2 - partColumns - 4) / 4
)

// Weighed prints the design against the scale: every part that was weighed, and what is wrong with the design.
func Weighed(w io.Writer, lines []asbuilt.Line, copies int, s Style) {
	read := "weighed"
	if copies > 1 {
		read = "mean"
	}
	fmt.Fprintln(w, s.paint("  "+pad("Part", partColumns, false)+" "+pad("stated", massColumns, true)+" "+pad("worst", massColumns, true)+" "+pad(read, massColumns, true)+" "+
		pad("off by", massColumns, true), bold))
	for _, l := range lines {
		title := wrap(string(l.Ref)+" "+l.Name, partColumns)
		last := len(title) - 1
		for _, line := range title[:last] {
			fmt.Fprintln(w, "  "+line)
		}
		stated, worst, off := "", "", ""
		if l.Finding != asbuilt.Silent {
			stated, worst, off = l.Stated.Text(s.System), l.Worst.Text(s.System), signed(l.Mean, l.Stated, s.System)
		}
		fmt.Fprintln(w, strings.TrimRight("  "+pad(title[last], partColumns, false)+" "+pad(stated, massColumns, true)+" "+pad(worst, massColumns, true)+" "+
			pad(l.Mean.Text(s.System), massColumns, true)+" "+pad(off, massColumns, true), " "))
		if l.Finding != asbuilt.Within {
			colour := yellow
			if l.Finding == asbuilt.Beyond {
				colour = red
			}
			text := string(l.Finding)
			if len(l.Read) > 1 {
				text += spread(l, s.System)
			}
			fmt.Fprintln(w, "    "+s.paint(text, colour, bold))
		}
	}
}

// spread says between what masses the copies lie.
func spread(l asbuilt.Line, system unit.System) string {
	low, high := l.Read[0].Mass, l.Read[0].Mass
	for _, r := range l.Read {
		if r.Mass.SI < low.SI {
			low = r.Mass
		}
		if r.Mass.SI > high.SI {
			high = r.Mass
		}
	}
	return fmt.Sprintf(": %d copies weigh %s to %s", len(l.Read), low.Text(system), high.Text(system))
}

func signed(now, before unit.Quantity, system unit.System) string {
	by := unit.Quantity{SI: now.SI - before.SI, Dim: now.Dim}
	switch {
	case by.SI > 0:
		return "+" + by.Text(system)
	case by.SI < 0:
		by.SI = -by.SI
		return "−" + by.Text(system)
	}
	return by.Text(system)
}

// Copy prints what one copy weighs aloft, what was not weighed, and the margins that are thinner for it.
func Copy(w io.Writer, c asbuilt.Copy, unweighed []string, compared *change.Comparison, s Style) {
	fmt.Fprintf(w, "\n%s\n", s.paint("  Copy "+c.Serial, bold))
	before, after := compared.Before.Facts, compared.After.Facts
	for _, line := range []struct{ id, words string }{{"mass.aloft_kg", "mass aloft"}, {"mass.aloft_worst_kg", "worst mass aloft"}, {"lift.free_end_kg", "free lift at the end"}} {
		entryAt(w, 4, 26, line.words, pair(before, after, line.id, s.System))
	}
	if len(unweighed) > 0 {
		entryAt(w, 4, 26, "not weighed, as designed", strings.Join(unweighed, ", "))
	}
	s.shifts(w, compared)
	colour := green
	if compared.After.Verdict != "GO" {
		colour = red
	}
	fmt.Fprintf(w, "\n  %s: %s -> %s\n", "copy "+c.Serial, compared.Before.Verdict, s.paint(string(compared.After.Verdict), colour, bold))
}

// pair prints a fact of two kits so that different values never look the same.
func pair(before, after *kits.Facts, id string, system unit.System) string {
	x, there := before.Lookup(id)
	y, here := after.Lookup(id)
	if there && here && x.Known() && y.Known() && x.Kind == fact.Number {
		was, is := unit.Apart(x.Quantity, y.Quantity, system)
		return was + " -> " + is
	}
	return x.Print(system, "") + " -> " + y.Print(system, "")
}
