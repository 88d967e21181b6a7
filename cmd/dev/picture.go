package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/doc"
	"hoistbook/render/pdf"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// pictures are the pages that the README shows: a document of the demonstration kit and the number of its page.
var pictures = []struct {
	document string
	page     int
}{{"preflight", 1}}

// pictureFile is where the picture of a document's page stands.
func pictureFile(document string) string {
	return filepath.Join(root(), "testdata", "pictures", document+".png")
}

// drawPictures makes the pictures anew. It needs pdftoppm of Debian's poppler-utils.
func drawPictures() error {
	for _, p := range pictures {
		png, err := drawPage(p.document, p.page)
		if err != nil {
			return err
		}
		if err := os.MkdirAll(filepath.Dir(pictureFile(p.document)), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(pictureFile(p.document), png, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// drawPage prints a document of the demonstration kit and makes a picture of one page, 72 dots an inch.
func drawPage(document string, number int) ([]byte, error) {
	data, err := printDemo(document)
	if err != nil {
		return nil, err
	}
	n := fmt.Sprint(number)
	draw := exec.Command("pdftoppm", "-png", "-gray", "-r", "72", "-f", n, "-l", n, "-singlefile", "-")
	draw.Stdin = bytes.NewReader(data)
	var said bytes.Buffer
	draw.Stderr = &said
	png, err := draw.Output()
	if err != nil {
		return nil, fmt.Errorf("pdftoppm: %w: %s", err, said.String())
	}
	return png, nil
}

func printDemo(document string) ([]byte, error) {
	source, ok := kits.Demo(kits.FirstDemo)
	d, found := doc.Find(document)
	if !ok || !found {
		return nil, errors.New("there is no demonstration kit or document " + document)
	}
	m, err := manifest.Load(source)
	if err != nil {
		return nil, err
	}
	built, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		return nil, err
	}
	words, err := doc.Language("en")
	if err != nil {
		return nil, err
	}
	pages, err := d.Compose(doc.Gather(kits.Assess(m), built, unit.SI, words))
	if err != nil {
		return nil, err
	}
	return pdf.Bytes(pages)
}
