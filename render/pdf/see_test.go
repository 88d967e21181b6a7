package pdf

import (
	"bytes"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hoistbook/render/page"
)

func seen(t testing.TB, b []byte) *Seen {
	t.Helper()
	s, err := See(b)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What is seen is what pdftotext (poppler) reads: the same characters on every page, white space aside.
func TestSeenTextsAgainstAnotherReader(t *testing.T) {
	for _, paper := range papers {
		doc := sampleOn(t, paper)
		file, b := written(t, doc)
		s := seen(t, b)
		pages := strings.Split(string(tool(t, "pdftotext", "-raw", file, "-")), "\f")
		if len(s.Pages) != len(doc.Pages) || len(pages) != len(doc.Pages)+1 {
			t.Fatalf("%s: %d pages are seen and %d read, want %d", paper.Name, len(s.Pages), len(pages)-1, len(doc.Pages))
		}
		for i, p := range s.Pages {
			var texts []string
			for _, text := range p.Texts {
				texts = append(texts, text.Text)
			}
			if ours, theirs := letters(strings.Join(texts, "")), letters(pages[i]); ours != theirs {
				t.Errorf("%s, page %d: seen %q, read %q", paper.Name, i+1, ours, theirs)
			}
		}
	}
}

// letters sorts what is printed, because readers put columns in another order than writers; lines that stand beside each other
// would make two texts differ that are the same.
func letters(text string) string {
	list := slices.Sorted(slices.Values([]rune(strings.Join(strings.Fields(text), ""))))
	return string(list)
}

// Texts are seen where they were put, with their characters.
func TestSeenTextsAgainstTheDocument(t *testing.T) {
	doc := sampleOn(t, page.A4)
	_, b := written(t, doc)
	for i, p := range seen(t, b).Pages {
		var want []string
		for it := range doc.Pages[i].All() {
			if text, ok := it.(page.Text); ok && text.Text != "" {
				want = append(want, text.Text)
			}
		}
		var got []string
		for _, text := range p.Texts {
			got = append(got, text.Text)
		}
		if !slices.Equal(got, want) {
			t.Errorf("page %d: got %q, want %q", i+1, got, want)
		}
	}
}

// Two files of one document are seen alike, and so are files of the same pages with other attachments and dates.
func TestEqualDocumentsAreSeenAlike(t *testing.T) {
	_, b := written(t, sampleOn(t, page.A4))
	other := sampleOn(t, page.A4)
	other.Attachments = append(other.Attachments, page.Attachment{Name: "more.txt", Data: []byte("more")})
	other.Title = "another title"
	_, c := written(t, other)
	if bytes.Equal(b, c) {
		t.Fatal("the files are the same")
	}
	one, two := seen(t, b), seen(t, c)
	for i := range one.Pages {
		x, y := one.Pages[i], two.Pages[i]
		if x.Shapes != y.Shapes || x.Order != y.Order || !slices.Equal(x.Texts, y.Texts) || !slices.Equal(x.Marks, y.Marks) {
			t.Errorf("page %d is seen otherwise", i+1)
		}
	}
	for letter, shape := range one.Letters {
		if two.Letters[letter] != shape {
			t.Errorf("%v has another shape", letter)
		}
	}
	if len(one.Letters) < 30 || len(one.Extras) > 0 {
		t.Errorf("%d letters and %q", len(one.Letters), one.Extras)
	}
}

// A letter has its shape whatever number its glyph has: a document that uses more letters before it numbers them otherwise.
func TestShapesDoNotHangOnNumbers(t *testing.T) {
	doc := func(text string) *Seen {
		_, b := written(t, &page.Document{Title: "t", Language: "en", Fonts: page.NewFonts(), Pages: []page.Page{{Paper: page.A4, Items: []page.Item{
			page.Text{X: 20, Y: 20, Size: 10, Text: text}, page.Text{X: 20, Y: 40, Size: 10, Text: "Äß3 m²"}}}}})
		return seen(t, b)
	}
	one, two := doc("a"), doc("zyx0123456789 ÄÖÜ")
	for letter, shape := range one.Letters {
		if have, ok := two.Letters[letter]; ok && have != shape {
			t.Errorf("%v has two shapes", letter)
		}
	}
	differ := map[string]Letter{}
	for letter, shape := range two.Letters {
		if other, again := differ[shape]; again && strings.TrimSpace(letter.Text+other.Text) != "" {
			t.Errorf("%v looks like %v", letter, other)
		}
		differ[shape] = letter
	}
}

var contents = regexp.MustCompile(`/Contents (\d+) 0 R`)

// Whatever is changed in a page is seen: one shape, one place, one colour, the size of the sheet.
func TestChangesAreSeen(t *testing.T) {
	base := func() *page.Document {
		return &page.Document{Title: "t", Language: "en", Fonts: page.NewFonts(), Pages: []page.Page{{Paper: page.A4, Items: []page.Item{
			page.Text{X: 20, Y: 20, Size: 10, Text: "at least 3.1 kg"}, page.Rect{Box: page.Box{X: 10, Y: 10, W: 50, H: 20}, Stroke: page.Stroke{Width: 0.4}},
			page.TickBox{X: 20, Y: 40, Size: 5, Name: "tick", Label: "done"}, page.Link{Box: page.Box{X: 10, Y: 60, W: 10, H: 5}, To: "https://hoistbook.example/"}}}}}
	}
	look := func(change func(items []page.Item) []page.Item) SeenPage {
		doc := base()
		doc.Pages[0].Items = change(doc.Pages[0].Items)
		_, b := written(t, doc)
		return seen(t, b).Pages[0]
	}
	same := look(func(i []page.Item) []page.Item { return i })
	for name, change := range map[string]func(i []page.Item) []page.Item{
		"a text": func(i []page.Item) []page.Item {
			return append([]page.Item{page.Text{X: 20, Y: 20, Size: 10, Text: "at least 3.7 kg"}}, i[1:]...)
		},
		"a place": func(i []page.Item) []page.Item {
			return append([]page.Item{page.Text{X: 21, Y: 20, Size: 10, Text: "at least 3.1 kg"}}, i[1:]...)
		},
		"a size": func(i []page.Item) []page.Item {
			return append([]page.Item{page.Text{X: 20, Y: 20, Size: 11, Text: "at least 3.1 kg"}}, i[1:]...)
		},
		"an ink": func(i []page.Item) []page.Item {
			return append([]page.Item{page.Text{X: 20, Y: 20, Size: 10, Ink: page.White, Text: "at least 3.1 kg"}}, i[1:]...)
		},
		"a cover": func(i []page.Item) []page.Item {
			return append(i, page.Rect{Box: page.Box{X: 10, Y: 10, W: 90, H: 20}, Fill: page.White})
		},
		"an order": func(i []page.Item) []page.Item { return []page.Item{i[1], i[0], i[2], i[3]} },
		"a box": func(i []page.Item) []page.Item {
			return []page.Item{i[0], i[1], page.TickBox{X: 30, Y: 40, Size: 5, Name: "tick", Label: "done"}, i[3]}
		},
		"a link": func(i []page.Item) []page.Item {
			return []page.Item{i[0], i[1], i[2], page.Link{Box: page.Box{X: 10, Y: 60, W: 10, H: 5}, To: "https://elsewhere.example/"}}
		},
	} {
		if p := look(change); slices.Equal(p.Texts, same.Texts) && p.Shapes == same.Shapes && p.Order == same.Order && slices.Equal(p.Marks, same.Marks) {
			t.Errorf("%s is not seen", name)
		}
	}
}

func FuzzSee(f *testing.F) {
	doc, err := Bytes(sampleOn(f, page.A4))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	if at := contents.FindIndex(doc); at != nil {
		f.Add(doc[:at[0]])
	}
	f.Fuzz(func(t *testing.T, b []byte) { _, _ = See(b) })
}

// Files that were saved by other programs in their own form are refused in words.
func TestSeeRefusesOtherForms(t *testing.T) {
	file, _ := written(t, sampleOn(t, page.A4))
	packed := file + ".packed.pdf"
	tool(t, "qpdf", "--object-streams=generate", file, packed)
	b, err := os.ReadFile(packed)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := See(b); err == nil || !strings.Contains(err.Error(), "saved by another program") {
		t.Errorf("got %v", err)
	}
}
