package cli

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/whole"
	"hoistbook/render/doc"
	"hoistbook/render/page"
	"hoistbook/render/pdf"
	"hoistbook/rules"
)

func bookCommand(o *options) *cobra.Command {
	var dir string
	c := &cobra.Command{
		Use:   "book [MANIFEST] -o DIR",
		Short: "Write the kit book and each of its documents as PDF",
		Long: `Book writes book.pdf and every document of it alone into DIR. A kit that is NO-GO gets its book too, with the
verdict on the first page, and the exit status says so.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			a, err := o.kit(manifestOf(args))
			if err != nil {
				return err
			}
			return o.book(a, dir)
		},
	}
	o.printingFlags(c.Flags())
	o.dateFlag(c.Flags())
	c.Flags().StringVarP(&dir, "output", "o", "", "write into this `DIR`, which is made if need be")
	if err := c.MarkFlagRequired("output"); err != nil {
		panic(err) // the flag stands one line above
	}
	return c
}

func (o *options) book(a *assess.Assessment, dir string) error {
	files, err := o.printBook(a)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for i := range files {
		files[i].Path = filepath.Join(dir, files[i].Path)
	}
	if err := whole.Write(files...); err != nil {
		return err
	}
	for _, f := range files {
		fmt.Fprintln(o.streams.Out, f.Path)
	}
	fmt.Fprintln(o.streams.Out, a.Verdict)
	if a.Verdict != rules.Go {
		return errNoGo
	}
	return nil
}

// printBook composes the book and each document of the kit, and makes files of them.
func (o *options) printBook(a *assess.Assessment) ([]whole.File, error) {
	in, err := o.input(a.Facts, a.Packs)
	if err != nil {
		return nil, err
	}
	inside, err := o.inside(a)
	if err != nil {
		return nil, err
	}
	documents, err := doc.BookAndDocuments(in, inside)
	if err != nil {
		return nil, err
	}
	pages := make([]*page.Document, len(documents))
	for i, d := range documents {
		pages[i] = d.Document
	}
	// The book has every page: the others would say the same again.
	if err := pages[0].Letters(); err != nil {
		return nil, fmt.Errorf("%s: %w", doc.BookName, errLetters(err))
	}
	printed, err := pdf.Together(pages...)
	if err != nil {
		return nil, err
	}
	files := make([]whole.File, len(documents))
	for i, d := range documents {
		files[i] = whole.File{Path: d.Name + ".pdf", Data: printed[i]}
	}
	return files, nil
}

// composer is what sets the document of this name, or nil.
func composer(name string) func(*doc.Input) (*page.Document, error) {
	if name == doc.BookName {
		return doc.Book
	}
	if d, ok := doc.Find(name); ok {
		return d.Compose
	}
	return nil
}

func printOne(name string, in *doc.Input, compose func(*doc.Input) (*page.Document, error)) (whole.File, error) {
	pages, err := compose(in)
	if err != nil {
		return whole.File{}, fmt.Errorf("%s: %w", name, err)
	}
	if err := pages.Letters(); err != nil {
		return whole.File{}, fmt.Errorf("%s: %w", name, errLetters(err))
	}
	data, err := pdf.Bytes(pages)
	if err != nil {
		return whole.File{}, fmt.Errorf("%s: %w", name, err)
	}
	return whole.File{Path: name + ".pdf", Data: data}, nil
}
