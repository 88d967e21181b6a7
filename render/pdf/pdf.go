// Package pdf writes a [page.Document] as a PDF file, and takes attachments out of such a file again.
//
// The work is parted. The library fpdf draws: it turns shapes into page content. Everything that ties a file together is our own:
// the page tree, the fonts (each file embeds just the glyphs that are used: with twenty plain pages in three faces that takes a
// fifth of the time of fpdf's own way, see the benchmarks, and fpdf gets no font bytes to write into), outline, links, form fields
// with their appearances, attachments, page labels, metadata and the file's identifier. The result is a plain PDF 1.7 file
// (ISO 32000-1) with one cross-reference table.
//
// Documents that are written together, as a book and its chapters are, share what they have in common: a page that stands in two of
// them is drawn and packed once, and so are the fonts and an attachment.
//
// The same documents give the same bytes: no clock, no random number and no map order gets in. Neither PDF/A nor tagged PDF is
// claimed: no free program at hand verifies them. What helps a reader without eyes is there all the same: the language, the title,
// the outline, real text in reading order and a label on every form field.
package pdf

import (
	"errors"
	"fmt"
	"io"
	"sync"

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
	files, err := Together(doc)
	if err != nil {
		return nil, err
	}
	return files[0], nil
}

// Together is a file for each document, all of them in the same fonts. A fault in one is a fault of all.
func Together(docs ...*page.Document) ([][]byte, error) {
	if len(docs) == 0 || docs[0] == nil {
		return nil, errors.New("pdf: there is no document")
	}
	faults := make([]error, len(docs))
	sideBySide(len(docs), func(i int) { faults[i] = docs[i].Check() })
	for _, err := range faults {
		if err != nil {
			return nil, fmt.Errorf("pdf: %w", err)
		}
	}
	drawn, err := draw(docs)
	if err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	files := make([][]byte, len(docs))
	sideBySide(len(docs), func(i int) { files[i] = drawn.file(docs[i]) })
	return files, nil
}

// sideBySide does one thing for each number below n.
func sideBySide(n int, do func(int)) {
	var all sync.WaitGroup
	for i := range n {
		all.Go(func() { do(i) })
	}
	all.Wait()
}
