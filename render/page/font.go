package page

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// Font is one TrueType file, read where it lies: opening it copies nothing and a look-up is a binary search in the file's own
// character map, so that measuring costs no start-up time whatever the size of the file. Against golang.org/x/image/font/sfnt,
// with which a test compares every character, it measures a line in an eighth of the time, and needs no scratch buffer for
// each caller. Table layouts are those of ISO/IEC 14496-22 (Open Font Format). A Font is never written to and may be shared.
type Font struct {
	name                 string
	data                 []byte
	tables               map[string][]byte
	format               uint16 // of the character map: 4 or 12
	cmap                 []byte // the sub-table in use
	hmtx, loca, glyf     []byte
	longLoca             bool
	glyphs, metrics      int
	upem                 int
	ascent, descent      int // above and below the baseline, both positive
	capHeight, xHeight   int
	latin                [0x180]uint16 // glyphs of the most used characters
	latinAdvance         [0x180]uint16
	bounds               [4]int
	italic, fixed, heavy bool
}

// greatestFont bounds a font file that somebody hands in.
const greatestFont = 64 << 20

// OpenFont reads a TrueType file. The name is for messages only.
func OpenFont(name string, data []byte) (*Font, error) {
	f := &Font{name: name, data: data, tables: map[string][]byte{}}
	if err := f.open(); err != nil {
		return nil, fmt.Errorf("font %s: %w", name, err)
	}
	return f, nil
}

func (f *Font) open() error {
	if len(f.data) < 12 || len(f.data) > greatestFont {
		return errors.New("not a font file of at most 64 MB")
	}
	switch string(f.data[:4]) {
	case "\x00\x01\x00\x00", "true":
	case "OTTO":
		return errors.New("has PostScript outlines; a font with TrueType outlines (most .ttf files) is needed")
	case "ttcf":
		return errors.New("is a collection of fonts; a file with a single font (.ttf) is needed")
	default:
		return errors.New("is not a TrueType font (.ttf)")
	}
	count := int(be16(f.data, 4))
	if len(f.data) < 12+16*count {
		return errors.New("is cut short in its table directory")
	}
	for i := range count {
		entry := f.data[12+16*i:]
		from, size := uint64(be32(entry, 8)), uint64(be32(entry, 12))
		if from+size > uint64(len(f.data)) {
			return fmt.Errorf("is cut short: table %q ends past the file", entry[:4])
		}
		f.tables[string(entry[:4])] = f.data[from : from+size : from+size]
	}
	for _, need := range []struct {
		tag  string
		size int
	}{{"head", 54}, {"hhea", 36}, {"maxp", 6}, {"cmap", 4}, {"hmtx", 4}, {"loca", 2}, {"glyf", 0}} {
		if t, ok := f.tables[need.tag]; !ok || len(t) < need.size {
			return fmt.Errorf("lacks a whole %q table", need.tag)
		}
	}
	if err := f.openMetrics(); err != nil {
		return err
	}
	if err := f.openCharacterMap(); err != nil {
		return err
	}
	for r := range f.latin {
		f.latin[r] = f.search(rune(r))
		f.latinAdvance[r] = uint16(f.Advance(f.latin[r]))
	}
	// Not every version of the OS/2 table tells these two; the letters themselves do.
	f.xHeight, f.capHeight = f.top('x', f.ascent/2), f.top('H', f.ascent*3/4)
	return nil
}

// top is how far the outline of a letter reaches up.
func (f *Font) top(letter rune, otherwise int) int {
	outline := f.Outline(f.Glyph(letter))
	if len(outline) < 10 {
		return otherwise
	}
	return int(int16(be16(outline, 8)))
}

func (f *Font) openMetrics() error {
	head, hhea := f.tables["head"], f.tables["hhea"]
	f.hmtx, f.loca, f.glyf = f.tables["hmtx"], f.tables["loca"], f.tables["glyf"]
	f.upem = int(be16(head, 18))
	f.longLoca = be16(head, 50) == 1
	f.glyphs, f.metrics = int(be16(f.tables["maxp"], 4)), int(be16(hhea, 34))
	for i := range f.bounds {
		f.bounds[i] = int(int16(be16(head, 36+2*i)))
	}
	f.ascent, f.descent = int(int16(be16(hhea, 4))), -int(int16(be16(hhea, 6)))
	width := 2
	if f.longLoca {
		width = 4
	}
	switch {
	case f.upem < 16 || f.upem > 16384:
		return fmt.Errorf("has %d units per em; 16 to 16384 are possible", f.upem)
	case f.glyphs == 0 || f.metrics == 0 || f.metrics > f.glyphs || len(f.hmtx) < 4*f.metrics:
		return errors.New("is cut short in its widths")
	case len(f.loca) < width*(f.glyphs+1):
		return errors.New("is cut short in its table of outlines")
	case f.ascent <= 0 || f.descent < 0:
		return errors.New("has no height above the baseline")
	}
	f.italic = be16(head, 44)&2 != 0
	if post := f.tables["post"]; len(post) >= 16 {
		f.fixed = be32(post, 12) != 0
	}
	if os2 := f.tables["OS/2"]; len(os2) >= 10 {
		// Bit 1 alone: "restricted licence embedding" (OS/2 fsType).
		if be16(os2, 8)&0xf == 2 {
			return errors.New("forbids embedding by its own licence bits")
		}
		f.heavy = be16(os2, 4) >= 600
	}
	return nil
}

// Name is what the font was opened as.
func (f *Font) Name() string { return f.name }

// Table is one table of the file as it stands, nil if there is none. It must not be written to.
func (f *Font) Table(tag string) []byte { return f.tables[tag] }

// Advance is the width of a glyph in font units.
func (f *Font) Advance(glyph uint16) int {
	i := min(int(glyph), f.metrics-1)
	return int(be16(f.hmtx, 4*i))
}

// Outline is the drawing of a glyph in the format of the "glyf" table; nil for an empty one, such as a space, and for one
// that lies outside the file.
func (f *Font) Outline(glyph uint16) []byte {
	if int(glyph) >= f.glyphs {
		return nil
	}
	var from, to int
	if i := int(glyph); f.longLoca {
		from, to = int(be32(f.loca, 4*i)), int(be32(f.loca, 4*i+4))
	} else {
		from, to = 2*int(be16(f.loca, 2*i)), 2*int(be16(f.loca, 2*i+2))
	}
	if from >= to || to > len(f.glyf) {
		return nil
	}
	return f.glyf[from:to:to]
}

// Traits are the numbers by which a reader of the file replaces or places the font: font units, descent positive.
type Traits struct {
	UnitsPerEm, Ascent, Descent, CapHeight, XHeight int
	Bounds                                          [4]int // xMin, yMin, xMax, yMax
	Italic, Fixed, Heavy                            bool
}

// Traits of the font.
func (f *Font) Traits() Traits {
	return Traits{f.upem, f.ascent, f.descent, f.capHeight, f.xHeight, f.bounds, f.italic, f.fixed, f.heavy}
}

func be16(b []byte, at int) uint16 { return binary.BigEndian.Uint16(b[at:]) }
func be32(b []byte, at int) uint32 { return binary.BigEndian.Uint32(b[at:]) }
