package page

import (
	"math"
	"testing"

	"github.com/go-fonts/dejavu/dejavumathtexgyre"
	"github.com/go-fonts/dejavu/dejavusans"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Every character of every face has the glyph and the width that the independent reader golang.org/x/image/font/sfnt finds.
func TestFontsAgreeWithAnotherReader(t *testing.T) {
	maths, err := OpenFont("maths", dejavumathtexgyre.TTF)
	if err != nil {
		t.Fatal(err)
	}
	fonts := []*Font{builtIn[Sans](), builtIn[Bold](), builtIn[Mono](), maths}
	for _, f := range fonts {
		other, err := sfnt.Parse(f.data)
		if err != nil {
			t.Fatal(err)
		}
		var buf sfnt.Buffer
		upem := int(other.UnitsPerEm())
		if got := f.Traits().UnitsPerEm; got != upem {
			t.Fatalf("%s: %d units per em, want %d", f.name, got, upem)
		}
		found := 0
		for r := rune(0); r < 0x1ffff; r++ {
			want, err := other.GlyphIndex(&buf, r)
			if err != nil {
				t.Fatal(err)
			}
			got := f.Glyph(r)
			if got != uint16(want) {
				t.Fatalf("%s: U+%04X has glyph %d, want %d", f.name, r, got, want)
			}
			if got == 0 {
				continue
			}
			found++
			advance, err := other.GlyphAdvance(&buf, want, fixed.I(upem), font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			if f.Advance(got) != advance.Round() {
				t.Fatalf("%s: U+%04X is %d units wide, want %d", f.name, r, f.Advance(got), advance.Round())
			}
		}
		if found < 2000 {
			t.Errorf("%s: only %d characters were compared", f.name, found)
		}
	}
}

// The traits are those that the font tool fontTools 4 prints for DejaVu 2.37: ascent 1901, descent 483, "x" 1120 and "H" 1493 of 2048.
func TestTraits(t *testing.T) {
	for face := Sans; face <= Mono; face++ {
		got := builtIn[face]().Traits()
		if got.Ascent != 1901 || got.Descent != 483 || got.XHeight != 1120 || got.CapHeight != 1493 || got.UnitsPerEm != 2048 {
			t.Errorf("%s: %+v", face, got)
		}
		if got.Heavy != (face == Bold) || got.Fixed != (face == Mono) || got.Italic {
			t.Errorf("%s: heavy %v, fixed %v, italic %v", face, got.Heavy, got.Fixed, got.Italic)
		}
	}
}

// The signs that checklists and data sheets need are there in text and bold.
func TestNeededSigns(t *testing.T) {
	const needed = "°ΩµμΔ≥≤±−–—×→≈√½€✓✗☐☑⚠²³äéüłőŁódźЖ\u00a0\u202f\u2011"
	for _, face := range []Face{Sans, Bold} {
		if lacking := Missing(face, needed); len(lacking) > 0 {
			t.Errorf("%s lacks %q", face, string(lacking))
		}
	}
	if got := string(Missing(Sans, "a中b中文")); got != "中文" {
		t.Errorf("missing %q, want each lacking character once", got)
	}
}

// A font that was handed in draws what the faces lack, and only that.
func TestFallback(t *testing.T) {
	maths, err := OpenFont("maths", dejavumathtexgyre.TTF)
	if err != nil {
		t.Fatal(err)
	}
	const boldA = "\U0001D400" // beyond U+FFFF, in no built-in face but in the mathematical one
	if len(Missing(Mono, boldA)) != 1 {
		t.Fatal("the test needs a character that the face lacks")
	}
	fonts := NewFonts(maths)
	if got := fonts.Missing(Mono, "a"+boldA); len(got) != 0 {
		t.Errorf("still missing %q", string(got))
	}
	if f, _ := fonts.Pick(Mono, 'a'); f != builtIn[Mono]() {
		t.Errorf("%q is drawn by %s", 'a', f.Name())
	}
	f, g := fonts.Pick(Mono, 0x1d400)
	want := Width(Mono, 10, "a") + Pt(10).MM()*MM(f.Advance(g))/MM(f.upem)
	if got := fonts.Width(Mono, 10, "a"+boldA); math.Abs(float64(got-want)) > 1e-9 || f != maths {
		t.Errorf("width %v by %s, want %v by %s", got, f.Name(), want, maths.Name())
	}
}

func TestOpenFontRefuses(t *testing.T) {
	for name, data := range map[string][]byte{
		"nothing":    nil,
		"text":       []byte("this is not a font at all"),
		"postscript": append([]byte("OTTO"), make([]byte, 100)...),
		"collection": append([]byte("ttcf"), make([]byte, 100)...),
		"cut short":  dejavusans.TTF[:100_000],
	} {
		if f, err := OpenFont(name, data); err == nil {
			t.Errorf("%s: opened as %+v", name, f.Traits())
		}
	}
}

// No bytes make the reader panic or read past their end.
func FuzzOpenFont(f *testing.F) {
	f.Add(dejavusans.TTF[:4096], uint32(12), byte(0xff))
	f.Add([]byte{0, 1, 0, 0}, uint32(0), byte(0))
	small := append([]byte(nil), dejavusans.TTF...)
	f.Fuzz(func(t *testing.T, data []byte, at uint32, to byte) {
		for _, b := range [][]byte{data, damaged(small, at, to)} {
			font, err := OpenFont("fuzz", b)
			if err != nil {
				continue
			}
			for _, r := range []rune{-1, 0, 'a', 0x3a9, 0xffff, 0x10000, 0x10ffff} {
				font.Outline(font.Glyph(r))
				font.Advance(font.Glyph(r))
			}
			font.Outline(0xffff)
		}
	})
}

// damaged changes one byte among a file's directory and heads of tables.
func damaged(b []byte, at uint32, to byte) []byte {
	b = append([]byte(nil), b...)
	b[int(at)%len(b)] = to
	return b
}

func BenchmarkOpenFont(b *testing.B) {
	for b.Loop() {
		if _, err := OpenFont("sans", dejavusans.TTF); err != nil {
			b.Fatal(err)
		}
	}
}

// What the general reader takes for the same, for comparison in the same run.
func BenchmarkOtherReaderOpen(b *testing.B) {
	for b.Loop() {
		if _, err := sfnt.Parse(dejavusans.TTF); err != nil {
			b.Fatal(err)
		}
	}
}

const measured = "The line is paid out hand over hand; 4.75 V ≤ U ≤ 5.25 V, resistances in Ω."

func BenchmarkWidth(b *testing.B) {
	for b.Loop() {
		Width(Sans, 9, measured)
	}
}

func BenchmarkOtherReaderWidth(b *testing.B) {
	f, err := sfnt.Parse(dejavusans.TTF)
	if err != nil {
		b.Fatal(err)
	}
	var buf sfnt.Buffer
	for b.Loop() {
		for _, r := range measured {
			g, _ := f.GlyphIndex(&buf, r)
			f.GlyphAdvance(&buf, g, fixed.I(2048), font.HintingNone)
		}
	}
}
