package doc

import (
	"strings"
	"time"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// A sheet is a document that is being written.
type sheet struct {
	*Input
	flow *page.Flow
	doc  Document
}

func newSheet(in *Input, title string) *sheet {
	return &sheet{Input: in, flow: page.NewFlow(page.Setup{Paper: in.Paper, Fonts: in.Fonts, Running: in.running(title)})}
}

// running are the lines that every page of a document with this title repeats.
func (in *Input) running(title string) func(page.Place) []page.Item {
	m := in.Facts.Manifest
	s := &sheet{Input: in}
	digest := s.say("running.digest", "digest", m.ShortDigest())
	if in.rulesDigest != "" {
		digest += " · " + s.say("running.rules", "digest", in.rulesDigest)
	}
	if !in.Date.IsZero() {
		digest += " · " + in.Date.Format(time.DateOnly)
	}
	running := page.Running{
		Made: s.made(), More: func(n int) string { return s.Words.Count("running.more", n) },
		Kit: m.Kit.Name, Revision: s.say("running.revision", "revision", string(m.Kit.Revision)),
		Digest: digest, Title: title,
		Page: func(n, of int) string { return s.say("running.page", "n", digits(n), "m", digits(of)) },
		Sheet: func(title string, n, of int) string {
			return s.say("running.sheet", "title", title, "n", digits(n), "m", digits(of))
		},
	}
	return func(at page.Place) []page.Item { return append(running.Items(at), s.advice(at)) }
}

// advice is the line at the foot of every page that says who decides.
func (s *sheet) advice(at page.Place) page.Item {
	const below = page.MM(10) // the text block, under the other running lines
	style := at.Scale.Running
	for text := s.say("running.advice"); style.Size > leastSize && s.Fonts.Width(style.Face, style.Size, text) > at.Text.W; {
		style.Size -= 0.25
	}
	return page.Text{X: at.Text.X, Y: at.Text.Bottom() + below + style.Size.MM(), Size: style.Size, Text: s.Fonts.Fit(style, s.say("running.advice"), at.Text.W)}
}

// write sets one document.
func (s *sheet) write(d Document) {
	s.doc = d
	if d.wide {
		s.flow.SetPaper(s.Paper.Landscape())
	} else {
		s.flow.SetPaper(s.Paper)
	}
	scale := &page.Desk
	switch {
	case d.field:
		scale = &page.Afield
	case d.fine:
		scale = &page.Reference
	}
	s.flow.SetScale(scale)
	title := d.Title(s.Words)
	s.flow.Section(title)
	s.add(page.Heading{Text: title, Anchor: d.Name})
	d.write(s)
}

// finish binds what was set.
func (s *sheet) finish(title string) (*page.Document, error) {
	return s.flow.Finish(s.describe(title, s.Attachments))
}

// describe says what a file says of itself. The manifest rides inside, in a single sheet too: whoever has the paper's file has the kit.
func (in *Input) describe(title string, attachments []page.Attachment) page.Document {
	m, say := in.Facts.Manifest, in.Words.Say
	return page.Document{
		Title: say("document.title", "kit", m.Kit.Name, "revision", string(m.Kit.Revision), "title", title), Subject: m.Kit.Summary,
		Author: m.Kit.Maintainer, Language: in.Words.Tag(), Keywords: []string{string(m.Kit.ID), string(m.Kit.Revision), m.Digest()},
		Creator: in.Program, Date: in.Date, Fonts: in.Fonts, Attachments: append([]page.Attachment{{
			Name: ManifestName, Description: say("document.manifest"), MediaType: "application/json", Data: m.JSON(),
		}}, attachments...),
	}
}

func (s *sheet) add(blocks ...page.Block) { s.flow.Add(blocks...) }

func (s *sheet) say(id string, pairs ...string) string { return s.Words.Say(id, pairs...) }

func (s *sheet) heading(level int, text string) { s.add(page.Heading{Level: level, Text: text}) }

func (s *sheet) paragraph(text string) { s.add(page.Paragraph{Text: page.Plain(text)}) }

// leading is a paragraph that stays with the table or figure below it.
func (s *sheet) leading(text string) { s.add(page.Paragraph{Text: page.Plain(text), Leads: true}) }

// field names a form field of this document: a name stands only once in a file, and the book has them all.
func (s *sheet) field(names ...string) string {
	return s.doc.Name + "/" + strings.Join(names, "/")
}

// text prints a quantity.
func (s *sheet) text(q unit.Quantity) string { return s.value(fact.Of(q)) }

// value prints a fact's value, or that it is not shown.
func (s *sheet) value(v fact.Value) string {
	switch {
	case !v.Known():
		return s.say("value.not-shown")
	case v.Kind == fact.YesNo && v.Yes:
		return s.say("value.yes")
	case v.Kind == fact.YesNo:
		return s.say("value.no")
	case v.Kind == fact.Word:
		return v.Text
	case v.Kind == fact.Money:
		return strings.TrimSpace(s.Words.Number(v.Text) + " " + s.currency())
	}
	return s.Words.Number(v.Print(s.System, ""))
}

// least prints a value that nobody may come below, rounded up; most one that nobody may exceed, rounded down. The checklists and
// the walk-through print the same numbers.
func (s *sheet) least(v fact.Value) string { return s.rounded(v, unit.AtLeast) }
func (s *sheet) most(v fact.Value) string  { return s.rounded(v, unit.AtMost) }

func (s *sheet) rounded(v fact.Value, side unit.Side) string {
	if !v.Known() || v.Kind != fact.Number {
		return s.value(v)
	}
	return s.Words.Number(v.Limit(side, s.System))
}

// price prints money in a column that names the currency itself.
func (s *sheet) price(v fact.Value) string {
	if !v.Known() {
		return s.value(v)
	}
	return s.Words.Number(v.Text)
}

// priced heads a column of amounts of money.
func (s *sheet) priced(id string) string {
	return strings.TrimSuffix(s.say(id)+", "+s.currency(), ", ")
}

func (s *sheet) currency() string {
	if v := s.lookup("cost.currency"); v.Known() {
		return v.Text
	}
	return ""
}

// fact prints the value of the fact with this id; one that this kit does not have is not shown.
func (s *sheet) fact(id string) string { return s.valueOf(id, s.lookup(id)) }

func (s *sheet) lookup(id string) fact.Value {
	v, ok := s.Facts.Lookup(id)
	if !ok {
		return fact.Value{Unknown: "this kit has no such fact"}
	}
	return v
}

// maybe prints a quantity that a manifest may leave out; silence is a dash, for it is no computed value.
func maybe[T unit.Scalar[T]](s *sheet, q *T) string {
	if q == nil {
		return "–"
	}
	return s.text((*q).Quantity())
}
