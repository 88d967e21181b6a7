package doc

import (
	"strings"

	"hoistbook/render/page"
)

// BookName is the name of the book's file, without its extension.
const BookName = "book"

// ManifestName is the name of the attachment that holds the manifest.
const ManifestName = "manifest.json"

// Book sets the cover and every document that the kit has.
func Book(in *Input) (*page.Document, error) {
	title := in.Words.Say("book.title")
	s := newSheet(in, title)
	if err := s.cover(); err != nil {
		return nil, err
	}
	for _, d := range All {
		if d.Applies(in) {
			s.write(d)
		}
	}
	return s.finish(title)
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
