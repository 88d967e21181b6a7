package pdf

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode"

	"github.com/go-fonts/dejavu/dejavumathtexgyre"

	"hoistbook/render/internal/sample"
	"hoistbook/render/page"
)

// qpdf finds no fault in the structure of the file.
func TestStructure(t *testing.T) {
	for _, paper := range papers {
		file, _ := written(t, sampleOn(t, paper))
		if out := tool(t, "qpdf", "--check", file); !bytes.Contains(out, []byte("No syntax or stream encoding errors found")) {
			t.Errorf("%s: %s", paper.Name, out)
		}
	}
}

// words are what poppler finds on the pages.
type words struct {
	Pages []struct {
		Width  float64 `xml:"width,attr"`
		Height float64 `xml:"height,attr"`
		Words  []struct {
			XMin float64 `xml:"xMin,attr"`
			YMin float64 `xml:"yMin,attr"`
			XMax float64 `xml:"xMax,attr"`
			YMax float64 `xml:"yMax,attr"`
			Text string  `xml:",chardata"`
		} `xml:"word"`
	} `xml:"body>doc>page"`
}

func readWords(t *testing.T, file string) words {
	t.Helper()
	var w words
	if err := xml.Unmarshal(tool(t, "pdftotext", "-bbox", file, "-"), &w); err != nil {
		t.Fatal(err)
	}
	return w
}

// Every text of the document is read back by poppler on its page, and begins and ends where the layout measured it.
func TestTextsStandWhereTheyWereSet(t *testing.T) {
	for _, paper := range papers {
		doc := sampleOn(t, paper)
		file, _ := written(t, doc)
		got := readWords(t, file)
		if len(got.Pages) != len(doc.Pages) {
			t.Fatalf("%d pages, want %d", len(got.Pages), len(doc.Pages))
		}
		compared := 0
		for i, p := range doc.Pages {
			if w, h := float64(p.Paper.Width.Pt()), float64(p.Paper.Height.Pt()); math.Abs(got.Pages[i].Width-w) > 0.01 || math.Abs(got.Pages[i].Height-h) > 0.01 {
				t.Errorf("page %d measures %.2f × %.2f pt, want %.2f × %.2f", i+1, got.Pages[i].Width, got.Pages[i].Height, w, h)
			}
			for it := range p.All() {
				text, ok := it.(page.Text)
				if !ok || text.Turn != 0 {
					continue
				}
				box := text.Box(doc.Fonts)
				// A word alone can be compared at both ends, a text of several at its first and last word.
				parts := strings.FieldsFunc(text.Text, unicode.IsSpace)
				left, right := false, false
				for _, w := range got.Pages[i].Words {
					mid := page.Pt(w.YMin+w.YMax) / 2
					if mid < box.Y.Pt() || mid > box.Bottom().Pt() {
						continue
					}
					left = left || strings.HasPrefix(w.Text, parts[0]) && math.Abs(w.XMin-float64(box.X.Pt())) < 0.1
					right = right || strings.HasSuffix(w.Text, parts[len(parts)-1]) && math.Abs(w.XMax-float64(box.Right().Pt())) < 0.1
				}
				// Poppler joins words that touch: a bold word and the comma behind it are one word to it.
				if !left && !right {
					t.Errorf("%s page %d: %q was not read at %s", paper.Name, i+1, text.Text, box)
				}
				compared++
			}
		}
		if compared < 400 {
			t.Errorf("%s: only %d texts were compared", paper.Name, compared)
		}
	}
}

// Nothing is printed in the margins outside the running lines: rendered by poppler, they are white.
func TestMarginsAreWhite(t *testing.T) {
	for _, paper := range papers {
		doc := sampleOn(t, paper)
		file, _ := written(t, doc)
		dir := t.TempDir()
		const dpi = 50
		tool(t, "pdftoppm", "-r", strconv.Itoa(dpi), "-gray", file, filepath.Join(dir, "p"))
		files, _ := filepath.Glob(filepath.Join(dir, "*.pgm"))
		if len(files) != len(doc.Pages) {
			t.Fatalf("%d pictures, want %d", len(files), len(doc.Pages))
		}
		for i, name := range files {
			b, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			var w, h, white int
			if _, err := fmt.Sscanf(string(b[:20]), "P5\n%d %d\n%d\n", &w, &h, &white); err != nil {
				t.Fatal(err)
			}
			pixels := b[len(b)-w*h:]
			text := page.SheetMargins.Inside(doc.Pages[i].Paper)
			pixel := func(v page.MM) int { return int(float64(v) / 25.4 * dpi) }
			inked := 0
			for k, v := range pixels {
				x, y := k%w, k/w
				if int(v) != white {
					inked++
					if x < pixel(text.X)-1 || x > pixel(text.Right())+1 || y < pixel(text.Y-12) || y > pixel(text.Bottom()+12) {
						t.Fatalf("%s page %d: ink at %d, %d of %d × %d", paper.Name, i+1, x, y, w, h)
					}
				}
			}
			if inked < 500 {
				t.Errorf("%s page %d: only %d pixels are inked", paper.Name, i+1, inked)
			}
		}
	}
}

