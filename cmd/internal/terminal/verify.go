package terminal

import (
	"fmt"
	"io"
	"strings"

	"hoistbook/cmd/internal/truth"
	"hoistbook/rules"
)

// mostTold is how many differences of a kind are printed; --json has them all.
const mostTold = 12

// Verification prints what was found of a file: what it is, what does not agree, the signatures, and last whether it tells the truth.
func Verification(w io.Writer, v *truth.Verification, s Style) {
	if v.Kit != nil {
		fmt.Fprintf(w, "%s  revision %s  digest %s\n", s.paint(v.Kit.Name, bold), v.Kit.Revision, strings.TrimPrefix(v.Kit.Digest, "sha256:")[:12])
	}
	if v.Document != "" {
		text := v.File + ": " + v.Document
		if v.PrintedBy != "" {
			text += ", printed by " + v.PrintedBy
		}
		if len(v.Sources) > 0 {
			text += " from " + strings.Join(v.Sources, " and ")
		}
		paragraph(w, "  ", "    ", text)
	}
	s.told(w, "What rides inside does not agree", v.Wrong)
	var facts, findings, pages []string
	for _, f := range v.Facts {
		facts = append(facts, f.Title+" ("+f.ID+"): printed "+f.Printed+", today "+f.Today)
	}
	for _, f := range v.Findings {
		findings = append(findings, strings.TrimSpace(f.Rule+" "+f.Subject)+": printed "+f.Printed+"; today "+f.Today)
	}
	for _, p := range v.Pages {
		pages = append(pages, p.String())
	}
	s.told(w, "Facts that today's formulas give otherwise", facts)
	s.told(w, "Findings that today's rules give otherwise", findings)
	s.told(w, "Pages that would be printed otherwise today", pages)
	if v.Filled > 0 {
		fmt.Fprintf(w, "\n  %d form fields have been filled in; what people wrote is not judged.\n", v.Filled)
	}
	s.signatures(w, v.Signed)
	s.truth(w, v)
}

func (s Style) told(w io.Writer, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", s.paint("  "+title, red, bold))
	for i, line := range lines {
		if i == mostTold {
			fmt.Fprintf(w, "    and %d more; --json has them all\n", len(lines)-mostTold)
			break
		}
		paragraph(w, "    ", "      ", line)
	}
}

func (s Style) signatures(w io.Writer, signed truth.Signed) {
	fmt.Fprintf(w, "\n%s\n", s.paint("  Signatures", bold))
	for _, f := range signed.Files {
		text, colour := string(f.State), yellow
		switch f.State {
		case truth.Verified:
			text, colour = "verified: signed by "+f.Signer, green
		case truth.Altered:
			text, colour = "ALTERED: "+f.Why, red
		case truth.NotSigned, truth.NotChecked, truth.Unknown:
			if f.Why != "" {
				text += ": " + f.Why
			}
		}
		if f.Key != "" {
			text += " (" + f.Key + ")"
		}
		entryAt(w, 4, 26, f.Name, s.paint(text, colour))
	}
}

// truth is the last line, where the eye is.
func (s Style) truth(w io.Writer, v *truth.Verification) {
	var said []string
	switch {
	case v.Compared > 0 && v.True:
		said = append(said, s.paint("TRUE", green, bold)+fmt.Sprintf(": all %d pages say what this program makes of the manifest inside", v.Compared))
	case v.Compared > 0 || v.Kit == nil && v.Document == "":
		said = append(said, s.paint("NOT TRUE", red, bold)+": "+reason(v))
	case v.True:
	default:
		said = append(said, s.paint("NOT COMPARED", yellow, bold)+": "+v.Why)
	}
	switch {
	case v.Signed.Verified:
		said = append(said, s.paint("VERIFIED", green, bold))
	case v.Signed.Asked:
		said = append(said, s.paint("NOT VERIFIED", red, bold)+": not everything is signed by someone who is named")
	}
	fmt.Fprintln(w)
	for _, line := range said {
		paragraph(w, "", "  ", line)
	}
	if v.Today != "" {
		colour := green
		if v.Today != rules.Go {
			colour = red
		}
		fmt.Fprintf(w, "%s under today's rules\n", s.paint(string(v.Today), colour, bold))
	}
}

// reason says what to make of differences.
func reason(v *truth.Verification) string {
	switch {
	case len(v.Wrong) > 0:
		return "what rides inside does not agree with itself: it was altered after it was printed"
	case len(v.Facts)+len(v.Findings) > 0:
		return "today's formulas or rules say something else; print the book again"
	case v.PrintedBy == v.Program:
		return "pages were altered after they were printed, or printed by another build"
	}
	return "pages were altered, or are laid out otherwise by " + v.Program
}
