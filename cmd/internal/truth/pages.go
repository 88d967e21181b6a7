// Package truth holds a printed document against what would be printed today from the manifest inside it: page by page, and fact by
// fact. It says what differs in words.
//
// Whoever can print can print a false book that agrees with itself in everything but the rules; what is found here is a page
// that was altered, a manifest that was exchanged, and numbers that today's rules no longer give. That a book comes from
// whom it says is for signatures.
package truth

import (
	"fmt"
	"math"
	"strings"

	"hoistbook/render/pdf"
)

// PageDifference is one thing that is printed on a page and would not be today.
type PageDifference struct {
	// The page, from 1.
	Page int `json:"page" jsonschema:"example=3"`
	// What it says.
	Printed string `json:"printed,omitempty" jsonschema:"example=reads at least 3.1 kg"`
	// What it would say.
	Today string `json:"today,omitempty" jsonschema:"example=reads at least 3.2 kg"`
	// What differs where it is no text.
	What string `json:"what,omitempty" jsonschema:"example=lines and shapes are drawn otherwise"`
}

func (d PageDifference) String() string {
	switch {
	case d.What != "":
		return fmt.Sprintf("page %d: %s", d.Page, d.What)
	case d.Today == "":
		return fmt.Sprintf("page %d says %q, and nothing is printed there today", d.Page, d.Printed)
	case d.Printed == "":
		return fmt.Sprintf("page %d does not say %q, which is printed today", d.Page, d.Today)
	}
	return fmt.Sprintf("page %d says %q, and today it would be %q", d.Page, d.Printed, d.Today)
}

// Pages lists what differs between two files as they are seen, and how many form fields of the first are filled in.
func Pages(printed, today *pdf.Seen) (differences []PageDifference, filled int) {
	for _, extra := range printed.Extras {
		differences = append(differences, PageDifference{Page: 1, What: "the file carries " + extra + ", which no book has"})
	}
	if p, t := len(printed.Pages), len(today.Pages); p != t {
		differences = append(differences, PageDifference{Page: min(p, t) + 1, What: fmt.Sprintf("there are %d pages, and today there would be %d", p, t)})
	}
	for i := range min(len(printed.Pages), len(today.Pages)) {
		differences = append(differences, onePage(i+1, printed.Pages[i], today.Pages[i])...)
		for _, m := range printed.Pages[i].Marks {
			if m.Filled {
				filled++
			}
		}
	}
	if wrong := letters(printed, today); wrong != "" {
		differences = append(differences, PageDifference{Page: 1, What: "letters do not look like what they are: " + wrong})
	}
	return differences, filled
}

func onePage(number int, printed, today pdf.SeenPage) []PageDifference {
	all := texts(number, printed.Texts, today.Texts)
	say := func(what string) { all = append(all, PageDifference{Page: number, What: what}) }
	switch {
	case printed.Shapes != today.Shapes:
		say("lines and shapes are drawn otherwise")
	case printed.Order != today.Order && len(all) == 0:
		say("texts and shapes are painted in another order")
	}
	return append(all, marks(number, printed.Marks, today.Marks)...)
}

// texts pairs what stands in the same place; what merely moved is told once.
func texts(number int, printed, today []pdf.SeenText) []PageDifference {
	left := map[pdf.SeenText]int{}
	for _, t := range today {
		left[at(t)]++
	}
	var gone []pdf.SeenText
	for _, t := range printed {
		if left[at(t)] > 0 {
			left[at(t)]--
		} else {
			gone = append(gone, at(t))
		}
	}
	var fresh []pdf.SeenText
	for _, t := range today {
		if left[at(t)] > 0 {
			left[at(t)]--
			fresh = append(fresh, at(t))
		}
	}
	var all []PageDifference
	used := make([]bool, len(fresh))
	pair := func(same func(a, b pdf.SeenText) bool, tell func(a, b pdf.SeenText)) {
		kept := gone[:0]
		for _, g := range gone {
			found := false
			for i, f := range fresh {
				if !used[i] && same(g, f) {
					used[i], found = true, true
					tell(g, f)
					break
				}
			}
			if !found {
				kept = append(kept, g)
			}
		}
		gone = kept
	}
	moved := 0
	pair(func(a, b pdf.SeenText) bool { return a.X == b.X && a.Y == b.Y && a.Text != b.Text }, func(a, b pdf.SeenText) {
		all = append(all, PageDifference{Page: number, Printed: a.Text, Today: b.Text})
	})
	pair(func(a, b pdf.SeenText) bool { return a.Text == b.Text }, func(a, b pdf.SeenText) { moved++ })
	pair(func(a, b pdf.SeenText) bool { return a.Y == b.Y }, func(a, b pdf.SeenText) {
		all = append(all, PageDifference{Page: number, Printed: a.Text, Today: b.Text})
	})
	for _, g := range gone {
		all = append(all, PageDifference{Page: number, Printed: g.Text})
	}
	for i, f := range fresh {
		if !used[i] {
			all = append(all, PageDifference{Page: number, Today: f.Text})
		}
	}
	if moved > 0 {
		all = append(all, PageDifference{Page: number, What: fmt.Sprintf("%d texts stand elsewhere or in another type", moved)})
	}
	return all
}

// at is a text with its place to a tenth of a point.
func at(t pdf.SeenText) pdf.SeenText {
	t.X, t.Y = math.Round(t.X*10)/10, math.Round(t.Y*10)/10
	return t
}

// marks holds fields, links and remarks against those that belong there. What was filled in is no difference.
func marks(number int, printed, today []pdf.SeenMark) []PageDifference {
	left := map[pdf.SeenMark]int{}
	for _, m := range today {
		left[m]++
	}
	blank := map[pdf.SeenMark]int{} // by kind, name and place alone
	for _, m := range today {
		blank[pdf.SeenMark{Kind: m.Kind, Name: m.Name, Where: m.Where}]++
	}
	odd := map[string]int{}
	for _, m := range printed {
		switch place := (pdf.SeenMark{Kind: m.Kind, Name: m.Name, Where: m.Where}); {
		case left[m] > 0:
			left[m]--
			blank[place]--
		case m.Filled && blank[place] > 0:
			blank[place]--
		default:
			odd[m.Kind]++
		}
	}
	var all []PageDifference
	for _, kind := range sorted(odd) {
		all = append(all, PageDifference{Page: number, What: fmt.Sprintf("%d of the things that lie on it were not printed there (%s): they may hide what is below", odd[kind], kind)})
	}
	missing := 0
	for _, n := range blank {
		missing += max(n, 0)
	}
	if missing > 0 && len(odd) == 0 {
		all = append(all, PageDifference{Page: number, What: fmt.Sprintf("%d of its fields and links are missing", missing)})
	}
	return all
}

// letters names the characters whose shapes are not those of the fonts that are printed with.
func letters(printed, today *pdf.Seen) string {
	var wrong []string
	for letter, shape := range today.Letters {
		if have, ok := printed.Letters[letter]; ok && have != shape {
			wrong = append(wrong, letter.Text)
		}
	}
	count := map[string]int{}
	for _, w := range wrong {
		count[w]++
	}
	return strings.Join(sorted(count), " ")
}