// report is what qpdf tells about outline, form, labels and attachments.
type report struct {
	Outlines []bookmark `json:"outlines"`
	Form     struct {
		Fields []struct {
			Name     string `json:"fullname"`
			Label    string `json:"alternativename"`
			Page     int    `json:"pageposfrom1"`
			Kind     string `json:"fieldtype"`
			Checkbox bool   `json:"ischeckbox"`
			Text     bool   `json:"istext"`
			Note     struct {
				Appearance string `json:"appearancestate"`
			} `json:"annotation"`
		} `json:"fields"`
	} `json:"acroform"`
	Labels []struct {
		Index int            `json:"index"`
		Label map[string]any `json:"label"`
	} `json:"pagelabels"`
}

type bookmark struct {
	Title string     `json:"title"`
	Page  int        `json:"destpageposfrom1"`
	Kids  []bookmark `json:"kids"`
}

func readReport(t *testing.T, file string) report {
	t.Helper()
	var r report
	if err := json.Unmarshal(tool(t, "qpdf", "--json", "--json-key=outlines", "--json-key=acroform", "--json-key=pagelabels", file), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// The outline leads to the pages where the headings are, although the file carries attachments, and is nested as the headings are.
func TestOutline(t *testing.T) {
	doc := sampleOn(t, page.A4)
	file, _ := written(t, doc)
	var got, want []string
	var walk func(string, []bookmark)
	walk = func(indent string, marks []bookmark) {
		for _, m := range marks {
			got = append(got, fmt.Sprintf("%s%s %d", indent, m.Title, m.Page))
			walk(indent+" ", m.Kids)
		}
	}
	walk("", readReport(t, file).Outlines)
	for i, p := range doc.Pages {
		for it := range p.All() {
			if o, ok := it.(page.Outline); ok {
				want = append(want, fmt.Sprintf("%s%s %d", strings.Repeat(" ", o.Level), o.Title, i+1))
			}
		}
	}
	if len(doc.Attachments) == 0 || len(want) < 10 {
		t.Fatal("the sample must have attachments and an outline")
	}
	if g, w := strings.Join(got, "\n"), strings.Join(want, "\n"); g != w {
		t.Errorf("got\n%s\nwant\n%s", g, w)
	}
}

// An outline that begins deep or skips a level is still a tree.
func TestOutlineThatSkipsLevels(t *testing.T) {
	var items []page.Item
	for _, level := range []int{2, 0, 2, 2, 1, 5} {
		items = append(items, page.Outline{Title: strconv.Itoa(level), Level: level, Y: 10})
	}
	file, _ := written(t, &page.Document{Title: "t", Pages: []page.Page{{Paper: page.A4, Items: items}}})
	tool(t, "qpdf", "--check", file)
	var got []string
	var walk func(string, []bookmark)
	walk = func(path string, marks []bookmark) {
		for _, m := range marks {
			got = append(got, path+m.Title)
			walk(path+m.Title+"/", m.Kids)
		}
	}
	walk("", readReport(t, file).Outlines)
	if g, w := strings.Join(got, " "), "2 0 0/2 0/2 0/1 0/1/5"; g != w {
		t.Errorf("got %s, want %s", g, w)
	}
}

// Every box and line to write on is a form field on its page, with its label, empty.
func TestForm(t *testing.T) {
	doc := sampleOn(t, page.Letter)
	file, _ := written(t, doc)
	r := readReport(t, file)
	got := map[string]string{}
	for _, f := range r.Form.Fields {
		got[f.Name] = fmt.Sprintf("page %d box %v text %v label %q", f.Page, f.Checkbox, f.Text, f.Label)
		if f.Checkbox && f.Note.Appearance != "/Off" {
			t.Errorf("box %s is in the state %s, want /Off", f.Name, f.Note.Appearance)
		}
	}
	want := 0
	for i, p := range doc.Pages {
		for it := range p.All() {
			name, line := "", ""
			switch it := it.(type) {
			case page.TickBox:
				name, line = it.Name, fmt.Sprintf("page %d box true text false label %q", i+1, it.Label)
			case page.Field:
				name, line = it.Name, fmt.Sprintf("page %d box false text true label %q", i+1, it.Label)
			default:
				continue
			}
			want++
			if g := got[page.FieldKey(name)]; g != line {
				t.Errorf("field %s: got %s, want %s", name, g, line)
			}
		}
	}
	if len(got) != want || want < 70 {
		t.Errorf("%d fields, want %d and at least 70", len(got), want)
	}
	if len(r.Labels) != 1 || r.Labels[0].Label["/S"] != "/D" {
		t.Errorf("page labels %v", r.Labels)
	}
}

// The attachments come out byte for byte, by another program and by our own reader.
func TestAttachments(t *testing.T) {
	file, b := written(t, sampleOn(t, page.A4))
	dir := t.TempDir()
	tool(t, "pdfdetach", "-saveall", "-o", dir, file)
	for name, want := range map[string][]byte{"manifest.json": sample.Manifest, "Überblick.txt": []byte("ok")} {
		got, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s: got %q, %v; want %q", name, got, err, want)
		}
		got, err = Attachment(b, name)
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s by our own reader: got %q, %v; want %q", name, got, err, want)
		}
	}
	if _, err := Attachment(b, "other.json"); err == nil || !strings.Contains(err.Error(), `"other.json"`) {
		t.Errorf("got %v, want an error that names the file", err)
	}
}

