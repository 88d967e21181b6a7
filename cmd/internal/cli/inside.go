package cli

import (
	"errors"
	"io/fs"
	"os"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/record"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// signatureSuffix is what the file of a signature is called after the file that it signs.
const signatureSuffix = ".sig"

// inside gathers once what rides inside every document of a kit, and returns what makes the attachments of one.
func (o *options) inside(a *assess.Assessment) (func(document string) ([]page.Attachment, error), error) {
	report, err := a.JSON()
	if err != nil {
		return nil, err
	}
	var sources []record.File
	for _, s := range a.Manifest.Sources() {
		signature, err := signatureOf(s.Name)
		if err != nil {
			return nil, err
		}
		sources = append(sources, record.File{Name: s.Name, Data: s.Data, Signature: signature})
	}
	packs, err := filesOf(o.packs)
	if err != nil {
		return nil, err
	}
	fonts, err := filesOf(o.print.fonts)
	if err != nil {
		return nil, err
	}
	r := record.Record{Program: printedBy, Units: "si", Paper: o.paper.text, Language: o.print.language, Date: o.print.date}
	if o.system.value == unit.US {
		r.Units = "us"
	}
	for _, f := range fonts {
		r.Fonts = append(r.Fonts, record.Font(f.Name, f.Data))
	}
	var words *record.File
	if o.print.words != "" {
		own, err := filesOf([]string{o.print.words})
		if err != nil {
			return nil, err
		}
		words = &own[0]
	}
	return func(document string) ([]page.Attachment, error) {
		mine := r
		mine.Document = document
		return record.Inside(mine, report, sources, packs, words)
	}, nil
}

// filesOf reads files.
func filesOf(names []string) ([]record.File, error) {
	var files []record.File
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		files = append(files, record.File{Name: name, Data: data})
	}
	return files, nil
}

// signatureOf reads the signature that lies beside a file; nil when there is none.
func signatureOf(name string) ([]byte, error) {
	data, err := os.ReadFile(name + signatureSuffix)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return data, err
}
