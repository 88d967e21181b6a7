package pdf

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
)

// fonts are the objects of what is used of each font, from the number firstFont on, and the entries of the resource dictionary.
type fonts struct {
	objects [][]byte
	entries string
}

// fontObjects is how many objects a font takes.
const fontObjects = 5

// cast cuts the fonts down to the letters that are used.
func cast(letters *typeCase) (fonts, error) {
	n := len(letters.cases)
	parts, faults := make([][fontObjects][]byte, n), make([]error, n)
	sideBySide(n, func(i int) { parts[i], faults[i] = letters.cases[i].cast(firstFont + i*fontObjects) })
	var all fonts
	var entries strings.Builder
	for i, c := range letters.cases {
		if faults[i] != nil {
			return fonts{}, faults[i]
		}
		all.objects = append(all.objects, parts[i][:]...)
		fmt.Fprintf(&entries, "/%s %s", c.name, ref(firstFont+i*fontObjects))
	}
	all.entries = entries.String()
	return all, nil
}

// cast makes the objects of one font, from the number at on: a composite font whose codes are glyph numbers (ISO 32000-1, 9.7), with a
// map back to characters, so that text can be searched and copied.
func (c *letterCase) cast(at int) (objects [fontObjects][]byte, err error) {
	cut, err := subset(c.font, c.glyphs)
	if err != nil {
		return objects, err
	}
	t := c.font.Traits()
	em := func(units int) string {
		return string(number(nil, float64(units)*1000/float64(t.UnitsPerEm), 2))
	}
	name := tag(c.glyphs) + "+" + strings.Map(printable, c.font.Name())
	descendant, descriptor, program, unicode := at+1, at+2, at+3, at+4

	// Flags (9.8.2): 3 symbolic, as the codes follow no standard encoding; 1 fixed pitch; 7 italic; 19 forced bold.
	// The thickness of stems is for readers that replace a font; 80 and 140 are usual for text and bold faces.
	flags, stem := 1<<2, 80
	if t.Fixed {
		flags |= 1 << 0
	}
	if t.Italic {
		flags |= 1 << 6
	}
	if t.Heavy {
		flags, stem = flags|1<<18, 140
	}
	var widths strings.Builder
	for _, g := range append([]uint16{0}, c.glyphs...) {
		widths.WriteString(em(c.font.Advance(g)) + " ")
	}
	return [fontObjects][]byte{
		fmt.Appendf(nil, "<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%s]/ToUnicode %s>>",
			name, ref(descendant), ref(unicode)),
		fmt.Appendf(nil, "<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor %s/CIDToGIDMap/Identity/W[0[%s]]>>",
			name, ref(descriptor), strings.TrimSpace(widths.String())),
		fmt.Appendf(nil, "<</Type/FontDescriptor/FontName/%s/Flags %d/FontBBox[%s %s %s %s]/ItalicAngle 0/Ascent %s/Descent %s/CapHeight %s/XHeight %s/StemV %d/FontFile2 %s>>",
			name, flags, em(t.Bounds[0]), em(t.Bounds[1]), em(t.Bounds[2]), em(t.Bounds[3]), em(t.Ascent), em(-t.Descent), em(t.CapHeight), em(t.XHeight), stem, ref(program)),
		packed("/Length1 "+strconv.Itoa(len(cut)), cut),
		packed("", toUnicode(c.runes)),
	}, nil
}

// tag is the six letters that mark a font as a part of one (9.6.4): the same part has the same letters.
func tag(glyphs []uint16) string {
	var b []byte
	for _, g := range glyphs {
		b = binary.BigEndian.AppendUint16(b, g)
	}
	sum := sha256.Sum256(b)
	var letters [6]byte
	for i := range letters {
		letters[i] = 'A' + sum[i]%26
	}
	return string(letters[:])
}

// printable keeps what may stand in a font's name without escapes.
func printable(r rune) rune {
	if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' {
		return r
	}
	return -1
}

// toUnicode maps codes, from 1 on, to characters (9.10.3).
func toUnicode(runes []rune) []byte {
	b := []byte("/CIDInit/ProcSet findresource begin 12 dict begin begincmap\n" +
		"/CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)/Supplement 0>>def\n" +
		"/CMapName/Adobe-Identity-UCS def /CMapType 2 def\n1 begincodespacerange<0000><ffff>endcodespacerange\n")
	const most = 100 // entries in one section
	for from := 0; from < len(runes); from += most {
		part := runes[from:min(from+most, len(runes))]
		b = fmt.Appendf(b, "%d beginbfchar\n", len(part))
		for i, r := range part {
			b = fmt.Appendf(b, "<%04x><", from+i+1)
			for _, u := range utf16.Encode([]rune{r}) {
				b = fmt.Appendf(b, "%04x", u)
			}
			b = append(b, ">\n"...)
		}
		b = append(b, "endbfchar\n"...)
	}
	return append(b, "endcmap CMapName currentdict/CMap defineresource pop end end\n"...)
}
