package doc

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits"
	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

var update = flag.Bool("update", false, "write the goldens anew; then read the difference")

// editions are what the goldens show: every demonstration kit, both papers, both systems of units, both languages.
var editions = []struct {
	kit, language string
	paper         page.Paper
	system        unit.System
}{
	{"fen-relay", "en", page.A4, unit.SI},
	{"ridge-sphere", "en", page.Letter, unit.US},
	{"marsh-data", "de", page.A4, unit.SI},
}

func readTableOf(t *testing.T, text string) *Words {
	t.Helper()
	root, err := jsontree.Parse("w.json", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var problems diag.Problems
	w := readTable(root, &problems)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	return w
}

func builtIn(t rapid.TB) rules.Packs {
	t.Helper()
	all, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func words(t rapid.TB, language string) *Words {
	t.Helper()
	w, err := Language(language)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func read(t rapid.TB, name string, data []byte) *kits.Facts {
	t.Helper()
	m, err := manifest.Load(manifest.Source{Name: name, Data: data})
	if err != nil {
		t.Fatal(err)
	}
	return kits.Assess(m)
}

func demo(t rapid.TB, id string) *kits.Facts {
	t.Helper()
	source, ok := kits.Demo(id)
	if !ok {
		t.Fatalf("there is no demonstration kit %q", id)
	}
	return read(t, source.Name, source.Data)
}

// dumped is a document as text, checked.
func dumped(t rapid.TB, d *page.Document, err error) string {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := page.Dump(d, &text); err != nil {
		t.Fatal(err)
	}
	return text.String()
}

// Every document of every demonstration kit comes out as people have looked at it.
func TestDocumentsAreAsReviewed(t *testing.T) {
	all := builtIn(t)
	used := map[string]bool{}
	for _, e := range editions {
		in := Gather(demo(t, e.kit), all, e.system, words(t, e.language))
		in.Paper = e.paper
		for _, d := range All {
			if !d.Applies(in) {
				continue
			}
			doc, err := d.Compose(in)
			golden := filepath.Join("testdata", e.kit+"."+d.Name+".txt")
			used[golden] = true
			compare(t, golden, dumped(t, doc, err))
		}
	}
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !used[f] {
			t.Errorf("%s is compared with nothing", f)
		}
	}
}

func compare(t *testing.T, golden, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got == string(want) {
		return
	}
	g, w := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	for i := range max(len(g), len(w)) {
		if at := func(lines []string) string {
			if i < len(lines) {
				return lines[i]
			}
			return "(nothing)"
		}; at(g) != at(w) {
			t.Errorf("%s: line %d\n got %s\nwant %s\nif it should be so, run the tests of this package with -update", golden, i+1, at(g), at(w))
			return
		}
	}
}

// Every demonstration kit has a golden in some edition.
func TestEditionsShowEveryKit(t *testing.T) {
	shown := map[string]bool{}
	for _, e := range editions {
		shown[e.kit] = true
	}
	for _, id := range kits.Demos() {
		if !shown[id] {
			t.Errorf("no edition shows %s", id)
		}
	}
}

// The book is its documents behind a cover: the same pages but for what counts pages.
func TestBookIsItsDocuments(t *testing.T) {
	all := builtIn(t)
	for _, e := range editions {
		in := Gather(demo(t, e.kit), all, e.system, words(t, e.language))
		in.Paper = e.paper
		book, err := Book(in)
		if err != nil {
			t.Fatal(err)
		}
		dumped(t, book, nil)
		at := 1
		for _, d := range All {
			if !d.Applies(in) {
				continue
			}
			doc, err := d.Compose(in)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range doc.Pages {
				if at >= len(book.Pages) {
					t.Fatalf("%s: the book ends before %s does", e.kit, d.Name)
				}
				if got, want := body(book.Pages[at], in), body(p, in); got != want {
					t.Errorf("%s: page %d of the book is not that of %s", e.kit, at+1, d.Name)
				}
				at++
			}
		}
		if at != len(book.Pages) {
			t.Errorf("%s: the book has %d pages, its cover and documents %d", e.kit, len(book.Pages), at)
		}
		if a := book.Attachments; len(a) != 1 || a[0].Name != "manifest.json" || !bytes.Equal(a[0].Data, in.Facts.Manifest.JSON()) {
			t.Errorf("%s: the book does not carry its manifest", e.kit)
		}
	}
}

// body is what stands on a page inside its margins.
func body(p page.Page, in *Input) string {
	text := page.SheetMargins.Inside(p.Paper)
	var b strings.Builder
	for it := range p.All() {
		if box, ok := page.Bounds(it, in.Fonts); ok && box.Y >= text.Y-1 && box.Bottom() <= text.Bottom()+1 {
			fmt.Fprintf(&b, "%v\n", it)
		}
	}
	return b.String()
}
