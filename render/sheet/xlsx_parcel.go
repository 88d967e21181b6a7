package sheet

import (
	"fmt"
	"strconv"

	"hoistbook/kits"
	"hoistbook/kits/cost"
)

// parcelCells names the cells in which the sums of a supplier stand.
type parcelCells struct{ goods, makeUp, postage, net, tax, total, usedUp string }

// The columns of a supplier's sheet.
const (
	colItem = iota
	colCode
	colPart
	colRef
	colPacks
	colPack
	colPieces
	colPrice
	colAmount
	colLead
	colOrderBy
	colUsedUp // 1 for what is used up
)

// parcel is the sheet of one supplier; rate is the cell of the first sheet that holds the tax.
func (x *xlsx) parcel(i int, p kits.Parcel, rate string) parcelCells {
	s := x.sheet(strconv.Itoa(i+1)+" "+p.Supplier, 6, 18, 46, 12, 9, 9, 9, 16, 16, 9, 13, 9)
	s.add(styled(title, x.Say("order.to", "supplier", p.Name)))
	last, known := x.Plan.OrderBy(p.LeadTime)
	for _, pair := range []struct {
		left, right string
		contact     string
		day         cell
	}{
		{"order.contact", "order.ordered-on", p.Contact, dated(x.Plan.Today, true)},
		{"order.number", "order.needed-by", "", dated(x.Plan.NeededBy, true)},
		{"order.buyer", "order.order-by", "", dated(last, known)},
	} {
		row := make([]cell, colPrice+1) // the day where there is room for it
		row[colCode], row[colPart], row[colPacks], row[colPrice] = text(x.Say(pair.left)), text(pair.contact), text(x.Say(pair.right)), pair.day
		s.add(row...)
	}
	s.add(cell{}, text(x.Say("order.deliver-to")))
	s.add()
	x.header(s, "order.item", "order.code", "bill.part", "order.our-ref", "order.packs", "bill.pack", "order.pieces", "order.price", "order.amount", "order.lead-days", "order.order-by", "order.used-up")
	first := s.heads + 1
	for n, l := range p.Lines {
		x.line(s, n+1, l)
	}
	end := len(s.rows)
	s.add()
	put := func(id string, c cell) string {
		s.add(cell{}, cell{}, text(x.Say(id)), cell{}, cell{}, cell{}, cell{}, cell{}, c)
		return at(colAmount, len(s.rows))
	}
	goods := put("order.goods", x.sumOf(money, colAmount, first, end, p.Goods))
	makeUp := put("order.make-up", amountCell(money, p.MakeUp))
	postage := put("order.postage", amountCell(money, p.Postage))
	net := put("order.net", formula(sum, goods+"+"+makeUp+"+"+postage, amount(p.Cost)))
	next := at(colAmount, len(s.rows)+2)
	tax := put("order.tax", formula(money, next+"-"+net, amount(p.Tax)))
	total := put("order.with-tax", formula(sum, x.halfEven(fmt.Sprintf("%s*(1+%s)", net, x.book.sheets[0].quoted()+rate)), amount(p.Total)))
	on := func(name string) string { return s.quoted() + name }
	usedUp := fmt.Sprintf("SUMIF(%s:%s,1,%s:%s)", on(at(colUsedUp, first)), at(colUsedUp, end), on(at(colAmount, first)), at(colAmount, end))
	return parcelCells{on(goods), on(makeUp), on(postage), on(net), on(tax), on(total), usedUp}
}

// line is one position. Its amount is a product where that has no more decimals than the currency, and else rounded.
func (x *xlsx) line(s *worksheet, n int, l cost.Line) {
	row := len(s.rows) + 1
	product := at(colPacks, row) + "*" + at(colPrice, row)
	if l.Price.Decimals() > x.Currency.Decimals() {
		product = x.halfEven(product)
	}
	last, known := x.Plan.OrderBy(l.LeadTime)
	usedUp := cell{}
	if x.Part(l.Ref).Consumable {
		usedUp = whole(1)
	}
	s.add(number(item, strconv.Itoa(n)), text(l.OrderCode), styled(wrapped, x.Part(l.Ref).Name), text(l.Ref), whole(l.Packs), whole(l.Pack),
		formula(count, at(colPacks, row)+"*"+at(colPack, row), strconv.Itoa(l.Packs*l.Pack)),
		number(price, l.Price.String()), formula(money, product, amount(l.Amount)), leadCell(l.LeadTime), dated(last, known), usedUp)
}

// parts is the sheet of what is needed, what is there, what comes and what remains.
func (x *xlsx) parts() {
	s := x.sheet(x.Say("order.sheet.parts"), 12, 46, 10, 10, 12, 10, 10, 10, 10, 10, 40)
	s.add(styled(title, x.Say("order.sheet.parts")))
	x.header(s, "bill.ref", "bill.part", "order.a-kit", "order.all-kits", "order.with-spares", "order.stock", "order.to-buy", "order.bought", "order.remains", "order.lacking", "order.why")
	sums := x.book.sheets[0]
	for _, p := range x.Parts {
		row := len(s.rows) + 1
		lacking := cell{}
		if p.WhyShort != "" {
			lacking = whole(p.Lacking)
		}
		s.add(text(string(p.Ref)), styled(wrapped, p.Part.Name), whole(p.EachKit), formula(count, at(2, row)+"*"+sums.quoted()+at(1, sumsKitsRow), strconv.Itoa(p.Packed)),
			whole(p.Wanted), whole(p.Stock), formula(count, fmt.Sprintf("MAX(%s-%s,0)", at(4, row), at(5, row)), strconv.Itoa(p.ToBuy)), whole(p.Bought),
			formula(count, fmt.Sprintf("MAX(%s+%s-%s,0)", at(5, row), at(7, row), at(3, row)), strconv.Itoa(p.Remains)), lacking, styled(wrapped, p.WhyShort))
	}
}

// pick is the list by which kits are packed, box by box.
func (x *xlsx) pick() {
	s := x.sheet(x.Say("order.sheet.pick"), 22, 12, 50, 10, 12)
	s.upright = true
	s.add(styled(title, x.Say("order.sheet.pick")))
	x.header(s, "order.box", "bill.ref", "bill.part", "order.a-kit", "order.all-kits")
	for _, box := range x.Boxes() {
		for _, p := range x.In(box) {
			row := len(s.rows) + 1
			s.add(text(box), text(string(p.Ref)), styled(wrapped, p.Part.Name), whole(p.EachKit),
				formula(count, at(3, row)+"*"+x.book.sheets[0].quoted()+at(1, sumsKitsRow), strconv.Itoa(p.Packed)))
		}
	}
}

// labels has a row for every bag that goes into a kit, for whatever prints labels from a table.
func (x *xlsx) labels() {
	s := x.sheet(x.Say("order.sheet.labels"), 26, 22, 12, 50, 10)
	s.upright = true
	s.add(styled(title, x.Say("order.sheet.labels")))
	x.header(s, "order.serial", "order.box", "bill.ref", "bill.part", "order.pieces")
	for _, serial := range x.Serials() {
		for _, box := range x.Boxes() {
			for _, p := range x.In(box) {
				s.add(text(serial), text(box), text(string(p.Ref)), styled(wrapped, p.Part.Name), whole(p.EachKit))
			}
		}
	}
}
