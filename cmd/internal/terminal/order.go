package terminal

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"time"

	"hoistbook/kits"
	"hoistbook/kits/cost"
	"hoistbook/kits/unit"
)

// Order prints an order: where what is bought when lines is set, what each supplier is paid, what a kit costs, other
// choices, what is lacking, and last whether the order is complete.
func Order(w io.Writer, o *kits.Order, lines bool, s Style) {
	k := o.Manifest.Kit
	fmt.Fprintf(w, "%s  revision %s  digest %s\n", s.paint(k.Name, bold), k.Revision, o.Manifest.ShortDigest())
	serials := o.Serials()
	paragraph(w, "", "", fmt.Sprintf("Order for %s (%s to %s), %s each, prices in %s",
		several(o.Plan.Kits, "kit"), serials[0], serials[len(serials)-1], several(o.Plan.Deployments, "deployment"), o.Currency.Code()))
	if !o.Plan.NeededBy.IsZero() {
		fmt.Fprintf(w, "Ordered on %s, needed by %s\n", o.Plan.Today.Format(time.DateOnly), o.Plan.NeededBy.Format(time.DateOnly))
	}
	if lines {
		for _, p := range o.Parcels {
			s.parcel(w, o, p)
		}
	}
	s.suppliers(w, o)
	s.kit(w, o)
	s.choices(w, o)
	s.lacking(w, o)
	if o.Proven {
		paragraph(w, "  ", "  ", "Proved: no order is cheaper in which a part comes from one supplier, or two share it.")
	} else {
		paragraph(w, "  ", "  ", "The search was cut short: a cheaper order may exist.")
	}
	if o.Complete() {
		fmt.Fprintf(w, "\n%s  everything is in this order or in stock\n", s.paint("COMPLETE", green, bold))
		return
	}
	fmt.Fprintf(w, "\n%s  %d of %d parts cannot be delivered\n", s.paint("NOT COMPLETE", red, bold), len(o.Short()), len(o.Parts))
}

