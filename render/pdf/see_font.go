package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
)

// A seenFont turns codes into characters and knows the shape of each.
type seenFont struct {
	name    string
	unicode map[uint16]string
	widths  map[uint16]string
	shapes  map[uint16]string // of the codes that were met
	program program
	frame   string // a hash of what all letters of the font depend on
	whole   string // a hash of the whole font, where its parts are not those that this program writes
}

func (e *eye) fontsOf(o any) (map[nameObject]*seenFont, error) {
	all := map[nameObject]*seenFont{}
	if o == nil {
		return all, nil
	}
	entries, err := e.dictionary(o)
	if err != nil {
		return nil, err
	}
	for name, entry := range entries {
		n, _ := entry.(reference)
		f, known := e.fonts[n]
		if !known {
			if f, err = e.font(entry); err != nil {
				return nil, err
			}
			e.fonts[n] = f
		}
		all[name] = f
	}
	return all, nil
}

// font reads a font as [file.font] writes it.
func (e *eye) font(o any) (*seenFont, error) {
	d, err := e.dictionary(o)
	if err != nil {
		return nil, err
	}
	base, _ := d["BaseFont"].(nameObject)
	_, name, tagged := strings.Cut(string(base), "+")
	if !tagged {
		name = string(base)
	}
	f := &seenFont{name: name, unicode: map[uint16]string{}, widths: map[uint16]string{}, shapes: map[uint16]string{}}
	if d["ToUnicode"] != nil {
		if text, err := e.data(d["ToUnicode"]); err == nil {
			f.unicode = characters(text)
		}
	}
	if program, ok := e.programOf(d, f); ok {
		f.program = program
		return f, nil
	}
	h := sha256.New()
	err = e.fold(h, d, 0)
	f.whole = hexOf(h)
	return f, err
}

// programOf finds the widths and the outlines of a composite font; ok is false for any other font.
func (e *eye) programOf(d dictionary, f *seenFont) (p program, ok bool) {
	if d["Subtype"] != nameObject("Type0") || d["Encoding"] != nameObject("Identity-H") {
		return p, false
	}
	below, err := e.list(d["DescendantFonts"])
	if err != nil || len(below) != 1 {
		return p, false
	}
	descendant, err := e.dictionary(below[0])
	if err != nil || descendant["CIDToGIDMap"] != nameObject("Identity") || len(descendant) != 7 { // a key more could mean another look
		return p, false
	}
	widths, err := e.list(descendant["W"])
	if err != nil || len(widths) != 2 {
		return p, false
	}
	list, ok := widths[1].(array)
	if !ok || widths[0] != 0 {
		return p, false
	}
	for code, w := range list {
		if n, ok := numberOf(w); ok && code <= 0xffff {
			f.widths[uint16(code)] = strconv.FormatFloat(n, 'g', 9, 64)
		}
	}
	descriptor, err := e.dictionary(descendant["FontDescriptor"])
	if err != nil {
		return p, false
	}
	data, err := e.data(descriptor["FontFile2"])
	if err != nil {
		return p, false
	}
	if p, ok = openProgram(data); !ok {
		return p, false
	}
	frame := sha256.New()
	for _, part := range []struct {
		dict dictionary
		own  []nameObject // of the letters that this file uses
	}{{d, []nameObject{"BaseFont", "DescendantFonts", "ToUnicode"}}, {descendant, []nameObject{"BaseFont", "FontDescriptor", "W"}}, {descriptor, []nameObject{"FontName", "FontFile2"}}} {
		rest := maps.Clone(part.dict)
		for _, key := range part.own {
			delete(rest, key)
		}
		if err := e.fold(frame, rest, 0); err != nil {
			return p, false
		}
	}
	frame.Write(p.frame)
	f.frame = hexOf(frame)
	return p, true
}

var (
	sections = regexp.MustCompile(`(?s)beginbf(char|range)(.*?)endbf`)
	codes    = regexp.MustCompile(`<([0-9a-fA-F]*)>`)
)

// characters reads a map from codes to characters (ISO 32000-1, 9.10.3).
func characters(text []byte) map[uint16]string {
	all := map[uint16]string{}
	for _, section := range sections.FindAllSubmatch(text, -1) {
		words := codes.FindAllSubmatch(section[2], -1)
		each := 2
		if string(section[1]) == "range" {
			each = 3
		}
		for i := 0; i+each <= len(words); i += each {
			first, last := code(words[i][1]), code(words[i+each-2][1])
			units := unitsOf(words[i+each-1][1])
			for c := int(first); c <= int(last) && len(units) > 0; c++ {
				all[uint16(c)] = string(utf16.Decode(units))
				units[len(units)-1]++
			}
		}
	}
	return all
}

func code(digits []byte) uint16 {
	n, err := strconv.ParseUint(string(digits), 16, 16)
	if err != nil {
		return 0
	}
	return uint16(n)
}

