package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// A picture is compared block by block, so that one changed number counts although the rest of the page is as it was. Two versions of
// the drawing program smooth edges differently, by a few levels of grey in a block; a changed digit or a moved line makes
// tens. The levels are parts of 255.
const (
	block     = 10 // pixels
	tolerance = 20.0
)

func TestPicturesAreTrue(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("pdftoppm is missing: install Debian's poppler-utils")
		}
		t.Skip("pdftoppm of Debian's poppler-utils is not installed")
	}
	used := map[string]bool{}
	for _, p := range pictures {
		used[p.file()] = true
		t.Run(p.name, func(t *testing.T) {
			kept, err := os.ReadFile(p.file())
			if err != nil {
				t.Fatal(err)
			}
			drawn, err := p.draw()
			if err != nil {
				t.Fatal(err)
			}
			if d, at := difference(t, kept, drawn); d > tolerance {
				t.Errorf("the page differs from its picture by %.0f of 255 around pixel %v; %.0f is allowed; run: go run ./cmd/dev pictures, and look", d, at, tolerance)
			}
		})
	}
	files, err := filepath.Glob(filepath.Join(root(), "testdata", "pictures", "*.png"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !used[f] {
			t.Errorf("%s is compared with nothing", f)
		}
	}
}

// The measure sees what it must: a digit in small type that is another one, a hairline that moved by two pixels.
func TestDifferenceSeesADigit(t *testing.T) {
	blank := func() *image.Gray {
		m := image.NewGray(image.Rect(0, 0, 100, 100))
		for i := range m.Pix {
			m.Pix[i] = 255
		}
		return m
	}
	encode := func(m *image.Gray) []byte {
		var b bytes.Buffer
		if err := png.Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	line, moved, one := blank(), blank(), blank()
	for x := range 100 {
		line.Pix[line.PixOffset(x, 55)], moved.Pix[moved.PixOffset(x, 57)] = 120, 120
	}
	for y := range 6 { // of eight-point type at 50 dots an inch
		one.Pix[one.PixOffset(53, 50+y)], one.Pix[one.PixOffset(54, 50+y)] = 60, 60
	}
	for name, pair := range map[string][2]*image.Gray{"line": {line, moved}, "digit": {blank(), one}} {
		if d, _ := difference(t, encode(pair[0]), encode(pair[1])); d <= tolerance {
			t.Errorf("%s: the difference is %.1f, and %.1f would be let pass", name, d, tolerance)
		}
	}
	if d, _ := difference(t, encode(line), encode(line)); d != 0 {
		t.Errorf("a picture differs from itself by %.1f", d)
	}
}

// difference is the greatest mean of the absolute differences of grey levels in a block, and where; pictures of different size
// differ wholly.
func difference(t *testing.T, a, b []byte) (greatest float64, at image.Point) {
	t.Helper()
	x, y := decode(t, a), decode(t, b)
	if x.Bounds() != y.Bounds() {
		return 255, image.Point{}
	}
	box := x.Bounds()
	for top := box.Min.Y; top < box.Max.Y; top += block {
		for left := box.Min.X; left < box.Max.X; left += block {
			sum, n := 0.0, 0.0
			for j := top; j < min(top+block, box.Max.Y); j++ {
				for i := left; i < min(left+block, box.Max.X); i++ {
					p, _, _, _ := x.At(i, j).RGBA()
					q, _, _, _ := y.At(i, j).RGBA()
					sum += max(float64(p)-float64(q), float64(q)-float64(p)) / 257
					n++
				}
			}
			if d := sum / n; d > greatest {
				greatest, at = d, image.Pt(left, top)
			}
		}
	}
	return greatest, at
}

func decode(t *testing.T, data []byte) image.Image {
	t.Helper()
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return picture
}
