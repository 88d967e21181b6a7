package terminal

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"hoistbook/cmd/internal/assess"
	"hoistbook/kits/diag"
	"hoistbook/rules"
)

// A Row is one kit of a shelf.
type Row struct {
	File     string
	Kit      string // name and revision
	Verdict  rules.Decision
	Unusable string // the first problem, and how many follow it
	Open     []string
	Thinnest rules.Finding // of those with a margin; Rule is empty when there is none
	Price    string
}

// RowOf makes the row of an assessment, or of the error in its place.
func RowOf(file string, a *assess.Assessment, err error) Row {
	if err != nil {
		return Row{File: file, Unusable: firstOf(err), Thinnest: rules.Finding{Share: math.NaN()}}
	}
	k := a.Manifest.Kit
	row := Row{File: file, Kit: k.Name + " " + string(k.Revision), Verdict: a.Verdict, Thinnest: rules.Finding{Share: math.NaN()}}
	for _, outcome := range []rules.Outcome{rules.NotMet, rules.NotShown} {
		var open []string
		for _, f := range a.Findings {
			if f.Outcome == outcome && f.Level == rules.Must {
				open = append(open, strings.TrimSpace(f.Rule+" "+f.Subject))
			}
		}
		if len(open) > 0 {
			row.Open = append(row.Open, outcome.String()+": "+fewOf(open))
		}
	}
	for _, f := range a.Findings {
		if !math.IsNaN(f.Share) && f.Waived == "" && !(f.Share >= row.Thinnest.Share) {
			row.Thinnest = f
		}
	}
	if v, ok := a.Facts.Lookup("cost.all_sets"); ok && v.Known() {
		row.Price = v.Text
		if c, ok := a.Facts.Lookup("cost.currency"); ok && c.Known() {
			row.Price += " " + c.Text
		}
	}
	return row
}

func firstOf(err error) string {
	var problems diag.Problems
	if !errors.As(err, &problems) || len(problems) == 0 {
		return err.Error()
	}
	text := problems[0].What
	if more := len(problems) - 1; more > 0 {
		text += fmt.Sprintf(", and %d more", more)
	}
	return text
}

// fewOf names the first of a list and counts the rest.
func fewOf(list []string) string {
	const few = 4
	list = slices.Compact(list)
	if len(list) <= few {
		return strings.Join(list, ", ")
	}
	return strings.Join(list[:few], ", ") + fmt.Sprintf(" and %d more", len(list)-few)
}

// The columns of a shelf.
const (
	verdictColumns = 8
	fileColumns    = 25
	kitColumns     = 22
	thinColumns    = 8
	priceColumns   = Columns - verdictColumns - fileColumns - kitColumns - thinColumns - 4
)

// ShelfHead prints the titles of the columns.
func ShelfHead(w io.Writer, s Style) {
	fmt.Fprintln(w, s.paint(pad("", verdictColumns, false)+" "+pad("File", fileColumns, false)+" "+pad("Kit", kitColumns, false)+" "+
		pad("Thinnest", thinColumns, true)+" "+pad("Price", priceColumns, true), bold))
}

// ShelfRow prints one kit: verdict, file, kit, its thinnest margin and its price, and below them what is not met.
func ShelfRow(w io.Writer, r Row, s Style) error {
	word, colour := string(r.Verdict), green
	switch {
	case r.Unusable != "":
		word, colour = "unusable", yellow
	case r.Verdict != rules.Go:
		colour = red
	}
	thin := ""
	if !math.IsNaN(r.Thinnest.Share) {
		thin = share(r.Thinnest)
	}
	files, kits := cut(r.File, fileColumns), wrap(r.Kit, kitColumns)
	var text strings.Builder
	for i := range max(len(files), len(kits)) {
		lead, tail := pad("", verdictColumns, false), ""
		if i == 0 {
			lead = s.paint(pad(word, verdictColumns, false), colour, bold)
			tail = " " + pad(thin, thinColumns, true) + " " + pad(r.Price, priceColumns, true)
		}
		line := lead + " " + pad(at(files, i), fileColumns, false) + " " + pad(at(kits, i), kitColumns, false) + tail
		text.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	indent := strings.Repeat(" ", verdictColumns+1)
	for _, open := range append([]string{r.Unusable}, r.Open...) {
		if open != "" {
			paragraph(&text, indent+"  ", indent+"    ", open)
		}
	}
	_, err := io.WriteString(w, text.String())
	return err
}

func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return ""
}

// cut breaks a path into lines, behind a slash where there is one.
func cut(path string, columns int) []string {
	var lines []string
	for rest := []rune(path); ; {
		if len(rest) <= columns {
			return append(lines, string(rest))
		}
		n := columns
		if slash := strings.LastIndexAny(string(rest[:columns]), `/\`); slash > 0 {
			n = len([]rune(string(rest[:columns])[:slash+1]))
		}
		lines, rest = append(lines, string(rest[:n])), rest[n:]
	}
}

// A Tally counts a shelf.
type Tally struct {
	Go, NoGo, Unusable, Other int
	thinnest                  Row
}

// Add counts a row, or a file that is no manifest.
func (t *Tally) Add(r Row, other bool) {
	switch {
	case other:
		t.Other++
	case r.Unusable != "":
		t.Unusable++
	case r.Verdict != rules.Go:
		t.NoGo++
	default:
		t.Go++
		if t.thinnest.File == "" || cmp.Less(r.Thinnest.Share, t.thinnest.Thinnest.Share) {
			t.thinnest = r
		}
	}
}

// All is how many manifests there were.
func (t Tally) All() int { return t.Go + t.NoGo + t.Unusable }

// ShelfFoot prints how many kits there were of each kind, and the GO that hangs by the thinnest thread.
func ShelfFoot(w io.Writer, t Tally, s Style) {
	fmt.Fprintln(w)
	if thin := t.thinnest; thin.File != "" && thin.Thinnest.Rule != "" {
		paragraph(w, "", "  ", fmt.Sprintf("Thinnest of those that are GO: %s, %s at %s", thin.File, strings.TrimSpace(thin.Thinnest.Rule+" "+thin.Thinnest.Subject), share(thin.Thinnest)))
	}
	aside := ""
	if t.Other > 0 {
		aside = fmt.Sprintf(" (%d other JSON files left aside)", t.Other)
	}
	fmt.Fprintf(w, "%s GO, %s NO-GO, %s unusable%s\n", s.paint(fmt.Sprint(t.Go), green, bold), s.paint(fmt.Sprint(t.NoGo), red, bold), s.paint(fmt.Sprint(t.Unusable), yellow, bold), aside)
	fmt.Fprintln(w, s.paint("Advice only: local law, the licence holder and the person in charge decide.", dim))
}
