package stock

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"hoistbook/kits/diag"
)

// How the two columns may be called. The first name is written into a new list.
var (
	refNames   = []string{"reference", "ref", "part"}
	countNames = []string{"quantity", "qty", "pieces"}
)

const byteOrderMark = "\ufeff"

// notePrefix starts the reference of a line that is not about a part of this kit.
const notePrefix = "x-"

// Read reads a list. Known are the references that may stand in it. The error is diag.Problems with everything that is
// wrong in the list.
func Read(name string, data []byte, known []string) (*List, error) {
	r := reader{name: name, known: known, list: &List{newline: "\n"}, seen: map[string]int{}}
	r.read(string(data))
	if err := r.problems.Err(); err != nil {
		return nil, err
	}
	return r.list, nil
}

type reader struct {
	name     string
	known    []string
	list     *List
	skipped  int // lines before the first of the CSV
	seen     map[string]int
	problems diag.Problems
}

func (r *reader) place(line, col int) diag.Place {
	return diag.Place{File: r.name, Line: line + r.skipped, Col: col}
}

func (r *reader) read(text string) {
	if strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff") {
		r.problems.Add(diag.Place{File: r.name}, "the list is written in UTF-16", `save it as "CSV UTF-8"`)
		return
	}
	if at := firstBad(text); at >= 0 {
		line := 1 + strings.Count(text[:at], "\n")
		r.problems.Add(r.place(line, at-strings.LastIndexByte(text[:at], '\n')), "this byte is no UTF-8", `save the list as "CSV UTF-8"`)
		return
	}
	text = r.front(text)
	r.list.comma = parting(text)
	if strings.Contains(text, "\r\n") {
		r.list.newline = "\r\n"
	}
	cells := csv.NewReader(strings.NewReader(text))
	cells.Comma, cells.FieldsPerRecord = r.list.comma, -1
	from := int64(0)
	for first := true; ; first = false {
		record, err := cells.Read()
		if errors.Is(err, io.EOF) {
			if first {
				r.problems.Add(diag.Place{File: r.name}, "the list is empty", headerFix)
			}
			r.list.lines = append(r.list.lines, line{raw: text[from:]}) // blank lines
			return
		}
		if err != nil {
			r.broken(err)
			return
		}
		l := line{raw: text[from:cells.InputOffset()], cells: record}
		from = cells.InputOffset()
		at := func(column int) diag.Place { return r.place(cells.FieldPos(column)) }
		if first {
			if !r.header(record, at) {
				return
			}
		} else {
			r.line(&l, at)
		}
		r.list.lines = append(r.list.lines, l)
	}
}

// front takes the byte order mark and a "sep=" line off.
func (r *reader) front(text string) string {
	rest := strings.TrimPrefix(text, byteOrderMark)
	if first, after, ok := strings.Cut(rest, "\n"); ok && strings.HasPrefix(strings.ToLower(first), "sep=") {
		rest, r.skipped = after, 1
	}
	r.list.mark = text[:len(text)-len(rest)]
	return rest
}

// parting finds what parts the cells: what the line with the names of the columns has most of.
func parting(text string) rune {
	first, _, _ := strings.Cut(text, "\n")
	best, most := ',', strings.Count(first, ",")
	for _, comma := range []rune{';', '\t'} {
		if n := strings.Count(first, string(comma)); n > most {
			best, most = comma, n
		}
	}
	return best
}

func firstBad(text string) int {
	if utf8.ValidString(text) {
		return -1
	}
	for at, c := range text {
		if c == utf8.RuneError {
			if _, size := utf8.DecodeRuneInString(text[at:]); size == 1 {
				return at
			}
		}
	}
	return -1
}

func (r *reader) broken(err error) {
	var bad *csv.ParseError
	if !errors.As(err, &bad) {
		r.problems.Add(diag.Place{File: r.name}, err.Error(), "")
		return
	}
	what, fix := bad.Err.Error(), "save the list again as CSV"
	switch {
	case errors.Is(bad.Err, csv.ErrBareQuote):
		what, fix = "a quote stands inside a cell that is not quoted", `quote the whole cell and write the quote twice, as in "a ""b"" c"`
	case errors.Is(bad.Err, csv.ErrQuote):
		what, fix = "a quoted cell does not end where its cell ends", `write quotes inside a quoted cell twice, as in "a ""b"" c"`
	}
	r.problems.Add(r.place(bad.Line, bad.Column), what, fix)
}

var headerFix = fmt.Sprintf("the first line names the columns, among them %q and %q", refNames[0], countNames[0])

// header finds the columns.
func (r *reader) header(names []string, at func(int) diag.Place) bool {
	r.list.columns = len(names)
	ok := true
	find := func(wanted []string) int {
		found := -1
		for i, name := range names {
			if !slices.Contains(wanted, strings.ToLower(strings.TrimSpace(name))) {
				continue
			}
			if found >= 0 {
				r.problems.Add(at(i), fmt.Sprintf("the columns %q and %q are both the %s", names[found], name, wanted[0]), "name one of them otherwise")
				ok = false
			}
			found = i
		}
		if found < 0 {
			r.problems.Add(at(0), fmt.Sprintf("no column is called %q", wanted[0]), headerFix)
			ok = false
		}
		return found
	}
	r.list.ref, r.list.count = find(refNames), find(countNames)
	return ok
}

// line reads what one line says of a part, if it does.
func (r *reader) line(l *line, at func(int) diag.Place) {
	cell := func(column int) (string, diag.Place) {
		if column >= len(l.cells) {
			return "", at(len(l.cells) - 1)
		}
		return strings.TrimSpace(l.cells[column]), at(column)
	}
	ref, refPlace := cell(r.list.ref)
	count, countPlace := cell(r.list.count)
	switch {
	case strings.HasPrefix(ref, notePrefix), ref == "" && count == "":
		return
	case ref == "":
		r.problems.Add(refPlace, fmt.Sprintf("%q pieces of no part", count), "write the reference of the part beside them")
		return
	case !slices.Contains(r.known, ref):
		r.problems.Add(refPlace, fmt.Sprintf("the kit has no part %q", ref), diag.DidYouMean(ref, r.known, `take the line out, or write "x-" before the reference of what is not for this kit`))
		return
	case r.seen[ref] > 0:
		r.problems.Add(refPlace, fmt.Sprintf("%q stands in line %d already", ref, r.seen[ref]), "write one line with all its pieces")
		return
	}
	r.seen[ref] = refPlace.Line
	n, wrong := pieces(count)
	if wrong != "" {
		r.problems.Add(countPlace, wrong, "write a whole number, such as 12, and 0 for none")
		return
	}
	l.ref, l.pieces = ref, n
	for len(l.cells) <= r.list.count {
		l.cells = append(l.cells, "")
	}
}

// most is the largest quantity that is believed.
const most = 1_000_000

// pieces reads a quantity, or says what is wrong with it.
func pieces(text string) (n int, wrong string) {
	whole, zeros, decimals := strings.Cut(strings.Replace(text, ",", ".", 1), ".")
	if decimals && (zeros == "0" || zeros == "00") {
		text = whole
	}
	n, err := strconv.Atoi(text)
	switch {
	case text == "":
		return 0, "the quantity is empty"
	case strings.HasPrefix(text, "-") && err == nil:
		return 0, fmt.Sprintf("the quantity %q is below zero", text)
	case err != nil || strings.HasPrefix(text, "+"):
		return 0, fmt.Sprintf("the quantity %q is no whole number of pieces", text)
	case n > most:
		return 0, fmt.Sprintf("the quantity %q is more than a million", text)
	}
	return n, ""
}
