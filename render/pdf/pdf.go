// Package pdf writes a [page.Document] as a PDF file, and takes attachments out of such a file again.
//
// The work is parted. The library fpdf draws: it turns shapes into page content and builds the page tree. Everything
// that ties a file together is a finishing pass of our own over fpdf's objects: the fonts (each document embeds just the glyphs
// that it uses: with twenty plain pages in three faces that takes a fifth of the time of fpdf's own way, see the benchmarks, and
// fpdf gets no font bytes to write into), outline, links, form fields with their appearances, attachments, page labels, metadata
// and the file's identifier. The result is a plain PDF 1.7 file (ISO 32000-1) with one cross-reference table.
//
// The same document gives the same bytes: no clock, no random number and no map order gets in. Documents may be written side by
// side. Neither PDF/A nor tagged PDF is claimed: no free program at hand verifies them. What helps a reader without eyes is
// there all the same: the language, the title, the outline, real text in reading order and a label on every form field.
package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"github.com/go-pdf/fpdf"

	"hoistbook/render/page"
)

// Write checks a document and writes it. Nothing is written if anything is wrong.
func Write(doc *page.Document, w io.Writer) error {
	b, err := Bytes(doc)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

// Bytes is the document as a file.
func Bytes(doc *page.Document) ([]byte, error) {
	if doc == nil {
		return nil, errors.New("pdf: there is no document")
	}
	if err := doc.Check(); err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	letters := newTypeCase(doc.Fonts)
	drawn, err := draw(doc, letters)
	if err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	f, err := open(drawn, len(doc.Pages))
	if err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	return f.finish(doc, letters)
}

// draw has fpdf draw all pages.
func draw(doc *page.Document, letters *typeCase) ([]byte, error) {
	first := doc.Pages[0].Paper
	f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: size(first)})
	f.SetCompression(false) // it sets up a new compressor for every page; the finishing pass has one for all
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	for _, p := range doc.Pages {
		f.AddPageFormat("P", size(p.Paper))
		c := canvas{f: f, fonts: letters, height: p.Paper.Height}
		for _, it := range p.Items {
			c.item(it)
		}
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func size(p page.Paper) fpdf.SizeType {
	return fpdf.SizeType{Wd: float64(p.Width), Ht: float64(p.Height)}
}
