package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"testing"
)

// tolerance is how far, on average over a page, a pixel may differ from the picture in the README, in parts of 255: two
// versions of the drawing program differ by less than one, a changed number or a moved line by more.
const tolerance = 0.5

func TestPicturesAreTrue(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("pdftoppm is missing: install Debian's poppler-utils")
		}
		t.Skip("pdftoppm of Debian's poppler-utils is not installed")
	}
	for _, p := range pictures {
		kept, err := os.ReadFile(pictureFile(p.document))
		if err != nil {
			t.Fatal(err)
		}
		drawn, err := drawPage(p.document, p.page)
		if err != nil {
			t.Fatal(err)
		}
		if d := difference(t, kept, drawn); d > tolerance {
			t.Errorf("%s: the picture differs from the page by %.2f of 255 a pixel, at most %.2f is allowed; run: go run ./cmd/dev pictures", p.document, d, tolerance)
		}
	}
}

// difference is the mean of the absolute differences of grey levels; pictures of different size differ wholly.
func difference(t *testing.T, a, b []byte) float64 {
	t.Helper()
	x, y := decode(t, a), decode(t, b)
	if x.Bounds() != y.Bounds() {
		return 255
	}
	sum, n := 0.0, 0.0
	for j := x.Bounds().Min.Y; j < x.Bounds().Max.Y; j++ {
		for i := x.Bounds().Min.X; i < x.Bounds().Max.X; i++ {
			p, _, _, _ := x.At(i, j).RGBA()
			q, _, _, _ := y.At(i, j).RGBA()
			sum += max(float64(p)-float64(q), float64(q)-float64(p)) / 257
			n++
		}
	}
	return sum / n
}

func decode(t *testing.T, data []byte) image.Image {
	t.Helper()
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return picture
}
