package page

import (
	"fmt"
	"math"
)

// Ink is a colour. The zero value is "none given": text is then black, and a shape is not filled or not stroked.
type Ink uint32

// The two inks that every printer has.
const (
	Black Ink = 1 << 24
	White Ink = 1<<24 | 0xffffff
)

// RGB is a colour of the screen. Nothing may be told by colour alone: most sheets are printed in black.
func RGB(r, g, b uint8) Ink { return 1<<24 | Ink(r)<<16 | Ink(g)<<8 | Ink(b) }

// Grey runs from 0, black, to 1, white.
func Grey(level float64) Ink {
	v := uint8(math.Round(255 * min(max(level, 0), 1)))
	return RGB(v, v, v)
}

// None says that no colour was given.
func (i Ink) None() bool { return i>>24 == 0 }

// Parts are red, green and blue; black if none was given.
func (i Ink) Parts() (r, g, b uint8) { return uint8(i >> 16), uint8(i >> 8), uint8(i) }

// String is "none", "black", "white", "grey 80 %" or "#rrggbb".
func (i Ink) String() string {
	r, g, b := i.Parts()
	switch {
	case i.None():
		return "none"
	case i == Black:
		return "black"
	case i == White:
		return "white"
	case r == g && g == b:
		return fmt.Sprintf("grey %.0f %%", float64(r)/2.55)
	}
	return fmt.Sprintf("#%02x%02x%02x", r, g, b)
}
