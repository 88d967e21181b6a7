package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"hoistbook/kits"
	"hoistbook/kits/cost"
	"hoistbook/kits/unit"
)

// Paper is what the sheets are printed on, by its number in ECMA-376.
type Paper int

// The two papers.
const (
	Letter Paper = 1
	A4     Paper = 9
)

// Words are the words of the reader's language by their ids, of which some count.
type Words interface {
	Say(id string, pairs ...string) string
	Count(id string, n int, pairs ...string) string
}

// XLSX writes the order as a workbook: the sums, a sheet for each supplier, the parts with what remains of them, the pick
// list and the labels. Sums are formulas that carry their values, so that a changed quantity is carried through; they round
// half to even as the order does.
func XLSX(o *kits.Order, words Words, paper Paper) ([]byte, error) {
	m := o.Manifest
	x := &xlsx{Order: o, Words: words, book: &workbook{paper: int(paper)}}
	x.footer = fmt.Sprintf("%s %s  %s", m.Kit.Name, words.Say("running.revision", "revision", string(m.Kit.Revision)), words.Say("running.digest", "digest", m.ShortDigest()))
	x.format()
	sums := x.sheet(x.Say("order.sheet.sums"), 46, 30, 15, 13, 13, 15, 15, 15, 11, 13)
	var parcels []parcelCells
	for i, p := range o.Parcels {
		parcels = append(parcels, x.parcel(i, p, at(1, sumsTaxRow)))
	}
	x.sums(sums, parcels)
	x.parts()
	x.pick()
	x.labels()
	return x.book.bytes()
}

type xlsx struct {
	*kits.Order
	Words
	book   *workbook
	footer string
}

// format makes the number formats: amounts with the currency's code and decimals, prices with as many as any of them has.
func (x *xlsx) format() {
	decimals := x.Currency.Decimals()
	most := decimals
	for _, p := range x.Parcels {
		for _, l := range p.Lines {
			most = max(most, l.Price.Decimals())
		}
	}
	in := func(decimals, optional int) string {
		text := "[$" + x.Currency.Code() + `]\ #,##0`
		if decimals+optional > 0 {
			text += "." + strings.Repeat("0", decimals) + strings.Repeat("#", optional)
		}
		return text
	}
	f := &x.book.formats
	f[count], f[item], f[percent], f[date] = "0", "0", "0.0##%", `yyyy\-mm\-dd`
	f[money], f[sum], f[price] = in(decimals, 0), in(decimals, 0), in(decimals, most-decimals)
}

func (x *xlsx) sheet(name string, widths ...float64) *worksheet {
	s := &worksheet{name: sheetName(name), widths: widths, footer: x.footer}
	x.book.sheets = append(x.book.sheets, s)
	return s
}

// overNumbers are the columns of numbers.
var overNumbers = map[string]bool{
	"order.goods": true, "order.make-up": true, "order.postage": true, "order.net": true, "order.tax": true, "order.with-tax": true, "order.lead-days": true,
	"order.packs": true, "bill.pack": true, "order.pieces": true, "order.price": true, "order.amount": true, "order.used-up": true, "order.order-by": true,
	"order.a-kit": true, "order.all-kits": true, "order.with-spares": true, "order.stock": true, "order.to-buy": true, "order.bought": true, "order.remains": true, "order.lacking": true,
}

// header puts the names of columns over a table; they are printed on every page.
func (x *xlsx) header(s *worksheet, ids ...string) {
	cells := make([]cell, len(ids))
	for i, id := range ids {
		cells[i] = styled(head, x.Say(id))
		if overNumbers[id] {
			cells[i].style = headRight
		}
	}
	s.heads = s.add(cells...)
}

// halfEven is a formula that rounds an amount half to even at the minor unit: ROUND would round half up. What is written in
// decimals is held as the nearest binary fraction, so what lies within a millionth of a half is one.
func (x *xlsx) halfEven(amount string) string {
	minor := "1" + strings.Repeat("0", x.Currency.Decimals())
	units := fmt.Sprintf("(%s)*%s", amount, minor)
	return fmt.Sprintf("IF(ABS(MOD(%s,2)-0.5)<0.000001,INT(%s),INT(%s+0.500001))/%s", units, units, units, minor)
}

func amountCell(st style, m unit.Money) cell { return number(st, amount(m)) }

func (x *xlsx) sumOf(st style, column, from, to int, m unit.Money) cell {
	return formula(st, fmt.Sprintf("SUM(%s:%s)", at(column, from), at(column, to)), amount(m))
}

// Where other sheets find the number of kits and the tax.
const (
	sumsKitsRow  = 4
	sumsTimesRow = 5
	sumsTaxRow   = 6
)

