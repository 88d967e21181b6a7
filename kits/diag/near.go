package diag

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// Near returns at most three known words that the word was probably meant to be, nearest first: a third of its letters
// (at least one) may be wrong, missing, extra or swapped with a neighbour. A word that is wrong in its case only is one slip away.
func Near(word string, known []string) []string {
	type match struct {
		word     string
		distance int
	}
	var found []match
	for _, k := range known {
		d := distance(word, k)
		if d > 1 && strings.EqualFold(word, k) {
			d = 1
		}
		if d <= max(1, len([]rune(word))/3) {
			found = append(found, match{k, d})
		}
	}
	slices.SortFunc(found, func(a, b match) int {
		return cmp.Or(cmp.Compare(a.distance, b.distance), cmp.Compare(a.word, b.word))
	})
	var words []string
	for _, m := range found[:min(3, len(found))] {
		words = append(words, m.word)
	}
	return words
}

// DidYouMean phrases the nearest known word as a fix, or returns otherwise when none is near.
func DidYouMean(word string, known []string, otherwise string) string {
	near := Near(word, known)
	if len(near) == 0 {
		return otherwise
	}
	return "did you mean " + strconv.Quote(near[0]) + "?"
}

// distance counts edits by optimal string alignment (Damerau 1964 with adjacent swaps); words over 64 letters are never near.
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	if len(x) > 64 || len(y) > 64 {
		return max(len(x), len(y))
	}
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			change := 1
			if x[i-1] == y[j-1] {
				change = 0
			}
			best := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				best = min(best, rows[i-2][j-2]+1)
			}
			rows[i][j] = best
		}
	}
	return rows[len(x)][len(y)]
}
