package doc

import (
	"strconv"
	"strings"

	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

var billOfMaterials = Document{Name: "bill-of-materials", title: "bill.title", wide: true, write: (*sheet).bill}

// bill lists every part once: what flies with its masses, what stays on the ground, and what each costs.
func (s *sheet) bill() {
	s.paragraph(s.say("bill.about"))
	s.heading(1, s.say("bill.aloft"))
	s.add(s.aloft())
	s.heading(1, s.say("bill.costs"))
	s.add(s.costs(s.Facts.Costs()))
	s.add(page.Paragraph{Fine: true, Text: page.Plain(s.suppliers() + s.say("bill.prices-about"))})
	s.add(page.Space(4), s.signatures("sign.builder", "sign.checker"))
}

// aloft is the mass budget. All masses stand in one unit with the same decimals: so they add up by eye.
func (s *sheet) aloft() page.Table {
	in := func(id string) string { return s.say(id, "unit", s.massUnit()) }
	t := page.Table{Columns: []page.Column{
		{Title: s.say("bill.ref"), Whole: true}, {Title: s.say("bill.part"), Weight: 1, Least: 50}, {Title: s.say("bill.quantity"), Align: page.Right, Least: 12},
		{Title: in("bill.each"), Align: page.Right, Whole: true}, {Title: s.say("bill.basis")}, {Title: s.say("bill.allowance"), Align: page.Right, Whole: true},
		{Title: in("bill.worst"), Align: page.Right, Whole: true}, {Title: in("bill.running-mass"), Align: page.Right, Whole: true},
		{Title: s.say("bill.weighed"), Least: 28},
	}}
	for _, l := range s.Facts.Weighings() {
		p := s.Facts.Manifest.Parts[l.Ref]
		name := p.Name
		if l.Line {
			name = s.say("bill.line", "part", p.Name, "length", s.fact("station.tether_out_m"))
		}
		cells := page.Cells(string(l.Ref), name, digits(l.Quantity), s.mass(l.Each), s.basis(p), s.value(l.Allowance), s.mass(l.Worst), s.mass(l.Running))
		t.Rows = append(t.Rows, page.Row{Cells: append(cells, page.Cell{Field: s.field("weighed", string(l.Ref)), Label: s.say("bill.weigh", "part", string(l.Ref))})})
	}
	t.Rows = append(t.Rows, page.Row{Kind: page.Total, Cells: []page.Cell{
		{Words: page.Plain(s.say("bill.total-mass")), Span: 3}, {Words: page.Plain(s.mass(s.lookup("mass.aloft_kg")))}, {}, {},
		{Words: page.Plain(s.mass(s.lookup("mass.aloft_worst_kg")))}, {}, {Field: s.field("weighed", "total"), Label: s.say("bill.weigh-total")},
	}})
	return t
}

func (s *sheet) massUnit() string {
	if s.System == unit.US {
		return "oz"
	}
	return "g"
}

// mass prints a mass for a column that is added up.
func (s *sheet) mass(v fact.Value) string {
	if !v.Known() {
		return s.value(v)
	}
	decimals := 1
	if s.System == unit.US {
		decimals = 2
	}
	return s.Words.Number(strconv.FormatFloat(v.Quantity.In(s.massUnit()), 'f', decimals, 64))
}

// weight is what a part is said to weigh, a dash where nothing is said: the ground crew carries what does not fly.
func (s *sheet) weight(ref manifest.Ref) string {
	m := s.Facts.Manifest.Parts[ref].Mass
	if m == nil {
		return "–"
	}
	return s.mass(fact.Of(m.Quantity()))
}

func (s *sheet) basis(p manifest.Part) string {
	if p.MassAllowance != nil {
		return s.say("basis.own")
	}
	if p.MassBasis == "" {
		return s.Words.Name("basis", string(manifest.Estimated))
	}
	return s.Words.Name("basis", string(p.MassBasis))
}

// costs is every part with its place, what it costs and where it travels.
func (s *sheet) costs(bill kits.Costs) page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("bill.ref"), Whole: true}, {Title: s.say("bill.part"), Weight: 1, Least: 50}, {Title: s.say("bill.packed"), Least: 24},
		{Title: s.say("bill.each", "unit", s.massUnit()), Align: page.Right}, {Title: s.say("bill.quantity"), Align: page.Right, Least: 12},
		{Title: s.say("bill.pieces"), Align: page.Right, Least: 15},
		{Title: s.say("bill.supplier")}, {Title: s.say("bill.code")}, {Title: s.say("bill.pack"), Align: page.Right},
		{Title: s.priced("bill.price"), Align: page.Right, Least: 17}, {Title: s.priced("bill.cost"), Align: page.Right, Least: 15},
		{Title: s.priced("bill.running"), Align: page.Right, Least: 17},
	}}
	place := manifest.Place("none")
	for _, l := range bill.Lines {
		if l.Place != place {
			place = l.Place
			t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(s.place(place)), Span: len(t.Columns)}}})
		}
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(string(l.Ref), s.described(l), s.Facts.Manifest.Parts[l.Ref].PackedIn, s.weight(l.Ref), digits(l.Quantity),
			s.Words.Number(l.Pieces), l.Supplier, l.OrderCode, packSize(l.Pack), s.price(l.Price), s.price(l.Cost), s.price(l.Running))})
	}
	sum := func(kind page.RowKind, id string, v fact.Value) {
		t.Rows = append(t.Rows, page.Row{Kind: kind, Cells: []page.Cell{{Words: page.Plain(s.say(id, "currency", bill.Currency)), Span: len(t.Columns) - 2},
			{Words: page.Plain(s.price(v)), Span: 2}}})
	}
	sum(page.Subtotal, "bill.net", bill.Net)
	sum(page.Subtotal, "bill.tax", bill.Tax)
	sum(page.Total, "bill.total", bill.Total)
	sum(page.Subtotal, "bill.budget", bill.Budget)
	return t
}

func (s *sheet) place(p manifest.Place) string {
	if p == "" {
		return s.say("place.none")
	}
	return s.Words.Name("place", string(p))
}

// described is a part's name and what a buyer must know of it.
func (s *sheet) described(l kits.Costing) string {
	p := s.Facts.Manifest.Parts[l.Ref]
	text := p.Name
	if p.Consumable {
		text += " · " + s.say("bill.consumable")
	}
	if p.Note != "" {
		text += " · " + p.Note
	}
	return text
}

// suppliers says who the suppliers are that the table has by their short names.
func (s *sheet) suppliers() string {
	var names []string
	for ref, supplier := range manifest.Sorted(s.Facts.Manifest.Suppliers) {
		names = append(names, string(ref)+" "+supplier.Name)
	}
	if len(names) == 0 {
		return ""
	}
	return s.say("bill.suppliers", "names", strings.Join(names, "; ")) + " "
}

func packSize(n int) string {
	if n == 0 {
		return "–"
	}
	return digits(n)
}
