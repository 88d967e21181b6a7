package page

import (
	"sync"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/go-fonts/dejavu/dejavusansmono"
)

// Face is one of the three faces of a document. They are DejaVu: a sans serif with a large x-height, and the only open family
// at hand with the signs that checklists need (✓ ☐ ⚠ Ω µ ≥). The files are linked whole: [Font] opens one in 8 µs whatever its
// size, and a document embeds just the glyphs it uses, so that cutting them down ahead of time would save only room on disk.
type Face uint8

// The faces.
const (
	Sans Face = iota
	Bold
	Mono
	faces int = iota
)

// String is the word that dumps use.
func (f Face) String() string { return [...]string{"sans", "bold", "mono"}[f] }

var builtIn = [faces]func() *Font{
	sync.OnceValue(func() *Font { return mustOpen("DejaVuSans", dejavusans.TTF) }),
	sync.OnceValue(func() *Font { return mustOpen("DejaVuSans-Bold", dejavusansbold.TTF) }),
	sync.OnceValue(func() *Font { return mustOpen("DejaVuSansMono", dejavusansmono.TTF) }),
}

func mustOpen(name string, data []byte) *Font {
	f, err := OpenFont(name, data)
	if err != nil {
		panic(err) // the files are linked into the program: a test opens them all
	}
	return f
}

// Fonts is what a document is set in: the built-in faces, then fonts that were handed in for characters which those lack.
// The nil *Fonts has the built-in faces alone. A Fonts is not changed after it was made and may be shared.
type Fonts struct{ fallback []*Font }

// NewFonts adds fonts to fall back on, in the order in which they are asked.
func NewFonts(fallback ...*Font) *Fonts { return &Fonts{fallback} }

// Pick finds the font that draws a character. Without one it is the face itself and glyph 0.
func (f *Fonts) Pick(face Face, r rune) (*Font, uint16) {
	main := builtIn[face]()
	if g := main.Glyph(r); g != 0 || f == nil {
		return main, g
	}
	for _, other := range f.fallback {
		if g := other.Glyph(r); g != 0 {
			return other, g
		}
	}
	return main, 0
}

// Width is how far a text reaches on one line.
func (f *Fonts) Width(face Face, size Pt, text string) MM {
	main := builtIn[face]()
	units, other := 0, 0.0 // the main face's sum is exact
	for _, r := range text {
		if r >= 0 && int(r) < len(main.latin) && main.latin[r] != 0 {
			units += int(main.latinAdvance[r])
			continue
		}
		font, glyph := f.Pick(face, r)
		if font == main {
			units += font.Advance(glyph)
		} else {
			other += float64(font.Advance(glyph)) / float64(font.upem)
		}
	}
	return size.MM() * MM(float64(units)/float64(main.upem)+other)
}

// Missing lists the characters of a text that no font has, each once, in the order of their appearance.
func (f *Fonts) Missing(face Face, text string) []rune {
	var missing []rune
	var seen map[rune]bool
	for _, r := range text {
		if _, g := f.Pick(face, r); g != 0 || seen[r] {
			continue
		}
		if seen == nil {
			seen = map[rune]bool{}
		}
		seen[r] = true
		missing = append(missing, r)
	}
	return missing
}

// Width is how far a text reaches on one line in the built-in faces.
func Width(face Face, size Pt, text string) MM { return (*Fonts)(nil).Width(face, size, text) }

// Missing lists the characters of a text that the built-in faces lack.
func Missing(face Face, text string) []rune { return (*Fonts)(nil).Missing(face, text) }

// Ascent is how far the face's letters may reach above the baseline, accents included.
func (f Face) Ascent(size Pt) MM { return f.part(size, builtIn[f]().ascent) }

// Descent is how far the face's letters may reach below the baseline.
func (f Face) Descent(size Pt) MM { return f.part(size, builtIn[f]().descent) }

// CapHeight is the height of a capital letter.
func (f Face) CapHeight(size Pt) MM { return f.part(size, builtIn[f]().capHeight) }

// XHeight is the height of a small letter without ascender.
func (f Face) XHeight(size Pt) MM { return f.part(size, builtIn[f]().xHeight) }

func (f Face) part(size Pt, units int) MM {
	return size.MM() * MM(units) / MM(builtIn[f]().upem)
}
