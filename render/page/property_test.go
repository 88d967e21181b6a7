package page

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// Whatever is composed: everything stands inside the text block, no two texts overlap, and all the text that was given comes out.
func TestNothingOverflows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := generator{t: t}
		paper := rapid.SampledFrom([]Paper{A4, Letter, A4.Landscape(), {"A5", 148, 210}}).Draw(t, "paper")
		f := NewFlow(Setup{Paper: paper, Scale: rapid.SampledFrom([]*Scale{&Desk, &Afield}).Draw(t, "scale")})
		for range rapid.IntRange(1, 8).Draw(t, "blocks") {
			f.Add(g.block(0))
		}
		g.given = append(g.given, "end")
		f.Add(Paragraph{Text: Plain("end")})
		doc, err := f.Finish(Document{Title: "random"})
		if err != nil {
			t.Fatal(err)
		}
		if err := doc.Check(); err != nil {
			t.Fatal(err)
		}
		inside(t, doc, f.Frame())
		given, printed := letters(strings.Join(g.given, "")), letters(allText(doc))
		if !slices.Equal(given, printed) {
			t.Fatalf("the letters given and those printed differ by %s", difference(given, printed))
		}
	})
}

type fataler interface {
	Fatalf(string, ...any)
	Helper()
}

// inside checks that everything stands inside the frame and that no two texts of a page overlap.
func inside(t fataler, doc *Document, frame Box) {
	t.Helper()
	for i, p := range doc.Pages {
		var boxes []Box
		var texts []string
		for it := range p.All() {
			box, ok := Bounds(it, doc.Fonts)
			if !ok {
				continue
			}
			// A stroke stands astride the line of its place; half a heavy rule may lean out.
			if !frame.grown(heavy / 2).Holds(box) {
				t.Fatalf("page %d: %s leaves the text block %s", i+1, describe(it), frame)
			}
			if text, ok := it.(Text); ok {
				if !frame.Holds(box) {
					t.Fatalf("page %d: %s at %s leaves the text block %s", i+1, describe(it), box, frame)
				}
				boxes, texts = append(boxes, box), append(texts, text.Text)
			}
		}
		for a := range boxes {
			for b := range boxes[:a] {
				if overlap(boxes[a], boxes[b]) {
					t.Fatalf("page %d: %q at %s overlaps %q at %s", i+1, texts[a], boxes[a], texts[b], boxes[b])
				}
			}
		}
	}
}

func overlap(a, b Box) bool {
	const hair = 0.005
	return a.X+hair < b.Right() && b.X+hair < a.Right() && a.Y+hair < b.Bottom() && b.Y+hair < a.Bottom()
}

func allText(doc *Document) string {
	var b strings.Builder
	for _, p := range doc.Pages {
		for it := range p.All() {
			if text, ok := it.(Text); ok {
				b.WriteString(text.Text)
			}
		}
	}
	return b.String()
}

// letters are the printed characters of a text in an order of their own: blocks beside each other may come in any order. Bullets
// are nobody's text, and the signal words, here all of "■", come again where a panel goes on.
func letters(s string) []rune {
	var out []rune
	for _, r := range s {
		if !unicode.IsSpace(r) && r != '\u200b' && r != '•' && r != '■' {
			out = append(out, r)
		}
	}
	slices.Sort(out)
	return out
}

func difference(a, b []rune) string {
	counts := map[rune]int{}
	for _, r := range a {
		counts[r]++
	}
	for _, r := range b {
		counts[r]--
	}
	var out []string
	for r, n := range counts {
		if n != 0 {
			out = append(out, fmt.Sprintf("%q: %+d", r, -n))
		}
	}
	slices.Sort(out)
	return strings.Join(out, ", ")
}

// generator makes blocks and remembers the text that they were given.
type generator struct {
	t     *rapid.T
	given []string
	names int
}

func (g *generator) text(label string) string {
	word := rapid.OneOf(
		rapid.StringMatching(`[a-zA-Z0-9]{1,9}`),
		rapid.StringMatching(`[a-z]{3,9}[-/—][a-z]{3,9}`),
		rapid.StringMatching(`[0-9]{1,3}\.[0-9] (V|kg|m/s|%|°C)`),
		rapid.StringMatching(`[WMm]{20,90}`),
		rapid.SampledFrom([]string{"Ω", "≥", "Łódź", "µm", "\n", "a\u200bb", "x\u00a0y", "é\u0301", "☐", "Ж"}),
	)
	words := rapid.SliceOfN(word, 0, rapid.SampledFrom([]int{3, 12, 60}).Draw(g.t, "length")).Draw(g.t, label)
	s := strings.Join(words, " ")
	if len(words) < 12 && rapid.IntRange(0, 40).Draw(g.t, "huge") == 0 {
		s = strings.Repeat(s+" ", 60)
	}
	g.given = append(g.given, s)
	return s
}

