package main

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/doc"
	"hoistbook/render/page"
	"hoistbook/render/pdf"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// A picture is a page that eyes have seen: which kit and document in which dress, the number of the page, and how fine it is drawn.
type picture struct {
	name     string // of its file; that of the document where the README shows it
	edition  edition
	document string
	page     int
	dots     int // an inch
}

// An edition is a kit in one language, on one paper, in one system of units.
type edition struct {
	kit, language string
	paper         page.Paper
	system        unit.System
}

var (
	metric   = edition{"fen-relay", "en", page.A4, unit.SI}
	american = edition{"ridge-sphere", "en", page.Letter, unit.US}
	german   = edition{"marsh-data", "de", page.A4, unit.SI}
)

// coarse is fine enough to see what stands where, and small.
const coarse = 50

// pictures are the page of the README and one page of every kind of drawing and layout, in all editions.
var pictures = []picture{
	{"preflight", metric, "preflight", 1, 72},
	{"cover", metric, doc.BookName, 1, coarse},
	{"elevation", metric, "elevation", 1, coarse},
	{"power-tree", metric, "power-tree", 1, coarse},
	{"checklist", metric, "preflight", 3, coarse},
	{"bill-of-materials", american, "bill-of-materials", 1, coarse},
	{"limits-card", american, "limits-card", 1, coarse},
	{"radio-plan", american, "radio-plan", 1, coarse},
	{"summary", german, "summary", 1, coarse},
	{"station-log", german, "station-log", 2, coarse},
	{"cautions", german, "cautions", 1, coarse},
}

// file is where the picture stands.
func (p picture) file() string {
	return filepath.Join(root(), "testdata", "pictures", p.name+".png")
}

// drawPictures makes the pictures anew. It needs pdftoppm of Debian's poppler-utils.
func drawPictures() error {
	for _, p := range pictures {
		drawn, err := p.draw()
		if err != nil {
			return err
		}
		if err := os.MkdirAll(filepath.Dir(p.file()), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(p.file(), drawn, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// draw prints the document and makes a picture of the page.
func (p picture) draw() ([]byte, error) {
	data, err := p.print()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.name, err)
	}
	n := fmt.Sprint(p.page)
	cmd := exec.Command("pdftoppm", "-png", "-gray", "-r", fmt.Sprint(p.dots), "-f", n, "-l", n, "-singlefile", "-")
	cmd.Stdin = bytes.NewReader(data)
	var said bytes.Buffer
	cmd.Stderr = &said
	drawn, err := cmd.Output()
	if err != nil || said.Len() > 0 {
		return nil, fmt.Errorf("%s: pdftoppm: %v: %s", p.name, err, said.String())
	}
	return packed(drawn)
}

// packed has 16 levels of grey: a third of the size, and nobody sees it on a page of text.
func packed(drawn []byte) ([]byte, error) {
	const levels = 16
	fine, err := png.Decode(bytes.NewReader(drawn))
	if err != nil {
		return nil, err
	}
	greys := make(color.Palette, levels)
	for i := range greys {
		greys[i] = color.Gray{Y: uint8(i * 255 / (levels - 1))}
	}
	plain := image.NewPaletted(fine.Bounds(), greys)
	draw.Draw(plain, plain.Bounds(), fine, fine.Bounds().Min, draw.Src)
	var b bytes.Buffer
	err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, plain)
	return b.Bytes(), err
}

func (p picture) print() ([]byte, error) {
	source, ok := kits.Demo(p.edition.kit)
	compose := doc.Book
	if p.document != doc.BookName {
		d, found := doc.Find(p.document)
		ok, compose = ok && found, d.Compose
	}
	if !ok {
		return nil, errors.New("there is no demonstration kit or document " + p.edition.kit + ", " + p.document)
	}
	m, err := manifest.Load(source)
	if err != nil {
		return nil, err
	}
	built, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		return nil, err
	}
	words, err := doc.Language(p.edition.language)
	if err != nil {
		return nil, err
	}
	in := doc.Gather(kits.Assess(m), built, p.edition.system, words)
	in.Paper = p.edition.paper
	pages, err := compose(in)
	if err != nil {
		return nil, err
	}
	return pdf.Bytes(pages)
}