func several(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

// The columns of positions and of sums.
const (
	packColumns   = 11
	refColumns    = 10
	amountColumns = 12
	nameColumns   = Columns - 2 - 4*amountColumns
)

// parcel prints what is bought from one supplier.
func (s Style) parcel(w io.Writer, o *kits.Order, p kits.Parcel) {
	fmt.Fprintf(w, "\n%s\n", s.paint(p.Name+" ("+p.Supplier+")", bold))
	for _, l := range p.Lines {
		what := o.Part(l.Ref).Name
		if l.OrderCode != "" {
			what = l.OrderCode + "  " + what
		}
		packs := fmt.Sprintf("%d", l.Packs)
		if l.Pack > 1 {
			packs += fmt.Sprintf(" × %d", l.Pack)
		}
		lead := "  " + pad(packs, packColumns, true) + "  " + pad(l.Ref, refColumns, false) + "  "
		text := wrap(what, Columns-width(lead)-1-amountColumns)
		fmt.Fprintln(w, lead+pad(text[0], Columns-width(lead)-amountColumns, false)+pad(l.Amount.Decimal().String(), amountColumns, true))
		for _, more := range text[1:] {
			fmt.Fprintln(w, strings.Repeat(" ", 2+packColumns+2+refColumns+2)+more)
		}
	}
}

// suppliers prints what each supplier is paid.
func (s Style) suppliers(w io.Writer, o *kits.Order) {
	row := func(name string, amounts ...string) string {
		line := "  " + pad(name, nameColumns, false)
		for _, a := range amounts {
			line += pad(a, amountColumns, true)
		}
		return line
	}
	fmt.Fprintf(w, "\n%s\n", s.paint(row("Supplier", "goods", "postage", "tax", "to pay"), bold))
	goods, postage := o.Currency.Minor(0), o.Currency.Minor(0)
	for _, p := range o.Parcels {
		for i, name := range wrap(p.Name+" ("+p.Supplier+")", nameColumns-1) {
			if i > 0 {
				fmt.Fprintln(w, "  "+name)
				continue
			}
			fmt.Fprintln(w, row(name, text(p.Goods), text(p.Postage), text(p.Tax), text(p.Total)))
		}
		if p.MakeUp.MinorUnits() > 0 {
			paragraph(w, "    ", "    ", fmt.Sprintf("and %s to make up its least order", p.MakeUp))
		}
		if last := o.Plan.OrderByDay(p.LeadTime); last != "" {
			fmt.Fprintf(w, "    order by %s\n", last)
		}
		goods, postage = plus(goods, p.Goods), plus(postage, p.Postage)
	}
	fmt.Fprintln(w, s.paint(row("All", text(goods), text(postage), text(o.Tax), text(o.Total)), bold))
}

func text(m unit.Money) string { return m.Decimal().String() }

// plus adds amounts of the order's currency.
func plus(a, b unit.Money) unit.Money {
	sum, err := a.Add(b)
	if err != nil {
		panic("terminal: " + err.Error()) // an order has one currency
	}
	return sum
}

// kitSums are the words of the lines of what a kit costs.
var kitSums = map[string]string{
	"order.each-kit": "to pay now", "order.each-stock": "from stock, at list price", "order.each-worth": "together",
	"order.later": "less what later deployments use up", "order.once": "for one deployment",
	"order.bill": "its bill: every piece at the cheapest price, no packs, no postage", "order.beyond-bill": "the order less the bill",
	"order.budget": "its budget", "order.left": "left of the budget", "order.over": "over the budget",
}

// kit holds the cost of a kit against its bill and its budget.
func (s Style) kit(w io.Writer, o *kits.Order) {
	if _, known := o.EachKit(); !known {
		fmt.Fprintln(w)
		paragraph(w, "  ", "  ", "What a kit costs is not shown: the order is not complete.")
		fmt.Fprintln(w)
		return
	}
	fmt.Fprintf(w, "\n%s\n", s.paint("  "+pad("A kit costs, with tax", Columns-2-amountColumns, false)+pad(o.Currency.Code(), amountColumns, true), bold))
	for _, sum := range o.KitSums() {
		amount := "not shown"
		if sum.Known {
			amount = text(sum.Amount)
		}
		fmt.Fprintln(w, "  "+pad(kitSums[sum.ID], Columns-2-amountColumns, false)+pad(amount, amountColumns, true))
	}
	if refs := o.Unpriced(); len(refs) > 0 {
		paragraph(w, "  ", "  ", fmt.Sprintf("What comes from stock is not shown: nobody sells %s.", strings.Join(refs, ", ")))
	}
	fmt.Fprintln(w)
}

// choices prints what other orders would cost.
func (s Style) choices(w io.Writer, o *kits.Order) {
	none := "no other suppliers can deliver everything"
	if !o.SecondProven {
		none = "none was found"
	}
	for _, c := range []struct {
		what, none string
		order      *cost.Alternative
	}{
		{secondBest, none, o.SecondBest},
		{"Single supplier", "none has everything", o.Single},
		{"Each part where it is cheapest", "nothing is bought", o.Greedy},
	} {
		line := c.what + ": " + c.none + "."
		if c.order != nil {
			more, _ := c.order.Net.Sub(o.Net) // of one currency
			line = fmt.Sprintf("%s: %s more without tax (%s).", c.what, cmp.Or(more, o.Currency.Minor(0)), strings.Join(c.order.Suppliers, ", "))
		}
		if c.what == secondBest && !o.SecondProven {
			line = strings.TrimSuffix(line, ".") + "; the search for it was cut short, and a cheaper one may exist."
		}
		paragraph(w, "  ", "  ", line)
	}
}

const secondBest = "Second best"

func (s Style) lacking(w io.Writer, o *kits.Order) {
	if o.Complete() {
		return
	}
	fmt.Fprintf(w, "\n%s\n", s.paint("Lacking", red, bold))
	for _, p := range o.Short() {
		paragraph(w, "  ", "    ", fmt.Sprintf("%s: %s, %s (%s)", p.Ref, several(p.Lacking, "piece"), p.WhyShort, p.Part.Name))
	}
	fmt.Fprintln(w)
}
