package page

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

func flowOn(p Paper) *Flow { return NewFlow(Setup{Paper: p}) }

func finished(t *testing.T, f *Flow) *Document {
	t.Helper()
	doc, err := f.Finish(Document{Title: "test"})
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// textsOf are the texts of each page, in the order of painting.
func textsOf(doc *Document) [][]string {
	var pages [][]string
	for _, p := range doc.Pages {
		var texts []string
		for it := range p.All() {
			if text, ok := it.(Text); ok {
				texts = append(texts, text.Text)
			}
		}
		pages = append(pages, texts)
	}
	return pages
}

func longTable(rows int) Table {
	table := Table{Columns: []Column{{Title: "Part"}, {Title: "What it is", Weight: 1}, {Title: "Mass", Align: Right, Whole: true}}}
	for i := range rows {
		table.Rows = append(table.Rows, Row{Cells: Cells(fmt.Sprintf("P%04d", i), "a part that is described at some length, so that it wraps over two lines of the table", fmt.Sprintf("%d g", i))})
	}
	return table
}

// A table of two thousand rows keeps its order, repeats its head on every page and loses no row.
func TestLongTable(t *testing.T) {
	f := flowOn(A4)
	f.Add(Heading{Text: "Bill of materials"}, longTable(2000))
	next := 0
	for i, texts := range textsOf(finished(t, f)) {
		heads := 0
		for _, text := range texts {
			if text == "Part" {
				heads++
			}
			if strings.HasPrefix(text, "P") && len(text) == 5 {
				if want := fmt.Sprintf("P%04d", next); text != want {
					t.Fatalf("page %d: got row %s, want %s", i+1, text, want)
				}
				next++
			}
		}
		if heads != 1 {
			t.Errorf("page %d has %d table heads, want 1", i+1, heads)
		}
	}
	if next != 2000 {
		t.Errorf("%d rows came out, want 2000", next)
	}
}

// Four times the rows take four times the work, counted in allocations, which do not depend on the machine's mood.
func TestLayoutIsLinear(t *testing.T) {
	work := func(rows int) float64 {
		table := longTable(rows)
		return testing.AllocsPerRun(1, func() {
			f := flowOn(A4)
			f.Add(table)
			finished(t, f)
		})
	}
	few, many := work(500), work(2000)
	if many > 4.2*few {
		t.Errorf("500 rows take %.0f allocations, 2000 take %.0f: %.1f times as many", few, many, many/few)
	}
}

// Wherever on a page a heading would come, it is on the page of the text that follows it.
func TestHeadingIsNotOrphaned(t *testing.T) {
	for filling := range 80 {
		f := flowOn(A4)
		for range filling {
			f.Add(Paragraph{Text: Plain("filling")})
		}
		f.Add(Heading{Level: 1, Text: "Heading"}, Heading{Level: 2, Text: "Lower heading"}, longTable(3))
		for i, texts := range textsOf(finished(t, f)) {
			if slices.Contains(texts, "Heading") && (!slices.Contains(texts, "Lower heading") || !slices.Contains(texts, "P0000")) {
				t.Errorf("after %d paragraphs the heading stands alone at the foot of page %d", filling, i+1)
			}
		}
	}
}

// A group's head stays with its first row, and a total with the row above it.
func TestRowsThatBelongTogether(t *testing.T) {
	for filling := range 60 {
		table := longTable(filling)
		table.Rows = append(table.Rows, Row{Kind: Group, Cells: Cells("Group")}, Row{Cells: Cells("first")}, Row{Cells: Cells("middle")}, Row{Cells: Cells("last")}, Row{Kind: Total, Cells: Cells("Total")})
		f := flowOn(Letter)
		f.Add(table)
		for _, texts := range textsOf(finished(t, f)) {
			for _, pair := range [][2]string{{"Group", "first"}, {"Total", "last"}} {
				if slices.Contains(texts, pair[0]) && !slices.Contains(texts, pair[1]) {
					t.Errorf("after %d rows %q is parted from %q", filling, pair[0], pair[1])
				}
			}
		}
	}
}

// A row higher than a page is parted, and all of it is there.
func TestRowHigherThanAPage(t *testing.T) {
	words := strings.Fields(strings.Repeat("word ", 3000))
	for i := range words {
		words[i] = fmt.Sprintf("w%d", i)
	}
	f := flowOn(A4)
	f.Add(Table{Columns: []Column{{Title: "Long", Weight: 1}, {Title: "Short"}}, Rows: []Row{{Cells: Cells(strings.Join(words, " "), "x")}}})
	doc := finished(t, f)
	var got []string
	for _, texts := range textsOf(doc) {
		for _, text := range texts {
			if strings.HasPrefix(text, "w") {
				got = append(got, strings.Fields(text)...)
			}
		}
	}
	if len(doc.Pages) < 3 || !slices.Equal(got, words) {
		t.Errorf("%d words on %d pages, want %d in their order on at least 3", len(got), len(doc.Pages), len(words))
	}
}

// What is kept together moves to the next page as a whole.
func TestTogether(t *testing.T) {
	f := flowOn(A4)
	f.Add(Space(1), Paragraph{Text: Plain("before")}, Space(200), Paragraph{Text: Plain("still on page 1")},
		Together{Paragraph{Text: Plain("one")}, Space(30), Paragraph{Text: Plain("two")}}, Space(80), Paragraph{Text: Plain("three")})
	pages := textsOf(finished(t, f))
	if want := [][]string{{"before", "still on page 1"}, {"one", "two", "three"}}; !slices.EqualFunc(pages, want, slices.Equal) {
		t.Errorf("got %q, want %q", pages, want)
	}
}

// Page breaks do not make empty pages, and sections and papers begin pages of their own.
func TestPageBreaks(t *testing.T) {
	f := flowOn(A4)
	var sections []string
	f.setup.Running = func(p Place) []Item {
		sections = append(sections, fmt.Sprintf("%d/%d %s %s", p.Number, p.Count, p.Section, p.Paper.Name))
		return nil
	}
	f.Add(PageBreak{}, PageBreak{}, Paragraph{Text: Plain("one")}, PageBreak{}, PageBreak{})
	f.Section("Part two")
	f.Add(Paragraph{Text: Plain("two")})
	f.SetPaper(A4.Landscape())
	f.Add(Paragraph{Text: Plain("three")}, PageBreak{})
	pages := textsOf(finished(t, f))
	if want := [][]string{{"one"}, {"two"}, {"three"}}; !slices.EqualFunc(pages, want, slices.Equal) {
		t.Errorf("got %q, want %q", pages, want)
	}
	if want := []string{"1/3  A4", "2/3 Part two A4", "3/3 Part two A4 landscape"}; !slices.Equal(sections, want) {
		t.Errorf("got %q, want %q", sections, want)
	}
}

// The list of contents shows the page on which each anchor really stands.
func TestContents(t *testing.T) {
	f := flowOn(A4)
	f.Add(Contents{{Text: "First", Anchor: "a"}, {Text: "Second", Anchor: "b"}},
		PageBreak{}, Heading{Text: "First", Anchor: "a"}, PageBreak{}, Paragraph{Text: Plain("between")}, PageBreak{}, Heading{Text: "Second", Anchor: "b"})
	if got, want := textsOf(finished(t, f))[0], []string{"First", "2", "Second", "4"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// The first error sticks, says what is wrong, and no document comes out.
func TestErrors(t *testing.T) {
	for _, c := range []struct {
		name string
		add  func(*Flow)
		want string
	}{
		{"no content", func(f *Flow) {}, "no content"},
		{"heading level", func(f *Flow) { f.Add(Heading{Level: 3, Text: "x"}) }, "0 to 2"},
		{"too many cells", func(f *Flow) { f.Add(Table{Columns: []Column{{}}, Rows: []Row{{Cells: Cells("a", "b")}}}) }, "row 1 takes 2 columns of 1"},
		{"too many columns", func(f *Flow) { f.Add(Table{Columns: make([]Column, 40)}) }, "40 columns"},
		{"no columns", func(f *Flow) { f.Add(Table{}) }, "0 columns"},
		{"unknown anchor", func(f *Flow) { f.Add(Contents{{Text: "x", Anchor: "nowhere"}}) }, `"nowhere"`},
		{"anchor twice", func(f *Flow) { f.Add(Heading{Text: "x", Anchor: "a"}, Heading{Text: "y", Anchor: "a"}) }, "once"},
		{"drawing outside its box", func(f *Flow) { f.Add(Figure{W: 10, H: 10, Items: []Item{Line{0, 0, 30, 0, Stroke{Width: 1}}}}) }, "outside its box"},
		{"figure without size", func(f *Flow) { f.Add(Figure{}) }, "positive"},
		{"columns in columns", func(f *Flow) {
			f.Add(Columns{Count: 2, Blocks: []Block{Columns{Count: 1, Blocks: []Block{Rule{}}}}})
		}, "inside columns"},
		{"paper too small", func(f *Flow) { f.SetPaper(Paper{"stamp", 30, 40}) }, "at least 60"},
		{"shares", func(f *Flow) { f.Add(Beside{Shares: []float64{1}, Blocks: [][]Block{{}, {}}}) }, "1 shares"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := flowOn(A4)
			c.add(f)
			if f.Err() != nil {
				f.Add(Heading{Level: 99, Text: "a later error does not hide the first"})
			}
			doc, err := f.Finish(Document{})
			if err == nil || !strings.Contains(err.Error(), c.want) || doc != nil {
				t.Errorf("got %v, %v; want an error with %q", doc, err, c.want)
			}
		})
	}
}

func BenchmarkTable2000(b *testing.B) {
	table := longTable(2000)
	for b.Loop() {
		f := flowOn(A4)
		f.Add(table)
		if _, err := f.Finish(Document{}); err != nil {
			b.Fatal(err)
		}
	}
}

// A head comes again on every further page that its blocks reach, and not where they fit on one.
func TestUnder(t *testing.T) {
	for rows, pages := range map[int]int{3: 1, 60: 2, 200: 5} {
		f := flowOn(A4)
		f.Add(Heading{Level: 1, Text: "Rig the line", Aside: "winch hand"})
		for i := range rows {
			f.Add(Under{Head: Heading{Level: 2, Text: "again", Aside: "winch hand", Silent: true}, Blocks: []Block{Paragraph{Text: Plain(fmt.Sprintf("step %d", i))}}})
		}
		doc := finished(t, f)
		if err := doc.Check(); err != nil {
			t.Fatal(err)
		}
		again := 0
		for i, texts := range textsOf(doc) {
			if heads := strings.Count(strings.Join(texts, " "), "again"); heads > 1 || heads == 1 && (i == 0 || texts[0] != "again") {
				t.Errorf("%d rows: page %d has the head %d times, and begins %q", rows, i+1, heads, texts[0])
			} else {
				again += heads
			}
		}
		if want := len(doc.Pages) - 1; again != want {
			t.Errorf("%d rows: the head came again %d times on %d pages", rows, again, len(doc.Pages))
		}
		if len(doc.Pages) < pages {
			t.Errorf("%d rows took only %d pages", rows, len(doc.Pages))
		}
	}
}
