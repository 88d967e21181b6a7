package page

import (
	"errors"
	"sort"
)

// openCharacterMap picks the widest Unicode map that is understood: format 12 (all of Unicode) before format 4 (up to U+FFFF).
func (f *Font) openCharacterMap() error {
	cmap := f.tables["cmap"]
	count := int(be16(cmap, 2))
	if len(cmap) < 4+8*count {
		return errors.New("is cut short in its character map")
	}
	for i := range count {
		entry := cmap[4+8*i:]
		platform, encoding, from := be16(entry, 0), be16(entry, 2), be32(entry, 4)
		if platform != 0 && (platform != 3 || encoding != 1 && encoding != 10) {
			continue
		}
		if uint64(from)+16 > uint64(len(cmap)) {
			return errors.New("is cut short in its character map")
		}
		sub := cmap[from:]
		switch be16(sub, 0) {
		case 4:
			segments := int(be16(sub, 6)) / 2
			if f.format == 0 && len(sub) >= 16+8*segments {
				f.format, f.cmap = 4, sub
			}
		case 12:
			groups := uint64(be32(sub, 12))
			if uint64(len(sub)) >= 16+12*groups {
				f.format, f.cmap = 12, sub
			}
		}
	}
	if f.format == 0 {
		return errors.New("has no Unicode character map of format 4 or 12")
	}
	return nil
}

// Glyph is the number of a character's glyph, 0 if the font lacks it.
func (f *Font) Glyph(r rune) uint16 {
	if r >= 0 && int(r) < len(f.latin) {
		return f.latin[r]
	}
	return f.search(r)
}

func (f *Font) search(r rune) uint16 {
	if r < 0 {
		return 0
	}
	var g uint16
	if f.format == 12 {
		g = f.searchGroups(uint32(r))
	} else if r <= 0xffff {
		g = f.searchSegments(uint16(r))
	}
	if int(g) >= f.glyphs {
		return 0
	}
	return g
}

// searchSegments reads a format 4 sub-table: ends, starts, deltas and offsets of segments, in four arrays.
func (f *Font) searchSegments(c uint16) uint16 {
	n := int(be16(f.cmap, 6)) / 2
	ends, starts, deltas, offsets := 14, 16+2*n, 16+4*n, 16+6*n
	i := sort.Search(n, func(i int) bool { return be16(f.cmap, ends+2*i) >= c })
	if i == n || be16(f.cmap, starts+2*i) > c {
		return 0
	}
	offset := int(be16(f.cmap, offsets+2*i))
	if offset == 0 {
		return c + be16(f.cmap, deltas+2*i)
	}
	at := offsets + 2*i + offset + 2*int(c-be16(f.cmap, starts+2*i))
	if at+2 > len(f.cmap) {
		return 0
	}
	g := be16(f.cmap, at)
	if g != 0 {
		g += be16(f.cmap, deltas+2*i)
	}
	return g
}

// searchGroups reads a format 12 sub-table: groups of first character, last character and first glyph.
func (f *Font) searchGroups(c uint32) uint16 {
	n := int(be32(f.cmap, 12))
	i := sort.Search(n, func(i int) bool { return be32(f.cmap, 16+12*i+4) >= c })
	if i == n || be32(f.cmap, 16+12*i) > c {
		return 0
	}
	g := be32(f.cmap, 16+12*i+8) + c - be32(f.cmap, 16+12*i)
	if g > 0xffff {
		return 0
	}
	return uint16(g)
}
