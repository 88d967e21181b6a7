// Package diag has the one shape for everything that is said about a user's file: where, what is wrong, and what would
// be right. Problems are gathered, sorted by place and printed all in one run.
package diag

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// A Place is a point in a file. Line and Col count from 1, Col in bytes; Line 0 means the file as a whole.
type Place struct {
	File      string
	Line, Col int
}

func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// A Problem is one thing wrong in a user's file. What and Fix are lower case, without a full stop, values quoted.
type Problem struct {
	Place Place
	What  string
	Fix   string
}

func (p Problem) String() string {
	text := p.What
	if p.Place != (Place{}) {
		text = p.Place.String() + ": " + text
	}
	if p.Fix != "" {
		text += "; " + p.Fix
	}
	return text
}

// Problems is a list of problems and an error when it is not empty.
type Problems []Problem

// What a hostile file can make us say is bounded too: nobody reads a quotation of a megabyte, nor a thousand problems.
const (
	longest = 400 // characters of one sentence
	most    = 500 // problems that are printed; all are counted
)

// Add notes a problem.
func (ps *Problems) Add(place Place, what, fix string) {
	*ps = append(*ps, Problem{place, short(what), short(fix)})
}

// short takes the middle out of a sentence that quotes too much.
func short(text string) string {
	if len(text) <= longest || utf8.RuneCountInString(text) <= longest {
		return text
	}
	const half = longest/2 - 1
	front, back := 0, len(text)
	for range half {
		_, size := utf8.DecodeRuneInString(text[front:])
		front += size
		_, size = utf8.DecodeLastRuneInString(text[:back])
		back -= size
	}
	return text[:front] + " … " + text[back:]
}

// Err returns the problems, sorted by place and each said once, or nil when there are none.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	sorted := slices.Clone(ps)
	slices.SortStableFunc(sorted, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Place.File, b.Place.File), cmp.Compare(a.Place.Line, b.Place.Line), cmp.Compare(a.Place.Col, b.Place.Col))
	})
	return slices.Compact(sorted)
}

// Error prints a problem a line.
func (ps Problems) Error() string {
	lines := make([]string, 0, min(len(ps), most+1))
	for _, p := range ps[:min(len(ps), most)] {
		lines = append(lines, p.String())
	}
	if more := len(ps) - most; more > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(lines, "\n")
}

// Join notes the problems of an error, or nothing when it is nil. An error that is not Problems loses its place: there is none.
func (ps *Problems) Join(err error) {
	switch err := err.(type) {
	case nil:
	case Problems:
		*ps = append(*ps, err...)
	default:
		ps.Add(Place{}, err.Error(), "")
	}
}
