// Package doc has the documents of the kit book: each a pure function from facts and findings to pages. A document computes
// nothing and judges nothing; it says what is known, in the reader's units and language, and prints "not shown" where nothing
// is. It reads no clock: a date that is to be printed is handed in.
//
// The fixed words stand in words/*.json, and there a language may have what the checklists and cautions of packs say. Whatever it does not
// have, and what a manifest says, is printed in the language in which it was written.
//
// Sheets are set in black alone and hold up on a bad copier: no meaning lies in a colour or in a shade of grey.
package doc

import "hoistbook/render/page"

// A Document is one document of the book, and a file of its own.
type Document struct {
	Name  string // of the file, without its extension
	title string // id of its title
	field bool   // read standing, not at a table
	fine  bool   // looked up, not read through
	wide  bool   // on sheets that lie
	write func(*sheet)
	when  func(*Input) bool // nil: every kit has it
}

// All lists the documents in the order of the book. The caller may not change it.
var All = []Document{
	summary, elevation, billOfMaterials, orderSheet, powerTree, connections, assembly, packing, preflight, stationLog, batteryChange, limitsCard, recovery, cautions,
	radioPlan, notices, findings, calculation, assumptions, changeRecord,
}

// Find returns the document of this name.
func Find(name string) (Document, bool) {
	for _, d := range All {
		if d.Name == name {
			return d, true
		}
	}
	return Document{}, false
}

// Title is what the document is called in the reader's language.
func (d Document) Title(w *Words) string { return w.Say(d.title) }

// Applies reports whether a kit has this document.
func (d Document) Applies(in *Input) bool { return d.when == nil || d.when(in) }

// Compose sets the document by itself.
func (d Document) Compose(in *Input) (*page.Document, error) {
	part, err := d.part(in)
	if err != nil {
		return nil, err
	}
	return in.bind(d.Title(in.Words), in.Attachments, part)
}

// part sets the document's pages, for itself and for the book.
func (d Document) part(in *Input) (*page.Part, error) {
	s := newSheet(in, d.Title(in.Words))
	s.write(d)
	return s.flow.Part()
}

// bind makes a file's document of parts.
func (in *Input) bind(title string, attachments []page.Attachment, parts ...*page.Part) (*page.Document, error) {
	return page.Bind(in.describe(title, attachments), in.running(title), parts...)
}
