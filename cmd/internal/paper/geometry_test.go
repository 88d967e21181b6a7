package paper

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/doc"
	"hoistbook/render/page"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// Nothing stands outside the margins: words are in the text block, or in the running lines above and below it.
func TestWordsStandInsideTheMargins(t *testing.T) {
	for _, e := range editions {
		read := read(t, e.book(t))
		for i, s := range read {
			text := page.SheetMargins.Inside(page.Paper{Width: s.paper.W, Height: s.paper.H})
			const running = page.MM(14) // the room of the running lines: 8 mm from the edge, which every printer reaches
			inside := page.Box{X: text.X - 0.3, Y: text.Y - running, W: text.W + 0.6, H: text.H + 2*running}
			for _, w := range s.words {
				if !inside.Holds(w.Box) {
					t.Errorf("%s page %d: %q at %s stands outside %s", e.kit, i+1, w.text, w.Box, inside)
				}
			}
		}
		if len(read) < 40 {
			t.Errorf("%s: only %d pages were looked at", e.kit, len(read))
		}
	}
}

// No two words lie on each other. Poppler's boxes reach from ascent to descent, which lines set with the usual leading do not share; a
// third of their height is left for a sign that stands high or low.
func TestWordsDoNotOverlap(t *testing.T) {
	for _, e := range editions {
		compared := 0
		for i, s := range read(t, e.book(t)) {
			for k, a := range s.words {
				for _, b := range s.words[k+1:] {
					compared++
					across := min(a.Right(), b.Right()) - max(a.X, b.X)
					down := min(a.Bottom(), b.Bottom()) - max(a.Y, b.Y)
					if across > 0.2 && down > min(a.H, b.H)/3 {
						t.Errorf("%s page %d: %q at %s and %q at %s lie on each other", e.kit, i+1, a.text, a.Box, b.text, b.Box)
					}
				}
			}
		}
		if compared < 100_000 {
			t.Errorf("%s: only %d pairs of words were compared", e.kit, compared)
		}
	}
}

// pages are the pages of an edition's book before they become a file.
func (e *edition) pages(t *testing.T) *page.Document {
	t.Helper()
	source, ok := kits.Demo(e.kit)
	if !ok {
		t.Fatalf("no kit %q", e.kit)
	}
	m, err := manifest.Load(source)
	if err != nil {
		t.Fatal(err)
	}
	all, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		t.Fatal(err)
	}
	words, err := doc.Language(e.language)
	if err != nil {
		t.Fatal(err)
	}
	in := doc.Gather(kits.Assess(m), all, e.system, words)
	in.Paper, in.Date = e.paper, printedOn
	book, err := doc.Book(in)
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// Nothing is cut off and nothing is lost: page by page, poppler reads as many of every letter as were set. In the text block nothing ends
// in an ellipsis that nobody wrote.
func TestEveryLetterIsOnPaper(t *testing.T) {
	for _, e := range editions {
		set, got := e.pages(t), read(t, e.book(t))
		if len(set.Pages) != len(got) {
			t.Fatalf("%s: %d pages were set, %d are in the file", e.kit, len(set.Pages), len(got))
		}
		for i, p := range set.Pages {
			text := page.SheetMargins.Inside(p.Paper)
			count := map[rune]int{}
			letters := 0
			for it := range p.All() {
				w, ok := it.(page.Text)
				if !ok {
					continue
				}
				if w.Y > text.Y && w.Y < text.Bottom() && strings.HasSuffix(w.Text, "…") {
					t.Errorf("%s page %d: %q is cut off", e.kit, i+1, w.Text)
				}
				for _, r := range w.Text {
					if !unicode.IsSpace(r) {
						count[r]++
						letters++
					}
				}
			}
			for _, w := range got[i].words {
				for _, r := range w.text {
					if !unicode.IsSpace(r) {
						count[r]--
					}
				}
			}
			var wrong []string
			for r, n := range count {
				if n != 0 {
					wrong = append(wrong, fmt.Sprintf("%q %+d", r, -n))
				}
			}
			if len(wrong) > 0 {
				t.Errorf("%s page %d: more or fewer letters than were set: %s", e.kit, i+1, strings.Join(wrong, ", "))
			}
			if letters < 100 {
				t.Errorf("%s page %d: only %d letters", e.kit, i+1, letters)
			}
		}
	}
}
