package paper

import (
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hoistbook/render/page"
)

// Every fact of the report stands on the calculation sheet with its value, and the sheet has no fact that the report lacks.
func TestFactsOnPaperAreThoseOfTheReport(t *testing.T) {
	for _, e := range editions {
		r := e.report(t)
		decimal := map[string]string{"en": ".", "de": ","}[e.language]
		found := map[string]string{}
		for _, row := range e.rows(t) {
			id := row.fact(r.Facts)
			if id == "" {
				continue
			}
			if before, twice := found[id]; twice && before != row.value {
				t.Errorf("%s: %s stands twice, as %q and as %q", e.kit, id, before, row.value)
			}
			found[id] = row.value
		}
		for id, value := range r.Facts {
			printed, ok := found[id]
			if !ok {
				t.Errorf("%s: %s is not on the sheet", e.kit, id)
				continue
			}
			if err := agrees(id, value, printed, decimal); err != nil {
				t.Errorf("%s: %s: %v", e.kit, id, err)
			}
		}
		if len(found) < 150 {
			t.Errorf("%s: only %d facts were found", e.kit, len(found))
		}
	}
}

// A row of the calculation sheet as it stands on paper: its words in reading order, without and with spaces, and its value.
type row struct {
	family string // the id with a star above it, if any
	words  []string
	value  string
}

// rows reads the sheet from the file. Its tables part rows by lines that poppler does not tell of; a row begins where a value stands at the
// right edge of the column of values, or where bold words begin.
func (e *edition) rows(t *testing.T) []row {
	t.Helper()
	var all []row
	for _, s := range read(t, filepath.Join(e.print(t), "calculation.pdf")) {
		for _, r := range s.rows() {
			all = append(all, r.parted()...)
		}
	}
	family := ""
	for i := range all {
		if id := all[i].starred(); id != "" {
			family = id
		}
		all[i].family = family
	}
	return all
}

// parted takes the title of a family from its first member where that is a word: they follow each other as lines of one row do.
func (r row) parted() []row {
	for i, w := range r.words {
		if strings.Contains(w, ".*.") && !strings.HasSuffix(w, ":") && i+1 < len(r.words) {
			return []row{{words: r.words[:i+1]}, {words: r.words[i+1:], value: r.value}}
		}
	}
	return []row{r}
}

// titles are the heads of the columns of values, in the languages of the editions.
var titles = []string{"Value", "Wert"}

// rows parts a page into its tables and their columns by the heads of the columns, and each column into rows.
func (s sheet) rows() []row {
	text := page.SheetMargins.Inside(page.Paper{Width: s.paper.W, Height: s.paper.H})
	var heads, body []word
	for _, w := range s.words {
		switch {
		case w.Y < text.Y || w.Bottom() > text.Bottom():
		case slices.Contains(titles, w.text):
			heads = append(heads, w)
		default:
			body = append(body, w)
		}
	}
	tables := lines(heads)
	var all []row
	for i, table := range tables {
		bottom := text.Bottom()
		if i+1 < len(tables) {
			bottom = tables[i+1][0].Y - 1
		}
		left := text.X
		for _, h := range table {
			var column []word
			for _, w := range body {
				if w.X >= left-1 && w.X < h.Right()+1 && w.Y > h.Y+1 && w.Y < bottom {
					column = append(column, w)
				}
			}
			all = append(all, rowsOf(lines(column), h.Right())...)
			left = h.Right() + 1
		}
	}
	return all
}

// rowsOf gathers lines to rows: one begins at every line with a value, and after a gap that is wider than between lines.
func rowsOf(all []line, edge page.MM) []row {
	const leading = page.MM(4.6) // lines of one row follow within this
	var rows []row
	last := page.MM(-100)
	for _, l := range all {
		value, rest := valueOf(l, edge)
		if value != "" || l[0].Y-last > leading || len(rows) == 0 {
			rows = append(rows, row{value: value})
		}
		last = l[0].Y
		now := &rows[len(rows)-1]
		for _, w := range rest {
			now.words = append(now.words, w.text)
		}
	}
	return rows
}

// valueOf parts a line into what ends at the edge of the column of values and what stands before.
func valueOf(l line, edge page.MM) (value string, rest line) {
	if math.Abs(float64(l[len(l)-1].Right()-edge)) > 0.4 {
		return "", l
	}
	const space = page.MM(2.2) // words of one value are nearer to each other
	from := len(l) - 1
	for from > 0 && l[from].X-l[from-1].Right() < space {
		from--
	}
	if from == 0 {
		return "", l // words that happen to end there
	}
	return l[from:].String(), l[:from]
}

// starred is the id of a family that a row names.
func (r row) starred() string {
	for _, w := range r.words {
		if strings.Contains(w, ".*.") {
			return strings.TrimSuffix(w, ":")
		}
	}
	return ""
}

// fact is the id of the fact that a row is about: one that it names, or, of a family, that of the subject with which it begins. A value that
// is a word stands behind an equals sign.
func (r *row) fact(known map[string]any) string {
	if r.starred() != "" {
		return ""
	}
	id, at := "", math.MaxInt
	joined := strings.Join(r.words, "")
	for k := range known {
		if i := strings.Index(joined, strings.ReplaceAll(k, " ", "")); i >= 0 && (i < at || i == at && len(k) > len(id)) {
			id, at = k, i
		}
	}
	text := strings.Join(r.words, " ")
	if before, after, ok := strings.Cut(r.family, ".*."); ok {
		for k := range known {
			subject, of := strings.CutPrefix(k, before+".")
			subject, of2 := strings.CutSuffix(subject, "."+after)
			if of && of2 && (text == subject || strings.HasPrefix(text, subject+" ")) {
				id = k
			}
		}
	}
	if r.value == "" {
		if i := slices.Index(r.words, "="); i >= 0 {
			r.value = strings.Join(r.words[i+1:], " ")
		}
	}
	return id
}
