package pdf

import (
	"encoding/binary"
	"fmt"

	"hoistbook/render/page"
)

// subset cuts a TrueType font down to some glyphs, in their order, behind glyph 0; the parts of composite glyphs follow. What a PDF
// file does not need is left out: the character map (codes are glyph numbers), names, and the instructions for coarse screens.
// Layouts of the tables: ISO/IEC 14496-22, "glyf", "loca", "hmtx", "maxp", "head", "hhea".
func subset(font *page.Font, glyphs []uint16) ([]byte, error) {
	s := subsetter{font: font, order: append([]uint16{0}, glyphs...), number: map[uint16]uint16{}}
	for i := 0; i < len(s.order); i++ {
		if err := s.take(s.order[i]); err != nil {
			return nil, err
		}
	}
	if len(s.order) > 0xfffe {
		return nil, fmt.Errorf("font %s: too many glyphs are used", font.Name())
	}
	s.loca = binary.BigEndian.AppendUint32(s.loca, uint32(len(s.glyf)))

	head := append([]byte(nil), font.Table("head")[:54]...)
	binary.BigEndian.PutUint32(head[8:], 0)  // the checksum of the whole, which no PDF reader asks for
	binary.BigEndian.PutUint16(head[50:], 1) // long offsets
	hhea := append([]byte(nil), font.Table("hhea")[:36]...)
	binary.BigEndian.PutUint16(hhea[34:], uint16(len(s.order)))
	maxp := append([]byte(nil), font.Table("maxp")...)
	binary.BigEndian.PutUint16(maxp[4:], uint16(len(s.order)))
	return assemble([]table{{"glyf", s.glyf}, {"head", head}, {"hhea", hhea}, {"hmtx", s.hmtx}, {"loca", s.loca}, {"maxp", maxp}}), nil
}

type subsetter struct {
	font             *page.Font
	order            []uint16          // old glyph numbers by new ones
	number           map[uint16]uint16 // new numbers of the parts of composite glyphs
	glyf, loca, hmtx []byte
}

// take appends one glyph.
func (s *subsetter) take(glyph uint16) error {
	s.loca = binary.BigEndian.AppendUint32(s.loca, uint32(len(s.glyf)))
	outline := s.font.Outline(glyph)
	var left uint16 // side bearing: where the outline begins
	if len(outline) >= 10 {
		left = binary.BigEndian.Uint16(outline[2:])
		cut, err := s.cut(outline)
		if err != nil {
			return fmt.Errorf("font %s: glyph %d: %w", s.font.Name(), glyph, err)
		}
		s.glyf = append(s.glyf, cut...)
		for len(s.glyf)%4 != 0 {
			s.glyf = append(s.glyf, 0)
		}
	}
	s.hmtx = binary.BigEndian.AppendUint16(s.hmtx, uint16(s.font.Advance(glyph)))
	s.hmtx = binary.BigEndian.AppendUint16(s.hmtx, left)
	return nil
}

// cut is an outline without its instructions, and with the new numbers of its parts.
func (s *subsetter) cut(outline []byte) ([]byte, error) {
	contours := int(int16(binary.BigEndian.Uint16(outline)))
	if contours < 0 {
		return s.composite(outline)
	}
	at := 10 + 2*contours
	if at+2 > len(outline) {
		return nil, errDamaged
	}
	rest := at + 2 + int(binary.BigEndian.Uint16(outline[at:]))
	if rest > len(outline) {
		return nil, errDamaged
	}
	return append(append(append([]byte(nil), outline[:at]...), 0, 0), outline[rest:]...), nil
}

// The flags of a part of a composite glyph that matter here.
const (
	partWords        = 1 << 0
	partScale        = 1 << 3
	partMore         = 1 << 5
	partScales       = 1 << 6
	partMatrix       = 1 << 7
	partInstructions = 1 << 8
)

var errDamaged = fmt.Errorf("its outline is damaged")

func (s *subsetter) composite(outline []byte) ([]byte, error) {
	out := append([]byte(nil), outline...)
	for at := 10; ; {
		if at+4 > len(out) {
			return nil, errDamaged
		}
		flags := binary.BigEndian.Uint16(out[at:])
		part := binary.BigEndian.Uint16(out[at+2:])
		if _, known := s.number[part]; !known {
			s.number[part] = uint16(len(s.order))
			s.order = append(s.order, part)
		}
		binary.BigEndian.PutUint16(out[at:], flags&^partInstructions)
		binary.BigEndian.PutUint16(out[at+2:], s.number[part])
		at += 6
		if flags&partWords != 0 {
			at += 2
		}
		switch {
		case flags&partScale != 0:
			at += 2
		case flags&partScales != 0:
			at += 4
		case flags&partMatrix != 0:
			at += 8
		}
		if at > len(out) {
			return nil, errDamaged
		}
		if flags&partMore == 0 {
			return out[:at], nil
		}
	}
}

type table struct {
	tag  string
	data []byte
}

// assemble writes a font file of tables, which must come in the order of their tags.
func assemble(tables []table) []byte {
	power := 1
	log := 0
	for power*2 <= len(tables) {
		power, log = power*2, log+1
	}
	b := []byte{0, 1, 0, 0}
	for _, v := range []int{len(tables), power * 16, log, (len(tables) - power) * 16} {
		b = binary.BigEndian.AppendUint16(b, uint16(v))
	}
	at := 12 + 16*len(tables)
	for _, t := range tables {
		b = append(b, t.tag...)
		for _, v := range []int{int(checksum(t.data)), at, len(t.data)} {
			b = binary.BigEndian.AppendUint32(b, uint32(v))
		}
		at += (len(t.data) + 3) &^ 3
	}
	for _, t := range tables {
		b = append(b, t.data...)
		for len(b)%4 != 0 {
			b = append(b, 0)
		}
	}
	return b
}

func checksum(data []byte) (sum uint32) {
	for ; len(data) >= 4; data = data[4:] {
		sum += binary.BigEndian.Uint32(data)
	}
	var last [4]byte
	copy(last[:], data)
	return sum + binary.BigEndian.Uint32(last[:])
}
