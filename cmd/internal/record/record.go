// Package record is what rides inside a printed document besides its manifest: how it was printed and from which files, so that it
// can be printed again and held against itself, and the report as it was on the day of printing.
package record

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"hoistbook/kits/manifest"
	"hoistbook/render/page"
	"hoistbook/render/pdf"
	"hoistbook/rules"
)

// Format is the format of records.
const Format = "hoistbook-record/1"

// mostFiles bounds how many sources, and how many packs, a document is printed from: a book may come from anybody, and each is
// sought in it.
const mostFiles = 50

// The names of the attachments.
const (
	Name   = "record.json"
	Report = "report.json"
)

// A Record says how a document was printed.
type Record struct {
	// Format is the format of this record.
	Format string `json:"format"`
	// Program is the program that printed.
	Program string `json:"program"`
	// Document is the name of the document.
	Document string `json:"document"`
	// Units, Paper, Language and Date are those of the command line; no date was printed where it is empty.
	Units    string `json:"units"`
	Paper    string `json:"paper"`
	Language string `json:"language"`
	Date     string `json:"date,omitempty"`
	// Words is the attachment with the fixed words, where they were not built in.
	Words *Attached `json:"words,omitempty"`
	// Fonts are the fonts that were handed in: their names and hashes. They are too large to ride along.
	Fonts []Attached `json:"fonts,omitempty"`
	// Sources are the manifest and its overlays as they were written, in their order.
	Sources []Attached `json:"sources"`
	// Packs are the rule packs that were added to the built-in ones.
	Packs []Attached `json:"packs,omitempty"`
}

// Attached is a file that rides along, or that would have to be at hand again.
type Attached struct {
	// Name is the file's, without its folder.
	Name string `json:"name"`
	// Attachment is where it rides.
	Attachment string `json:"attachment,omitempty"`
	// SHA256 is the hash of its bytes.
	SHA256 string `json:"sha256"`
	// Signature is the attachment with its signature, where there was one beside it.
	Signature string `json:"signature,omitempty"`
}

// A File is to be attached.
type File struct {
	Name      string // with its folder
	Data      []byte
	Signature []byte // nil when there is none
}

// Inside makes the attachments of a document: the record, the report and the files. The record's lists are filled here.
func Inside(r Record, report []byte, sources, packs []File, words *File) ([]page.Attachment, error) {
	if len(sources) > mostFiles || len(packs) > mostFiles {
		return nil, fmt.Errorf("a document cannot carry %d sources and %d rule packs; lay at most %d overlays and add at most %d packs", len(sources), len(packs), mostFiles-1, mostFiles)
	}
	r.Format = Format
	var files []page.Attachment
	attach := func(kind string, f File) Attached {
		name := manifest.FileName(f.Name)
		a := Attached{Name: name, Attachment: kind + "-" + name, SHA256: hash(f.Data)}
		files = append(files, page.Attachment{Name: a.Attachment, MediaType: "application/json", Data: f.Data})
		if f.Signature != nil {
			a.Signature = a.Attachment + ".sig"
			files = append(files, page.Attachment{Name: a.Signature, MediaType: "text/plain", Data: f.Signature})
		}
		return a
	}
	for i, f := range sources {
		r.Sources = append(r.Sources, attach(fmt.Sprintf("source-%d", i+1), f))
	}
	for i, f := range packs {
		r.Packs = append(r.Packs, attach(fmt.Sprintf("rules-%d", i+1), f))
	}
	if words != nil {
		a := attach("words", *words)
		r.Words = &a
	}
	text, err := json.Marshal(r)
	if err != nil {
		return nil, err
	}
	return append(files,
		page.Attachment{Name: Name, Description: "how this document was printed", MediaType: "application/json", Data: text},
		page.Attachment{Name: Report, Description: "the findings on the day of printing", MediaType: "application/json", Data: report}), nil
}

func hash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Font describes a font that was handed in.
func Font(name string, data []byte) Attached {
	return Attached{Name: manifest.FileName(name), SHA256: hash(data)}
}

// A Book is what was found inside a file.
type Book struct {
	File     []byte
	Manifest []byte // canonical
	Record   *Record
	Report   []byte
	Sources  []File
	Packs    []rules.Text
	Words    []byte
	// Wrong says what rides inside that is not what the record says of it.
	Wrong []string
}

// Open takes out what rides inside a printed file. A file without a manifest is an error; one without a record has none.
func Open(data []byte, manifestName string) (*Book, error) {
	b := &Book{File: data}
	var err error
	if b.Manifest, err = pdf.Attachment(data, manifestName); err != nil {
		return nil, err
	}
	text, err := pdf.Attachment(data, Name)
	if err != nil {
		return b, nil
	}
	var r Record
	if err := json.Unmarshal(text, &r); err != nil || r.Format != Format {
		b.Wrong = append(b.Wrong, "the record of how it was printed cannot be read")
		return b, nil
	}
	if len(r.Sources) > mostFiles || len(r.Packs) > mostFiles {
		b.Wrong = append(b.Wrong, fmt.Sprintf("the record of how it was printed names more than %d files", mostFiles))
		return b, nil
	}
	b.Record = &r
	if b.Report, err = pdf.Attachment(data, Report); err != nil {
		b.Wrong = append(b.Wrong, "the report of the day of printing was taken out")
	}
	for _, a := range r.Sources {
		f := File{Name: a.Name, Data: b.take(a)}
		if a.Signature != "" {
			f.Signature, _ = pdf.Attachment(data, a.Signature) // one that was taken out is no signature
		}
		b.Sources = append(b.Sources, f)
	}
	for _, a := range r.Packs {
		b.Packs = append(b.Packs, rules.Text{Name: a.Name, JSON: b.take(a)})
	}
	if r.Words != nil {
		b.Words = b.take(*r.Words)
	}
	return b, nil
}

// take takes one file out and holds it against its hash.
func (b *Book) take(a Attached) []byte {
	data, err := pdf.Attachment(b.File, a.Attachment)
	switch {
	case err != nil:
		b.Wrong = append(b.Wrong, fmt.Sprintf("the file %s that it was printed from was taken out", a.Name))
	case hash(data) != a.SHA256:
		b.Wrong = append(b.Wrong, fmt.Sprintf("the file %s inside is not the one that it was printed from", a.Name))
	}
	return data
}

// Load reads the manifest from the files inside, or from the merged one where they are missing.
func (b *Book) Load(file string) (*manifest.Manifest, error) {
	if len(b.Sources) == 0 {
		return manifest.Load(manifest.Source{Name: file, Data: b.Manifest})
	}
	sources := make([]manifest.Source, len(b.Sources))
	for i, s := range b.Sources {
		sources[i] = manifest.Source{Name: s.Name, Data: s.Data}
	}
	return manifest.Load(sources[0], sources[1:]...)
}
