package doc

import (
	"cmp"
	"strings"
	"time"

	"hoistbook/kits"
	"hoistbook/kits/cost"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// OrderName is the name of the order's file, without its extension.
const OrderName = "order"

// Order sets the order for a number of kits: the sums and what they lead to, a sheet for each supplier, the pick list, and
// the labels of what is packed.
func Order(in *Input, o *kits.Order) (*page.Document, error) {
	s := newSheet(in, in.Words.Say("order.title"))
	title := in.Words.Count("order.title-kits", o.Plan.Kits, "kit", o.Manifest.Kit.Name)
	s.begin("order", title, false)
	s.sums(o)
	for _, p := range o.Parcels {
		s.begin("order-"+p.Supplier, s.say("order.to", "supplier", p.Name), false)
		s.parcel(o, p)
	}
	s.begin("order-pick", s.say("order.sheet.pick"), true)
	s.pick(o)
	s.begin("order-labels", s.say("order.sheet.labels"), false)
	s.labels(o)
	return s.finish(title)
}

// begin opens a part of the order: its name goes before its form fields.
func (s *sheet) begin(name, title string, wide bool) {
	s.doc = Document{Name: name, wide: wide}
	paper := s.Paper
	if wide {
		paper = paper.Landscape()
	}
	s.flow.SetPaper(paper)
	s.flow.Section(title)
	s.add(page.Heading{Text: title, Anchor: name})
}

// sums says what the order is for, whether it is complete, what it costs, and what remains of it.
func (s *sheet) sums(o *kits.Order) {
	s.add(s.completeness(o), s.orderedFor(o))
	s.lacking(o)
	s.heading(1, s.say("order.by-supplier"))
	s.add(s.bySupplier(o))
	s.nearFree(o)
	s.eachKit(o)
	s.heading(1, s.say("order.alternatives"))
	s.add(s.alternatives(o))
	if o.Proven {
		s.add(page.Paragraph{Fine: true, Text: page.Plain(s.say("order.proven"))})
	} else {
		s.paragraph(s.say("order.not-proven"))
	}
	if !o.SecondProven {
		s.paragraph(s.say("order.second-not-proven"))
	}
	s.add(page.PageBreak{})
	s.heading(1, s.say("order.sheet.parts"))
	s.paragraph(s.say("order.parts-about"))
	s.add(s.pieces(o))
}

// completeness draws in a bar whether all is ordered: an order that is not complete must not look as if it were.
func (s *sheet) completeness(o *kits.Order) page.Figure {
	if o.Complete() {
		return s.sign(s.say("order.complete"), s.Words.Count("order.complete-about", o.Plan.Kits), false)
	}
	return s.sign(s.say("order.not-complete"), s.Words.Count("order.not-complete-about", len(o.Short())), true)
}

func (s *sheet) orderedFor(o *kits.Order) page.KeyValues {
	serials := o.Serials()
	kv := page.KeyValues{
		{Key: s.say("order.kits"), Value: page.Plain(s.say("order.serials", "n", digits(o.Plan.Kits), "first", serials[0], "last", serials[len(serials)-1]))},
		{Key: s.say("order.deployments"), Value: page.Plain(digits(o.Plan.Deployments))},
		{Key: s.say("order.tax-rate"), Value: page.Plain(s.text(o.TaxRate.Quantity()))},
	}
	for _, d := range []struct {
		id string
		at time.Time
	}{{"order.ordered-on", o.Plan.Today}, {"order.needed-by", o.Plan.NeededBy}} {
		if !d.at.IsZero() {
			kv = append(kv, page.KeyValue{Key: s.say(d.id), Value: page.Plain(d.at.Format(time.DateOnly))})
		}
	}
	return kv
}

// lacking lists what nobody can deliver.
func (s *sheet) lacking(o *kits.Order) {
	if o.Complete() {
		return
	}
	t := page.Table{Columns: []page.Column{{Title: s.say("bill.ref"), Whole: true}, {Title: s.say("bill.part"), Weight: 1}, {Title: s.say("order.lacking"), Align: page.Right}, {Title: s.say("order.why"), Weight: 1}}}
	for _, p := range o.Short() {
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(string(p.Ref), p.Part.Name, digits(p.Lacking), p.WhyShort)})
	}
	s.add(page.Together{page.Heading{Level: 1, Text: s.say("order.lacking-title")}, t})
}

