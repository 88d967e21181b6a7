package page

import (
	"slices"
	"testing"
)

// chapters are paragraphs with their white, and what they say in order.
func chapters(n int) (blocks []Block, want []string) {
	for i := range n {
		text := "p" + string(rune('A'+i/26)) + string(rune('a'+i%26))
		blocks, want = append(blocks, Paragraph{Text: Plain(text)}), append(want, text)
	}
	return blocks, want
}

// reach is how much of each page's height is set.
func reach(doc *Document) []MM {
	frame := SheetMargins.Inside(A4)
	shares := make([]MM, len(doc.Pages))
	for i, p := range doc.Pages {
		for _, it := range p.Items {
			if box, ok := it.bounds(doc.Fonts); ok {
				shares[i] = max(shares[i], (box.Bottom()-frame.Y)/frame.H)
			}
		}
	}
	return shares
}

// Whatever the number of blocks: all stand in their order, the last page has its share, and no page is set for less than narrower white
// saves. Each paragraph takes 4.5 mm and 3 mm of white: 34 fill a page as they are, 41 with the narrowest white.
func TestLastPagesHaveTheirShare(t *testing.T) {
	for n := 1; n <= 120; n++ {
		blocks, want := chapters(n)
		f := flowOn(A4)
		f.Add(blocks...)
		doc := finished(t, f)
		if got := slices.Concat(textsOf(doc)...); !slices.Equal(got, want) {
			t.Fatalf("%d paragraphs: got %q", n, got)
		}
		shares := reach(doc)
		last := shares[len(shares)-1]
		if len(shares) > 1 && last < leastLast-0.01 {
			t.Errorf("%d paragraphs: pages are filled by %.2f", n, shares)
		}
		for _, s := range shares {
			if s > 1.001 {
				t.Errorf("%d paragraphs: a page is filled by %.3f", n, s)
			}
		}
	}
}

// What is kept together stays so on pages that end higher, and a block as high as a page is set all the same.
func TestEvenPagesPartNothing(t *testing.T) {
	frame := SheetMargins.Inside(A4)
	tall := Figure{W: 20, H: frame.H - 2, Items: []Item{Text{X: 1, Y: 9, Size: 8, Text: "tall"}}}
	f := flowOn(A4)
	f.Add(tall, Together{Paragraph{Text: Plain("one")}, Paragraph{Text: Plain("two")}})
	doc := finished(t, f)
	want := [][]string{{"tall"}, {"one", "two"}}
	if got := textsOf(doc); !slices.EqualFunc(got, want, slices.Equal) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Sections are evened each by itself: the second page of the first does not take from the second section.
func TestSectionsAreEvenedAlone(t *testing.T) {
	f := flowOn(A4)
	first, _ := chapters(36)
	f.Section("first")
	f.Add(first...)
	f.Section("second")
	f.Add(Paragraph{Text: Plain("alone")})
	pages := textsOf(finished(t, f))
	if len(pages) != 2 || !slices.Equal(pages[1], []string{"alone"}) {
		t.Errorf("got %d pages, the last %q", len(pages), pages[len(pages)-1])
	}
}

// A panel that may part goes on overleaf under its signal word, with whole texts; nothing is lost.
func TestPanelsPart(t *testing.T) {
	f := flowOn(A4)
	f.Add(Space(1), Paragraph{Text: Plain("before")}, Space(200), Paragraph{Text: Plain("foot")}, Panel{Signal: Warning, Word: "WARNING", Parts: true,
		Text: []Words{Plain("one"), Plain("two"), Plain("three"), Plain("four"), Plain("five"), Plain("six")}}, Space(90), Paragraph{Text: Plain("after")})
	pages := textsOf(finished(t, f))
	want := [][]string{{"before", "foot", "WARNING", "one", "two", "three"}, {"WARNING", "four", "five", "six", "after"}}
	if !slices.EqualFunc(pages, want, slices.Equal) {
		t.Errorf("got %q, want %q", pages, want)
	}
}
