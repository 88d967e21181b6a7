package doc

import (
	"time"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/page"
)

// parcel is the order to one supplier. It has what ISO 9001:2015, 8.4.3 and its forerunner (ISO 9001:2008, 7.4.2) ask of
// what a supplier is told: what is bought, by which revision, how it is accepted, when and where it is needed, and that
// somebody has looked whether that is enough before it goes out. The parts bear the supplier's own order codes.
func (s *sheet) parcel(o *kits.Order, p kits.Parcel) {
	s.add(s.particulars(o, p))
	s.add(s.lines(o, p, true))
	k := o.Manifest.Kit
	s.add(page.Together{page.Paragraph{Text: page.Plain(s.say("order.terms", "kit", k.Name, "revision", string(k.Revision))), Fine: true}, s.signatures("sign.order-checked", "sign.order-issued")})
}

// particulars say between whom and when; what nobody has said is a line to write on.
func (s *sheet) particulars(o *kits.Order, p kits.Parcel) page.Table {
	t := page.Table{NoHead: true, Columns: []page.Column{{Whole: true}, {Weight: 1}, {Whole: true}, {Weight: 1}}}
	said := func(id, text string) []page.Cell {
		value := page.Cell{Words: page.Plain(text)}
		if text == "" {
			value = page.Cell{Field: s.field(id), Label: s.say(id)}
		}
		return []page.Cell{{Words: page.Strong(s.say(id))}, value}
	}
	date := func(at time.Time) string {
		if at.IsZero() {
			return ""
		}
		return at.Format(time.DateOnly)
	}
	for _, pair := range [][4]string{
		{"order.supplier", p.Name + " (" + p.Supplier + ")", "order.number", ""},
		{"order.contact", p.Contact, "order.ordered-on", date(o.Plan.Today)},
		{"order.buyer", "", "order.needed-by", date(o.Plan.NeededBy)},
		{"order.deliver-to", "", "order.order-by", o.Plan.OrderByDay(p.LeadTime)},
	} {
		t.Rows = append(t.Rows, page.Row{Cells: append(said(pair[0], pair[1]), said(pair[2], pair[3])...)})
	}
	return t
}

// lines are the positions with their sums; an order that is sent has room to tick what has come. On a sheet that is not sent, postage
// and tax stand where the suppliers are compared, and not again.
func (s *sheet) lines(o *kits.Order, p kits.Parcel, sent bool) page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("order.item"), Align: page.Right}, {Title: s.say("order.code"), Least: 18}, {Title: s.say("bill.part"), Weight: 1, Least: 38},
		{Title: s.say("order.packs"), Align: page.Right}, {Title: s.say("bill.pack"), Align: page.Right}, {Title: s.say("order.pieces"), Align: page.Right},
		{Title: s.priced("order.price"), Align: page.Right, Least: 17}, {Title: s.priced("order.amount"), Align: page.Right, Least: 15}, {Title: s.say("order.lead-days"), Align: page.Right},
	}}
	if sent {
		t.Columns = append(t.Columns, page.Column{Title: s.say("order.came")})
	}
	for i, l := range p.Lines {
		code := l.OrderCode
		if code == "" {
			code = "–"
		}
		cells := page.Cells(digits(i+1), code, s.bought(l.Ref, o.Part(l.Ref)), digits(l.Packs), digits(l.Pack), digits(l.Packs*l.Pack), s.Words.Number(l.Price.String()), s.money(l.Amount), s.lead(l.LeadTime))
		if sent {
			cells = append(cells, page.Cell{Tick: s.field("came", digits(i+1)), Label: s.say("order.has-come", "part", l.Ref)})
		}
		t.Rows = append(t.Rows, page.Row{Cells: cells})
	}
	sum := func(kind page.RowKind, label, amount string) {
		t.Rows = append(t.Rows, page.Row{Kind: kind, Cells: []page.Cell{{}, {}, {Words: page.Plain(label), Span: 4}, {Words: page.Plain(amount), Span: 2}, {}}})
	}
	if !sent {
		sum(page.Total, s.say("order.goods"), s.money(p.Goods))
		return t
	}
	sum(page.Subtotal, s.say("order.goods"), s.money(p.Goods))
	if p.MakeUp.MinorUnits() > 0 {
		sum(page.Entry, s.say("order.make-up-about"), s.money(p.MakeUp))
	}
	sum(page.Entry, s.say("order.postage"), s.money(p.Postage))
	sum(page.Subtotal, s.say("order.net"), s.money(p.Cost))
	sum(page.Entry, s.say("order.tax-at", "rate", s.text(o.TaxRate.Quantity())), s.money(p.Tax))
	sum(page.Total, s.say("order.to-pay", "currency", o.Currency.Code()), s.money(p.Total))
	return t
}

// bought is what a supplier must know of a part: what it is, what else to know, and our reference for the delivery note.
func (s *sheet) bought(ref string, p manifest.Part) string {
	text := p.Name
	if p.Note != "" {
		text += " · " + p.Note
	}
	return text + " [" + ref + "]"
}