// sums is the first sheet: what the whole order costs, and a kit of it.
func (x *xlsx) sums(s *worksheet, parcels []parcelCells) {
	m, p := x.Manifest, x.Plan
	s.add(styled(title, x.Count("order.title-kits", p.Kits, "kit", m.Kit.Name)))
	state := x.Say("order.complete")
	if !x.Complete() {
		state = x.Say("order.not-complete") + ": " + x.Count("order.not-complete-about", len(x.Short()))
	}
	s.add(styled(strong, state))
	s.add(text(x.Say("kit.revision")), text(string(m.Kit.Revision)))
	s.add(text(x.Say("order.kits")), whole(p.Kits))
	s.add(text(x.Say("order.deployments")), whole(p.Deployments))
	s.add(text(x.Say("order.tax-rate")), number(percent, strconv.FormatFloat(float64(x.TaxRate), 'f', -1, 64)))
	s.add(text(x.Say("order.ordered-on")), dated(p.Today, true))
	s.add(text(x.Say("order.needed-by")), dated(p.NeededBy, true))
	s.add()
	x.header(s, "order.supplier", "order.name", "order.goods", "order.make-up", "order.postage", "order.net", "order.tax", "order.with-tax", "order.lead-days", "order.order-by")
	first := s.heads + 1
	for i, parcel := range x.Parcels {
		c := parcels[i]
		last, known := p.OrderBy(parcel.LeadTime)
		s.add(text(parcel.Supplier), text(parcel.Name),
			formula(money, c.goods, amount(parcel.Goods)), formula(money, c.makeUp, amount(parcel.MakeUp)), formula(money, c.postage, amount(parcel.Postage)),
			formula(money, c.net, amount(parcel.Cost)), formula(money, c.tax, amount(parcel.Tax)), formula(money, c.total, amount(parcel.Total)),
			leadCell(parcel.LeadTime), dated(last, known))
	}
	zero := x.Currency.Minor(0)
	goods, makeUp, postage := zero, zero, zero
	for _, parcel := range x.Parcels {
		goods, makeUp, postage = add(goods, parcel.Goods), add(makeUp, parcel.MakeUp), add(postage, parcel.Postage)
	}
	row := []cell{styled(sum, x.Say("order.all", "currency", x.Currency.Code())), styled(sum, "")}
	for i, m := range []unit.Money{goods, makeUp, postage, x.Net, x.Tax, x.Total} {
		if len(x.Parcels) == 0 {
			row = append(row, amountCell(sum, m))
			continue
		}
		row = append(row, x.sumOf(sum, 2+i, first, first+len(x.Parcels)-1, m))
	}
	totals := s.add(row...)
	s.add()
	x.eachKit(s, totals, parcels)
	s.add()
	s.add(styled(head, x.Say("order.choice")), styled(head, x.Say("order.suppliers")), styled(headRight, x.Say("order.net")), styled(headRight, x.Say("order.more")))
	for _, a := range []struct {
		id    string
		order *cost.Alternative
	}{{"order.second", x.SecondBest}, {"order.single", x.Single}, {"order.greedy", x.Greedy}} {
		if a.order == nil {
			s.add(styled(wrapped, x.Say(a.id)), text(x.Say("order.none")))
			continue
		}
		more, _ := a.order.Net.Sub(x.Net) // of one currency
		s.add(styled(wrapped, x.Say(a.id)), styled(wrapped, strings.Join(a.order.Suppliers, ", ")), amountCell(money, a.order.Net),
			formula(money, at(2, len(s.rows)+1)+"-"+at(5, totals), amount(more)))
	}
	if x.Proven {
		s.add(text(x.Say("order.proven")))
	} else {
		s.add(text(x.Say("order.not-proven")))
	}
	if !x.SecondProven {
		s.add(text(x.Say("order.second-not-proven")))
	}
}

// eachKit is what a kit costs, against its bill and its budget; totals is the row of the sums. What comes from stock has no formula:
// list prices stand in no sheet.
func (x *xlsx) eachKit(s *worksheet, totals int, parcels []parcelCells) {
	kits, times, rate := at(1, sumsKitsRow), at(1, sumsTimesRow), at(1, sumsTaxRow)
	s.add(styled(head, x.Say("order.kit-title")))
	rows := map[string]string{} // cells of the amounts
	for _, sum := range x.KitSums() {
		if sum.ID == "order.later" && !x.UsesStock() {
			used := []string{"0"}
			for _, p := range parcels {
				used = append(used, p.usedUp)
			}
			all := s.add(text(x.Say("order.used-up-all")), cell{}, formula(money, strings.Join(used, "+"), amount(x.UsedUp())))
			rows["used up"] = at(2, all)
		}
		value := amountCell(money, sum.Amount)
		if f := x.kitFormula(sum.ID, rows, at(7, totals), kits, times, rate); f != "" {
			value = formula(money, f, amount(sum.Amount))
		}
		if !sum.Known {
			value = text(x.Say("value.not-shown"))
		}
		rows[sum.ID] = at(2, s.add(text(x.Say(sum.ID)), cell{}, value))
	}
	if refs := x.Unpriced(); len(refs) > 0 {
		s.add(styled(wrapped, x.Say("order.unpriced", "refs", strings.Join(refs, ", "))))
	}
	s.add(styled(wrapped, x.Say("order.kit-about")))
}

// kitFormula is the formula of a line, from the lines above it; empty for one that is given.
func (x *xlsx) kitFormula(id string, rows map[string]string, total, kits, times, rate string) string {
	cell := func(ids ...string) string {
		for _, id := range ids {
			if rows[id] != "" {
				return rows[id]
			}
		}
		return ""
	}
	once := cell("order.once", "order.each-worth", "order.each-kit")
	switch id {
	case "order.each-kit":
		return x.halfEven(total + "/" + kits)
	case "order.each-worth":
		return rows["order.each-kit"] + "+" + rows["order.each-stock"]
	case "order.later":
		if used := rows["used up"]; used != "" {
			return x.halfEven(fmt.Sprintf("%s*(%s-1)/%s*(1+%s)/%s", used, times, times, rate, kits))
		}
	case "order.once":
		return cell("order.each-worth", "order.each-kit") + "-" + rows["order.later"]
	case "order.beyond-bill":
		return once + "-" + rows["order.bill"]
	case "order.left":
		return rows["order.budget"] + "-" + once
	case "order.over":
		return once + "-" + rows["order.budget"]
	}
	return ""
}

// add adds amounts of the order's currency.
func add(a, b unit.Money) unit.Money {
	sum, err := a.Add(b)
	if err != nil {
		panic("sheet: " + err.Error()) // an order has one currency
	}
	return sum
}

func leadCell(lead unit.Duration) cell {
	if n, ok := kits.LeadDays(lead); ok {
		return whole(n)
	}
	return cell{}
}