// Title, language and the rest are in both kinds of metadata; the date is the one handed in, or there is none.
func TestMetadata(t *testing.T) {
	doc := sampleOn(t, page.A4)
	file, _ := written(t, doc)
	info := string(tool(t, "pdfinfo", "-isodates", file))
	for _, want := range []string{"Fen relay: kit book", "relay, balloon", "Invented Marsh Radio Club", "CreationDate:    2026-03-04T05:06:07", "AcroForm", "PDF version:     1.7", "Metadata Stream: yes"} {
		if !strings.Contains(info, want) {
			t.Errorf("no %q in\n%s", want, info)
		}
	}
	meta := tool(t, "pdfinfo", "-meta", file)
	if err := xml.Unmarshal(meta, new(struct{})); err != nil {
		t.Errorf("the metadata is no XML: %v\n%s", err, meta)
	}
	if !bytes.Contains(meta, []byte("Fen relay: kit book")) {
		t.Errorf("no title in %s", meta)
	}
	doc.Date = time.Time{}
	file, _ = written(t, doc)
	if info := string(tool(t, "pdfinfo", file)); strings.Contains(info, "Date") {
		t.Errorf("a date came from somewhere:\n%s", info)
	}
}

// The same document gives the same bytes, again and side by side with others.
func TestSameBytes(t *testing.T) {
	want := map[string][]byte{}
	for _, paper := range papers {
		_, want[paper.Name] = written(t, sampleOn(t, paper))
	}
	if bytes.Equal(want["A4"], want["Letter"]) {
		t.Fatal("two different documents are the same file")
	}
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			for _, paper := range []page.Paper{papers[i%2], papers[(i+1)%2]} {
				doc, err := sample.Document(paper)
				if err != nil {
					t.Error(err)
					return
				}
				got, err := Bytes(doc)
				if err != nil || !bytes.Equal(got, want[paper.Name]) {
					t.Errorf("run %d on %s: %v, other bytes", i, paper.Name, err)
				}
			}
		})
	}
	all.Wait()
}

// All fonts are embedded, cut down and searchable, and no letter is lost beyond U+FFFF or from a font that was handed in.
func TestFonts(t *testing.T) {
	maths, err := page.OpenFont("maths", dejavumathtexgyre.TTF)
	if err != nil {
		t.Fatal(err)
	}
	const text = "boldly \U0001D400\U0001D401 plainly ℝ"
	file, b := written(t, &page.Document{Title: "t", Fonts: page.NewFonts(maths),
		Pages: []page.Page{{Paper: page.A4, Items: []page.Item{page.Text{X: 20, Y: 20, Size: 12, Text: text}, page.Text{X: 20, Y: 30, Face: page.Mono, Size: 12, Text: "ÄÖÜ éő½"}}}}})
	tool(t, "qpdf", "--check", file)
	if got := string(tool(t, "pdftotext", file, "-")); !strings.Contains(got, text) || !strings.Contains(got, "ÄÖÜ éő½") {
		t.Errorf("read %q, want %q", got, text)
	}
	lines := strings.Split(strings.TrimSpace(string(tool(t, "pdffonts", file))), "\n")[2:]
	if len(lines) != 3 {
		t.Errorf("fonts:\n%s", strings.Join(lines, "\n"))
	}
	for _, line := range lines {
		if !strings.Contains(line, "yes yes yes") || line[6] != '+' {
			t.Errorf("not embedded, cut down and with a map to characters: %s", line)
		}
	}
	if len(b) > 60_000 {
		t.Errorf("%d bytes for two lines: the fonts are not cut down", len(b))
	}
}

// A document that is wrong is not written at all.
func TestNothingHalfWritten(t *testing.T) {
	doc := &page.Document{Title: "t", Pages: []page.Page{{Paper: page.A4, Items: []page.Item{page.Text{X: 20, Y: 20, Size: 12, Text: "中"}}}}}
	var out bytes.Buffer
	if err := Write(doc, &out); err == nil || !strings.Contains(err.Error(), "U+4E2D") || out.Len() > 0 {
		t.Errorf("got %v and %d bytes, want an error that names the character", err, out.Len())
	}
	if _, err := Bytes(nil); err == nil {
		t.Error("no document is no error")
	}
}
