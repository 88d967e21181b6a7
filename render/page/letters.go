package page

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// The two reasons for which a letter cannot be printed.
var (
	ErrLacking = errors.New("no font has")
	ErrScript  = errors.New("cannot be set")
)

// shaped are the scripts that come out wrong when they are set letter by letter from left to right: they run from right to left, or
// letters change with their neighbours. (Unicode Standard, chapters 9 and 12 to 16.)
var shaped = map[string]*unicode.RangeTable{
	"Arabic": unicode.Arabic, "Bengali": unicode.Bengali, "Devanagari": unicode.Devanagari, "Gujarati": unicode.Gujarati,
	"Gurmukhi": unicode.Gurmukhi, "Hebrew": unicode.Hebrew, "Kannada": unicode.Kannada, "Khmer": unicode.Khmer, "Lao": unicode.Lao,
	"Malayalam": unicode.Malayalam, "Mongolian": unicode.Mongolian, "Myanmar": unicode.Myanmar, "Nko": unicode.Nko, "Oriya": unicode.Oriya,
	"Sinhala": unicode.Sinhala, "Syriac": unicode.Syriac, "Tamil": unicode.Tamil, "Telugu": unicode.Telugu, "Thaana": unicode.Thaana,
	"Thai": unicode.Thai, "Tibetan": unicode.Tibetan,
}

// firstShaped is the lowest character of all those scripts: nearly every text is done with that one comparison.
const firstShaped = '\u0590'

// scripts lists the scripts of a text that come out wrong, by name.
func scripts(text string) []string {
	var found []string
	for _, r := range text {
		if r < firstShaped {
			continue
		}
		for name, table := range shaped {
			if unicode.Is(table, r) && !slices.Contains(found, name) {
				found = append(found, name)
			}
		}
	}
	slices.Sort(found)
	return found
}

// Letters says in one sentence which characters of the whole document cannot be printed; nil if all can. [Document.Check] finds the same
// and says where.
func (d *Document) Letters() error {
	var lacking []rune
	var wrong []string
	for _, p := range d.Pages {
		for it := range p.All() {
			t, ok := it.(Text)
			if !ok {
				continue
			}
			lacking = append(lacking, d.Fonts.Missing(t.Face, t.Text)...)
			wrong = append(wrong, scripts(t.Text)...)
		}
	}
	slices.Sort(wrong)
	if wrong = slices.Compact(wrong); len(wrong) > 0 {
		return fmt.Errorf("text in the script %s %w: it would need letters that change with their neighbours or run from right to left; write it in another script", strings.Join(wrong, ", "), ErrScript)
	}
	slices.Sort(lacking)
	if lacking = slices.Compact(lacking); len(lacking) > 0 {
		const most = 12
		more := ""
		if n := len(lacking) - most; n > 0 {
			lacking, more = lacking[:most], fmt.Sprintf(" and %d more characters", n)
		}
		return fmt.Errorf("%w %s%s", ErrLacking, characters(lacking), more)
	}
	return nil
}
