// Package stock reads a stock list as a spreadsheet saves it, and writes it again when a delivery has come.
//
// The list is CSV (RFC 4180) in UTF-8, with or without a byte order mark, its cells parted by commas, semicolons or tabs;
// a first line "sep=;" is understood. The first line names the columns: one of them is the reference of a part, one the
// quantity in stock, in any order; the others are the owner's. A line whose reference starts with "x-" is a note, as
// such keys are in a manifest, and so is a line with neither reference nor quantity.
//
// A quantity is a whole number of pieces. Decimals of one or two zeros are read ("12.0", "12,00": what a spreadsheet makes
// of it), but "1.200" and "1,200" are not: they may mean one piece or more than a thousand, and nothing is guessed.
package stock

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strconv"
	"strings"
)

// A List is a stock list. Its lines stay as they were written until a delivery changes them.
type List struct {
	mark    string // byte order mark and "sep=" line
	comma   rune
	newline string
	columns int
	ref     int // column
	count   int // column
	lines   []line
}

type line struct {
	raw    string // with its end of line
	cells  []string
	ref    string // "" of a note
	pieces int
}

// Empty is a list with nothing in it.
func Empty() *List {
	return &List{comma: ',', newline: "\r\n", columns: 2, ref: 0, count: 1, lines: []line{{raw: refNames[0] + "," + countNames[0] + "\r\n"}}}
}

// Pieces are what lies in stock, by reference.
func (s *List) Pieces() map[string]int {
	pieces := map[string]int{}
	for _, l := range s.lines {
		if l.ref != "" {
			pieces[l.ref] = l.pieces
		}
	}
	return pieces
}

// Received writes the list with what has come on top of what was there. Lines that do not change keep their bytes; parts
// that had no line are added at the end, by reference.
func (s *List) Received(pieces map[string]int) []byte {
	var out bytes.Buffer
	out.WriteString(s.mark)
	added := map[string]bool{}
	for _, l := range s.lines {
		n := pieces[l.ref]
		if l.ref == "" || n == 0 {
			out.WriteString(l.raw)
			if l.raw != "" && !strings.HasSuffix(l.raw, "\n") {
				out.WriteString(s.newline) // the last line may have none, and others may follow
			}
			continue
		}
		added[l.ref] = true
		cells := slices.Clone(l.cells)
		cells[s.count] = strconv.Itoa(l.pieces + n)
		s.write(&out, cells)
	}
	var more []string
	for ref, n := range pieces {
		if n > 0 && !added[ref] {
			more = append(more, ref)
		}
	}
	slices.Sort(more)
	for _, ref := range more {
		cells := make([]string, s.columns)
		cells[s.ref], cells[s.count] = ref, strconv.Itoa(pieces[ref])
		s.write(&out, cells)
	}
	return out.Bytes()
}

func (s *List) write(out *bytes.Buffer, cells []string) {
	w := csv.NewWriter(out)
	w.Comma, w.UseCRLF = s.comma, s.newline == "\r\n"
	_ = w.Write(cells) // a bytes.Buffer takes everything, and Read has refused commas that a csv.Writer would
	w.Flush()
}
