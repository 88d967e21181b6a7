package pdf

import (
	"bytes"
	"strings"
	"testing"

	"github.com/go-fonts/dejavu/dejavusans"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"hoistbook/render/page"
)

// Every glyph of a cut-down font is drawn as in the whole one, composite ones too; golang.org/x/image/font/sfnt draws both.
func TestSubsetDrawsTheSame(t *testing.T) {
	font, err := page.OpenFont("sans", dejavusans.TTF)
	if err != nil {
		t.Fatal(err)
	}
	var glyphs []uint16
	for r := rune(' '); r < 0x600; r++ { // Latin, Greek and Cyrillic, with some hundred composite glyphs
		if g := font.Glyph(r); g != 0 {
			glyphs = append(glyphs, g)
		}
	}
	cut, err := subset(font, glyphs)
	if err != nil {
		t.Fatal(err)
	}
	if len(cut) > len(dejavusans.TTF)/4 {
		t.Errorf("%d of %d bytes are left", len(cut), len(dejavusans.TTF))
	}
	whole, err := sfnt.Parse(dejavusans.TTF)
	if err != nil {
		t.Fatal(err)
	}
	part, err := sfnt.Parse(completed(t, font, cut))
	if err != nil {
		t.Fatal(err)
	}
	var buf, buf2 sfnt.Buffer
	for i, g := range append([]uint16{0}, glyphs...) {
		want, err := whole.LoadGlyph(&buf, sfnt.GlyphIndex(g), fixed.I(2048), nil)
		if err != nil {
			t.Fatal(err)
		}
		got, err := part.LoadGlyph(&buf2, sfnt.GlyphIndex(i), fixed.I(2048), nil)
		if err != nil {
			t.Fatalf("glyph %d: %v", g, err)
		}
		if len(got) != len(want) {
			t.Fatalf("glyph %d has %d strokes, want %d", g, len(got), len(want))
		}
		for k := range got {
			if got[k] != want[k] {
				t.Fatalf("glyph %d, stroke %d: %v, want %v", g, k, got[k], want[k])
			}
		}
	}
}

// completed adds the tables that a general reader asks for and a PDF file does without.
func completed(t *testing.T, font *page.Font, cut []byte) []byte {
	t.Helper()
	again, err := page.OpenFont("cut", cut)
	if err == nil {
		t.Fatalf("%s can be opened: it has a character map that nobody needs", again.Name())
	}
	var tables []table
	for _, tag := range []string{"OS/2", "cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "name", "post"} {
		data := font.Table(tag)
		if i := bytes.Index(cut[:12+16*6], []byte(tag)); i > 0 {
			entry := cut[i:]
			from, size := be(entry[8:]), be(entry[12:])
			data = cut[from : from+size]
		}
		tables = append(tables, table{tag, data})
	}
	return assemble(tables)
}

func be(b []byte) int { return int(b[0])<<24 | int(b[1])<<16 | int(b[2])<<8 | int(b[3]) }

// A damaged outline is an error that names the font, not a panic or a file that cannot be shown.
func TestSubsetOfDamagedFont(t *testing.T) {
	for name, damage := range map[string]func(outline []byte){
		"more contours than bytes":     func(outline []byte) { copy(outline, []byte{0x7f, 0xff}) },
		"more instructions than bytes": func(outline []byte) { copy(outline[10+2*2:], []byte{0xff, 0xff}) }, // behind the ends of two contours
		"parts without end":            func(outline []byte) { copy(outline, bytes.Repeat([]byte{0xff}, len(outline))) },
	} {
		font, err := page.OpenFont("damaged", bytes.Clone(dejavusans.TTF))
		if err != nil {
			t.Fatal(err)
		}
		damage(font.Outline(font.Glyph('i')))
		if _, err := subset(font, []uint16{font.Glyph('i')}); err == nil || !strings.Contains(err.Error(), "font damaged: glyph 76") {
			t.Errorf("%s: got %v, want an error that names font and glyph", name, err)
		}
	}
}

// No font file makes the cutting panic or grow beyond its glyphs.
func FuzzSubset(f *testing.F) {
	f.Add(uint32(900_000), byte(0xff), 'i')
	f.Add(uint32(200), byte(1), 'é')
	whole := bytes.Clone(dejavusans.TTF)
	f.Fuzz(func(t *testing.T, at uint32, to byte, r rune) {
		data := bytes.Clone(whole)
		for k := range uint32(8) {
			data[(at+k*97)%uint32(len(data))] = to
		}
		font, err := page.OpenFont("fuzz", data)
		if err != nil {
			return
		}
		if cut, err := subset(font, []uint16{font.Glyph(r)}); err == nil && len(cut) > 2*len(data) {
			t.Errorf("%d bytes came of %d", len(cut), len(data))
		}
	})
}
