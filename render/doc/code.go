package doc

import (
	"fmt"

	"github.com/boombuler/barcode/qr"

	"hoistbook/render/page"
)

// codeSize is the edge of the code on the cover: at seven tenths of a millimetre a module it is read from a phone's length.
const codeSize = page.MM(30)

// code is a two-dimensional code (ISO/IEC 18004, level M) with kit, revision and whole digest, each on a line of its own: what a
// stack of sheets belongs to can be told without typing 64 hexadecimal digits.
func (s *sheet) code() (page.Code2D, error) {
	dark, err := modules(s.codeText())
	return page.Code2D{Dark: dark, Size: codeSize, Words: page.Plain(s.say("book.code"))}, err
}

func (s *sheet) codeText() string {
	m := s.Facts.Manifest
	return fmt.Sprintf("%s\n%s\n%s", m.Kit.ID, m.Kit.Revision, m.Digest())
}

// modules are the dark squares of a text's code.
func modules(text string) ([][]bool, error) {
	code, err := qr.Encode(text, qr.M, qr.Unicode)
	if err != nil {
		return nil, fmt.Errorf("code of %q: %w", text, err)
	}
	size := code.Bounds()
	dark := make([][]bool, size.Dy())
	for y := range dark {
		dark[y] = make([]bool, size.Dx())
		for x := range dark[y] {
			shade, _, _, _ := code.At(size.Min.X+x, size.Min.Y+y).RGBA()
			dark[y][x] = shade == 0
		}
	}
	return dark, nil
}
