package terminal

import (
	"fmt"
	"io"
	"strings"

	"hoistbook/cmd/internal/assess"
	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/rules"
)

// label is the width of the words at the left of an explanation.
const label = 11

// Fact prints how a fact was computed.
func Fact(w io.Writer, a *assess.Assessment, f kits.Fact, s Style) {
	e := f.Entry
	fmt.Fprintf(w, "%s  %s\n", s.paint(f.ID, bold), e.Title)
	value := f.Value.Print(s.System, "")
	if f.Value.Kind == fact.Money && f.Value.Known() {
		value += currency(a)
	}
	entry(w, "value", value)
	if f.Value.Known() && e.Unit != "" && f.Value.Print(s.System, "") != f.Value.Print(s.System, e.Unit) {
		entry(w, "", f.Value.Print(s.System, e.Unit))
	}
	if !f.Value.Known() {
		entry(w, "because", f.Value.Unknown)
	}
	entry(w, "formula", e.Formula)
	s.inputs(w, f.Inputs)
	for _, n := range f.Notes {
		entry(w, "note", n)
	}
	for i, ref := range e.Sources {
		word := "source"
		if i > 0 {
			word = ""
		}
		entry(w, word, ref.String())
	}
}

func (s Style) inputs(w io.Writer, inputs []kits.Input) {
	longest := 0
	for _, in := range inputs {
		longest = max(longest, width(in.Name))
	}
	for i, in := range inputs {
		word := "inputs"
		if i > 0 {
			word = ""
		}
		text := pad(in.Name, min(longest, 44), false) + "  " + in.Value.Print(s.System, "")
		if in.Assumed {
			text += "  (assumed)"
		}
		fmt.Fprintln(w, strings.TrimRight("  "+pad(word, label, false)+text, " "))
		if in.Place.Line > 0 {
			fmt.Fprintln(w, s.paint("  "+strings.Repeat(" ", label+2)+in.Place.String(), dim))
		}
	}
}

func entry(w io.Writer, word, text string) {
	indent := "  " + strings.Repeat(" ", label)
	paragraph(w, "  "+pad(word, label, false), indent, text)
}

// Rule prints what a rule compares and what it found.
func Rule(w io.Writer, a *assess.Assessment, r *rules.Rule, s Style) {
	fmt.Fprintf(w, "%s  %s (%s)\n", s.paint(r.ID, bold), r.Title, r.Level)
	found := false
	for _, f := range a.Findings {
		if f.Rule != r.ID {
			continue
		}
		found = true
		entry(w, f.Outcome.String(), subject(f)+f.Message)
		if f.Hint != "" {
			entry(w, "to mend", f.Hint)
		}
		if f.Fact != "" {
			_, limit := s.sides(f, currency(a))
			if symbol(f.Relation) == "" {
				limit = string(f.Relation) + " " + limit
			}
			entry(w, "compares", f.Fact+" "+limit)
		}
	}
	if !found {
		entry(w, "outcome", "the rule does not apply to this manifest")
	}
	for i, c := range r.Citations() {
		word := "source"
		if i > 0 {
			word = ""
		}
		entry(w, word, c)
	}
}
