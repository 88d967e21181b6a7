package doc

import (
	"fmt"
	"strings"
	"sync"

	"hoistbook/render/page"
)

// BookName is the name of the book's file, without its extension.
const BookName = "book"

// ManifestName is the name of the attachment that holds the manifest.
const ManifestName = "manifest.json"

// Book sets the cover and every document that the kit has.
func Book(in *Input) (*page.Document, error) {
	_, parts, err := in.parts()
	if err != nil {
		return nil, err
	}
	return in.bind(in.Words.Say("book.title"), in.Attachments, parts...)
}

// Named is a document under the name of its file.
type Named struct {
	Name string
	*page.Document
}

// BookAndDocuments sets the book and, bound of the same pages, each of its documents by itself. The book comes first. Inside tells what
// rides inside the document of a name, beside the manifest.
func BookAndDocuments(in *Input, inside func(name string) ([]page.Attachment, error)) ([]Named, error) {
	documents, parts, err := in.parts()
	if err != nil {
		return nil, err
	}
	all := make([]Named, len(parts))
	for i := range all {
		name, title, mine := BookName, in.Words.Say("book.title"), parts
		if i > 0 {
			d := documents[i-1]
			name, title, mine = d.Name, d.Title(in.Words), parts[i:i+1]
		}
		attachments, err := inside(name)
		if err != nil {
			return nil, err
		}
		bound, err := in.bind(title, attachments, mine...)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		all[i] = Named{name, bound}
	}
	return all, nil
}

// parts sets the cover and each document that the kit has, side by side.
func (in *Input) parts() (documents []Document, parts []*page.Part, err error) {
	for _, d := range All {
		if d.Applies(in) {
			documents = append(documents, d)
		}
	}
	parts = make([]*page.Part, 1+len(documents))
	faults := make([]error, len(parts))
	var setting sync.WaitGroup
	for i := range parts {
		setting.Go(func() {
			if i == 0 {
				parts[i], faults[i] = in.coverPart()
			} else if parts[i], faults[i] = documents[i-1].part(in); faults[i] != nil {
				faults[i] = fmt.Errorf("%s: %w", documents[i-1].Name, faults[i])
			}
		})
	}
	setting.Wait()
	for _, err := range faults {
		if err != nil {
			return nil, nil, err
		}
	}
	return documents, parts, nil
}

func (in *Input) coverPart() (*page.Part, error) {
	s := newSheet(in, in.Words.Say("book.title"))
	if err := s.cover(); err != nil {
		return nil, err
	}
	return s.flow.Part()
}

// cover says what kit this is, whether it passes, and what is inside.
func (s *sheet) cover() error {
	m := s.Facts.Manifest
	code, err := s.code()
	if err != nil {
		return err
	}
	s.add(page.Heading{Text: m.Kit.Name, Silent: true}, page.Paragraph{Text: page.Plain(m.Kit.Summary)}, page.Space(4))
	s.add(s.verdict())
	about := page.KeyValues{
		{Key: s.say("kit.revision"), Value: page.Plain(string(m.Kit.Revision))}, {Key: s.say("kit.digest"), Value: page.Code(m.Digest())},
	}
	about = append(about, s.madeFor()...)
	for _, more := range []struct{ id, text string }{
		{"kit.rules", s.rulesInForce()}, {"kit.maintainer", m.Kit.Maintainer}, {"kit.licence", m.Kit.Licence},
	} {
		if more.text != "" {
			about = append(about, page.KeyValue{Key: s.say(more.id), Value: page.Plain(more.text)})
		}
	}
	if !s.Date.IsZero() {
		about = append(about, page.KeyValue{Key: s.say("kit.date"), Value: page.Plain(s.Date.Format("2006-01-02"))})
	}
	s.add(page.Beside{Shares: []float64{0.68, 0.32}, Blocks: [][]page.Block{{about}, {code}}}, page.Heading{Level: 1, Text: s.say("book.contents"), Silent: true})
	var contents page.Contents
	for _, d := range All {
		if d.Applies(s.Input) {
			contents = append(contents, page.ContentsLine{Text: d.Title(s.Words), Anchor: d.Name})
		}
	}
	s.add(contents, page.Space(4), page.Paragraph{Text: page.Plain(s.say("advice"))})
	return nil
}

// rulesInForce names the packs that judged the kit and wrote its lists. The digest is that of their texts: two books of one
// manifest are different papers when other packs were in force.
func (s *sheet) rulesInForce() string {
	ids := make([]string, len(s.Packs))
	for i, p := range s.Packs {
		ids[i] = p.ID
	}
	if len(ids) == 0 {
		return ""
	}
	return strings.Join(ids, ", ") + " (" + s.rulesDigest + ")"
}
