package sheet

import (
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// A workbook is an Office Open XML spreadsheet (ECMA-376) with the little that an order needs: texts, numbers, formulas with
// the values that they have, a few styles. A library that can do everything would be linked into every command and start
// with it.
type workbook struct {
	formats [styles]string // number formats of the styles that have one
	paper   int            // ECMA-376 part 1, 18.3.1.63: 1 is Letter, 9 is A4
	sheets  []*worksheet
}

// style is an index into the cell formats of the workbook.
type style int

const (
	plain     style = iota
	title           // large and bold
	head            // of a column: bold over a line
	headRight       // the same over numbers
	strong          // bold
	count           // a whole number
	item            // a whole number in the middle
	money           // an amount
	price           // an amount with all decimals that a price may have
	sum             // an amount, bold under a line
	percent
	date
	wrapped // text that is broken into lines
	styles
)

// A worksheet has rows from the top.
type worksheet struct {
	name    string
	widths  []float64 // of columns, in digits
	rows    [][]cell
	heads   int    // rows that are printed on every page: the last of them is this one
	footer  string // at the left
	upright bool
}

// A cell is one of: nothing, a text, a number, or a formula with its number.
type cell struct {
	style   style
	text    string
	number  string
	formula string
}

func text(s string) cell                 { return cell{text: s} }
func styled(st style, s string) cell     { return cell{style: st, text: s} }
func number(st style, n string) cell     { return cell{style: st, number: n} }
func whole(n int) cell                   { return number(count, strconv.Itoa(n)) }
func formula(st style, f, n string) cell { return cell{style: st, formula: f, number: n} }

// lines is how many lines the text of a cell takes in a column of so many digits, which are a little wider than letters.
// Not all readers work it out by themselves.
func (c cell) lines(width float64) int {
	if c.style != wrapped && c.style != head && c.style != headRight {
		return 1
	}
	n, used := 1, 0
	for _, word := range strings.Fields(c.text) {
		long := utf8.RuneCountInString(word)
		if used > 0 && float64(used+1+long) > width*1.08 {
			n, used = n+1, 0
		}
		used += 1 + long
		for ; float64(used) > width; used -= int(width) {
			n++ // a word that is longer than the column
		}
	}
	return n
}

// dated is a day as spreadsheets count them: from 30 December 1899 on.
func dated(at time.Time, ok bool) cell {
	if !ok || at.IsZero() {
		return cell{}
	}
	return number(date, strconv.Itoa(int(at.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours()/24)))
}

// add puts a row below the others and returns its number, as formulas count.
func (w *worksheet) add(cells ...cell) int {
	w.rows = append(w.rows, cells)
	return len(w.rows)
}

// at names a cell: column 0 of row 1 is A1.
func at(column, row int) string { return letters(column) + strconv.Itoa(row) }

func letters(column int) string {
	name := ""
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name
}

// quoted is the name of the sheet before a cell of it, for formulas of others.
func (w *worksheet) quoted() string { return "'" + strings.ReplaceAll(w.name, "'", "''") + "'!" }

// sheetName makes a name that spreadsheets take: at most 31 characters, none of []:*?/\, no apostrophe at its ends.
func sheetName(name string) string {
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`[]:*?/\`, r) {
			return '-'
		}
		return r
	}, name)
	if letters := []rune(name); len(letters) > 31 {
		name = string(letters[:31])
	}
	return strings.Trim(name, "' ")
}