func (g *generator) words(label string) Words {
	face := rapid.SampledFrom([]Face{Sans, Bold, Mono})
	w := Words{{Text: g.text(label), Face: face.Draw(g.t, "face")}}
	if rapid.Bool().Draw(g.t, "more") {
		w = w.Then(Words{{Text: g.text(label), Face: face.Draw(g.t, "face")}})
	}
	return w
}

func (g *generator) name() string {
	g.names++
	return fmt.Sprintf("n%d", g.names)
}

func (g *generator) block(depth int) Block {
	kinds := 10
	if depth == 0 {
		kinds = 14
	}
	switch rapid.IntRange(0, kinds-1).Draw(g.t, "kind") {
	case 0:
		return Heading{Level: rapid.IntRange(0, 2).Draw(g.t, "level"), Text: g.short("heading"), Anchor: g.name()}
	case 1:
		return List{Items: many(g, g.words), Numbered: false}
	case 2:
		var kv KeyValues
		for _, v := range many(g, g.words) {
			kv = append(kv, KeyValue{g.short("key"), v})
		}
		return kv
	case 3, 4:
		return g.table(4 - 2*depth)
	case 5:
		return Panel{Signal: Signal(rapid.IntRange(0, 3).Draw(g.t, "signal")), Word: strings.Repeat("■", rapid.IntRange(1, 8).Draw(g.t, "word")), Text: many(g, g.words)}
	case 6:
		return g.checklist()
	case 7:
		so := SignOff{}
		for range rapid.IntRange(0, 3).Draw(g.t, "lines") {
			so.Lines = append(so.Lines, SignLine{Role: g.short("role"), Name: g.name()})
		}
		return so
	case 8:
		return Code2D{Dark: make([][]bool, 21), Size: 15, Words: g.words("code")}
	case 10:
		return Together{g.block(1), g.block(1)}
	case 11:
		return Beside{Blocks: [][]Block{{g.block(1)}, {g.block(1)}}}
	case 12:
		return Columns{Count: 2, Blocks: []Block{g.block(1), g.block(1)}}
	case 13:
		return rapid.SampledFrom([]Block{PageBreak{}, Rule{}, Space(20)}).Draw(g.t, "break")
	}
	return Paragraph{Text: g.words("paragraph"), Fine: rapid.Bool().Draw(g.t, "fine")}
}

// short is a text as headings and labels have it: it may be a long word, but not half a page.
func (g *generator) short(label string) string {
	s := rapid.StringMatching(`[a-zA-Z]{1,40}( [a-z]{1,12}){0,6}`).Draw(g.t, label)
	g.given = append(g.given, s)
	return s
}

func (g *generator) table(most int) Block {
	n := rapid.IntRange(1, most).Draw(g.t, "columns")
	var table Table
	for range n {
		table.Columns = append(table.Columns, Column{Title: "", Align: Align(rapid.IntRange(0, 2).Draw(g.t, "align")),
			Weight: float64(rapid.IntRange(0, 2).Draw(g.t, "weight")), Whole: rapid.Bool().Draw(g.t, "whole")})
	}
	for range rapid.IntRange(0, 30).Draw(g.t, "rows") {
		row := Row{Kind: RowKind(rapid.IntRange(0, 3).Draw(g.t, "row"))}
		if rapid.IntRange(0, 5).Draw(g.t, "span") == 0 {
			row.Cells = []Cell{{Words: Plain(g.text("cell")), Span: n}}
		} else {
			for range n {
				cell := Cell{Words: Plain(g.text("cell"))}
				if rapid.IntRange(0, 6).Draw(g.t, "tick") == 0 {
					cell.Tick = g.name()
				}
				row.Cells = append(row.Cells, cell)
			}
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

func (g *generator) checklist() Block {
	var list Checklist
	for i := range rapid.IntRange(0, 6).Draw(g.t, "rows") {
		row := CheckRow{Number: fmt.Sprint(i), Challenge: g.words("challenge"), Response: g.words("response"), Name: g.name(), Notes: many(g, g.words), Role: g.short("role")}
		g.given = append(g.given, row.Number)
		if rapid.Bool().Draw(g.t, "read") {
			row.Reading = &Reading{Label: g.short("label"), Unit: g.short("unit")}
		}
		list = append(list, row)
	}
	return list
}

func many(g *generator, one func(string) Words) []Words {
	var out []Words
	for range rapid.IntRange(0, 5).Draw(g.t, "many") {
		out = append(out, one("item"))
	}
	return out
}