func unitsOf(digits []byte) []uint16 {
	var units []uint16
	for ; len(digits) >= 4; digits = digits[4:] {
		units = append(units, code(digits[:4]))
	}
	return units
}

// read turns a string of codes into text, and notes the shape of every letter in it.
func (f *seenFont) read(letters map[Letter]string, codes string) string {
	var text strings.Builder
	for b := []byte(codes); len(b) > 0; b = b[min(2, len(b)):] {
		c := uint16(b[0])
		if len(b) > 1 {
			c = binary.BigEndian.Uint16(b)
		}
		said, ok := f.unicode[c]
		if !ok {
			said = "\ufffd"
		}
		text.WriteString(said)
		if _, met := f.shapes[c]; met {
			continue
		}
		letter, shape := Letter{f.name, said}, f.shape(c)
		f.shapes[c] = shape
		if known, again := letters[letter]; again && known != shape {
			shape = "several" // one character, two shapes
		}
		letters[letter] = shape
	}
	return text.String()
}

// shape is a hash of how the letter with a code looks.
func (f *seenFont) shape(c uint16) string {
	h := sha256.New()
	h.Write([]byte(f.frame + f.whole + f.widths[c] + " "))
	if f.whole == "" {
		f.program.outline(h.Write, c, 0)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// A program is what a TrueType font program draws.
type program struct {
	glyf, loca, hmtx []byte
	frame            []byte // what all letters depend on: the size of the em, among others
}

// openProgram takes a font apart that [assemble] wrote of the tables that [subset] makes; false for any other, or with a byte changed
// outside the tables.
func openProgram(b []byte) (program, bool) {
	var p program
	if len(b) < 12 {
		return p, false
	}
	tables := make([]table, binary.BigEndian.Uint16(b[4:]))
	if len(tables) != 6 {
		return p, false
	}
	for i := range tables {
		at := 12 + 16*i
		if at+16 > len(b) {
			return p, false
		}
		from, size := int(binary.BigEndian.Uint32(b[at+8:])), int(binary.BigEndian.Uint32(b[at+12:]))
		if from > len(b) || size > len(b)-from {
			return p, false
		}
		tables[i] = table{string(b[at : at+4]), b[from : from+size]}
	}
	find := func(tag string, least int) []byte {
		for _, t := range tables {
			if t.tag == tag && len(t.data) >= least {
				return t.data
			}
		}
		return nil
	}
	p.glyf, p.loca, p.hmtx = find("glyf", 0), find("loca", 8), find("hmtx", 4)
	head, hhea, maxp := find("head", 52), find("hhea", 36), find("maxp", 6)
	if p.glyf == nil || p.loca == nil || p.hmtx == nil || head == nil || hhea == nil || maxp == nil || !bytes.Equal(assemble(tables), b) {
		return p, false
	}
	glyphs := binary.BigEndian.AppendUint16(nil, uint16(len(p.loca)/4-1))
	if !bytes.Equal(head[50:52], []byte{0, 1}) || !bytes.Equal(maxp[4:6], glyphs) || !bytes.Equal(hhea[34:36], glyphs) || len(p.hmtx) != len(p.loca)-4 { // long offsets, a width for each glyph
		return p, false
	}
	p.frame = slices.Concat(head, hhea[:34], maxp[:4], maxp[6:])
	return p, true
}

// outline writes a glyph's outline, those of its parts in their place: the numbers of glyphs are a matter of each file.
func (p program) outline(write func([]byte) (int, error), glyph uint16, depth int) {
	at := 4 * int(glyph)
	if depth > 4 || at+8 > len(p.loca) {
		write([]byte("none"))
		return
	}
	write(p.hmtx[at : at+4])
	from, to := int(binary.BigEndian.Uint32(p.loca[at:])), int(binary.BigEndian.Uint32(p.loca[at+4:]))
	if from > to || to > len(p.glyf) || to-from < 10 && to != from {
		write([]byte("damaged"))
		return
	}
	outline := p.glyf[from:to]
	if len(outline) == 0 || int16(binary.BigEndian.Uint16(outline)) >= 0 {
		write(bytes.TrimRight(outline, "\x00")) // filled up to a multiple of four
		return
	}
	write(outline[:10])
	for at := 10; at+4 <= len(outline); {
		flags, part := binary.BigEndian.Uint16(outline[at:]), binary.BigEndian.Uint16(outline[at+2:])
		size := partSize(flags)
		if at+size > len(outline) {
			write([]byte("damaged"))
			return
		}
		write(outline[at : at+2])
		write(outline[at+4 : at+size])
		p.outline(write, part, depth+1)
		if at += size; flags&partMore == 0 {
			return
		}
	}
}

// partSize is how many bytes a part of a composite glyph takes.
func partSize(flags uint16) int {
	size := 6
	if flags&partWords != 0 {
		size += 2
	}
	switch {
	case flags&partScale != 0:
		size += 2
	case flags&partScales != 0:
		size += 4
	case flags&partMatrix != 0:
		size += 8
	}
	return size
}