// bySupplier is what each invoice comes to. A column in which every supplier has a dash or nothing to pay is left out.
func (s *sheet) bySupplier(o *kits.Order) page.Table {
	zero := o.Currency.Minor(0)
	goods, makeUp, postage := zero, zero, zero
	for _, p := range o.Parcels {
		goods, makeUp, postage = added(goods, p.Goods), added(makeUp, p.MakeUp), added(postage, p.Postage)
	}
	dated := s.orderBy(o, o.LeadTime) != "–"
	t := page.Table{Columns: []page.Column{{Title: s.say("order.supplier"), Weight: 1, Least: 30}}}
	madeUp := makeUp.MinorUnits() > 0
	row := func(kind page.RowKind, name string, goods, makeUp, postage, net, tax, total unit.Money, lead unit.Duration) {
		cells := page.Cells(name)
		for _, c := range []struct {
			id, text string
			shown    bool
		}{
			{"order.goods", s.money(goods), true}, {"order.make-up", s.money(makeUp), madeUp}, {"order.postage", s.money(postage), true}, {"order.net", s.money(net), true},
			{"order.tax", s.money(tax), true}, {"order.with-tax", s.money(total), true}, {"order.lead-days", s.lead(lead), true}, {"order.order-by", s.orderBy(o, lead), dated},
		} {
			if !c.shown {
				continue
			}
			if len(t.Rows) == 0 {
				t.Columns = append(t.Columns, page.Column{Title: s.say(c.id), Align: page.Right, Whole: true})
			}
			cells = append(cells, page.Cell{Words: page.Plain(c.text)})
		}
		t.Rows = append(t.Rows, page.Row{Kind: kind, Cells: cells})
	}
	for _, p := range o.Parcels {
		row(page.Entry, p.Name, p.Goods, p.MakeUp, p.Postage, p.Cost, p.Tax, p.Total, p.LeadTime)
	}
	row(page.Total, s.say("order.all", "currency", o.Currency.Code()), goods, makeUp, postage, o.Net, o.Tax, o.Total, o.LeadTime)
	return t
}

// near is how many times the postage more goods may cost to be worth a thought: something may be needed soon anyway.
const near = 4

// nearFree says where a little more would save the postage.
func (s *sheet) nearFree(o *kits.Order) {
	for _, p := range o.Parcels {
		if free := p.ToFree.MinorUnits(); free > 0 && free <= near*p.Postage.MinorUnits() {
			s.add(page.Paragraph{Fine: true, Text: page.Plain(s.say("order.near-free", "supplier", p.Name, "goods", s.paid(p.ToFree), "postage", s.paid(p.Postage)))})
		}
	}
}

// eachKit holds what a kit of this order costs against its bill and against what one may cost.
func (s *sheet) eachKit(o *kits.Order) {
	t := page.Table{Columns: []page.Column{{Title: s.say("order.kit-title"), Weight: 1}, {Title: o.Currency.Code(), Align: page.Right, Least: 24}}}
	billed := false
	for _, sum := range o.KitSums() {
		text := s.say("value.not-shown")
		if sum.Known {
			text = s.money(sum.Amount)
		}
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(s.say(sum.ID), text)})
		billed = billed || sum.ID == "order.bill"
	}
	s.add(t)
	if refs := o.Unpriced(); len(refs) > 0 {
		s.add(page.Paragraph{Fine: true, Text: page.Plain(s.say("order.unpriced", "refs", strings.Join(refs, ", ")))})
	}
	if billed {
		s.add(page.Paragraph{Fine: true, Text: page.Plain(s.say("order.kit-about"))})
	}
}

// alternatives are what other choices of suppliers cost.
func (s *sheet) alternatives(o *kits.Order) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("order.choice"), Weight: 1}, {Title: s.say("order.suppliers"), Weight: 1}, {Title: s.say("order.net"), Align: page.Right, Whole: true}, {Title: s.say("order.more"), Align: page.Right, Least: 24}}}
	for _, a := range []struct {
		id    string
		order *cost.Alternative
	}{{"order.second", o.SecondBest}, {"order.single", o.Single}, {"order.greedy", o.Greedy}} {
		if a.order == nil {
			t.Rows = append(t.Rows, page.Row{Cells: page.Cells(s.say(a.id), s.say("order.none"), "–", "–")})
			continue
		}
		more, _ := a.order.Net.Sub(o.Net) // of one currency
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(s.say(a.id), strings.Join(a.order.Suppliers, ", "), s.money(a.order.Net), s.money(more))})
	}
	return t
}

// pieces is what is needed, what is there, what comes and what remains, part by part.
func (s *sheet) pieces(o *kits.Order) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("bill.ref")}, {Title: s.say("bill.part"), Weight: 1, Least: 40}}}
	for _, id := range []string{"order.a-kit", "order.all-kits", "order.with-spares", "order.stock", "order.to-buy", "order.bought", "order.remains"} {
		t.Columns = append(t.Columns, page.Column{Title: s.say(id), Align: page.Right, Least: 13})
	}
	for _, p := range o.Parts {
		remains := digits(p.Remains)
		if p.WhyShort != "" {
			remains = s.say("order.lacks", "n", digits(p.Lacking))
		}
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(string(p.Ref), p.Part.Name, digits(p.EachKit), digits(p.Packed), digits(p.Wanted), digits(p.Stock), digits(p.ToBuy), digits(p.Bought), remains)})
	}
	return t
}

// amount prints money for a column whose currency stands elsewhere, with the decimals of its currency.
func (s *sheet) money(m unit.Money) string { return s.Words.Number(m.Decimal().String()) }

// paid prints money with its currency.
func (s *sheet) paid(m unit.Money) string { return s.money(m) + "\u00a0" + m.Currency().Code() }

// lead is a lead time in days; what nobody says is a dash.
func (s *sheet) lead(lead unit.Duration) string {
	if n, ok := kits.LeadDays(lead); ok {
		return digits(n)
	}
	return "–"
}

func (s *sheet) orderBy(o *kits.Order, lead unit.Duration) string {
	return cmp.Or(o.Plan.OrderByDay(lead), "–")
}

// added adds amounts of the order's currency.
func added(a, b unit.Money) unit.Money {
	sum, err := a.Add(b)
	if err != nil {
		panic("doc: " + err.Error()) // an order has one currency
	}
	return sum
}
