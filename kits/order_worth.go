package kits

import (
	"math/big"

	"hoistbook/kits/cost"
	"hoistbook/kits/unit"
)

// What a kit costs is said three ways, each with tax: what is paid for it now; what comes off the shelf for it, which was paid
// once and is worth its list price, the cheapest price a piece that anybody asks; and the bill of one kit at list prices, which
// is what the budget rule holds against the budget. An order buys whole packs, pays postage, and may buy elsewhere: it costs
// more than the bill, or less where price breaks are reached.

// EachKit is what is paid now for a kit, rounded half to even; it is not known of an order that is not complete.
func (o *Order) EachKit() (each unit.Money, known bool) {
	if !o.Complete() {
		return unit.Money{}, false
	}
	return o.perKit(o.Total.Rat())
}

// EachKitStock is what the pieces taken from stock are worth a kit; it is not known when nobody sells one of their parts.
func (o *Order) EachKitStock() (each unit.Money, known bool) {
	all, _, known := o.fromStock()
	if !known || !o.Complete() {
		return unit.Money{}, false
	}
	return o.perKit(all)
}

// EachKitWorth is what a kit costs when its stock is counted: EachKit + EachKitStock.
func (o *Order) EachKitWorth() (each unit.Money, known bool) {
	paid, known := o.EachKit()
	stock, also := o.EachKitStock()
	if !known || !also {
		return unit.Money{}, false
	}
	each, err := paid.Add(stock)
	return each, err == nil
}

// EachKitLater is what of EachKitWorth later deployments use up: (n − 1)/n of what all consumables in the order and from stock come to.
func (o *Order) EachKitLater() (each unit.Money, known bool) {
	_, usedUp, known := o.fromStock()
	if !known || !o.Complete() {
		return unit.Money{}, false
	}
	n := int64(o.Plan.Deployments)
	later := new(big.Rat).Mul(o.UsedUp().Rat(), cost.AndTax(o.TaxRate))
	later.Add(later, usedUp)
	return o.perKit(later.Mul(later, big.NewRat(n-1, n)))
}

// EachKitOnce is EachKitWorth − EachKitLater: what a kit costs for a single deployment, which is what a budget and the bill are about.
func (o *Order) EachKitOnce() (each unit.Money, known bool) {
	worth, known := o.EachKitWorth()
	later, also := o.EachKitLater()
	if !known || !also {
		return unit.Money{}, false
	}
	each, err := worth.Sub(later)
	return each, err == nil
}

func (o *Order) perKit(all *big.Rat) (each unit.Money, known bool) {
	each, err := o.Currency.Round(new(big.Rat).Quo(all, big.NewRat(int64(o.Plan.Kits), 1)))
	return each, err == nil
}

// fromStock is what the pieces taken from stock are worth with tax, and those of them that are used up.
func (o *Order) fromStock() (all, usedUp *big.Rat, known bool) {
	all, usedUp = new(big.Rat), new(big.Rat)
	kit, err := o.listed()
	if err != nil {
		return nil, nil, false
	}
	for i, p := range o.Parts {
		pieces := min(p.Stock, p.Wanted)
		if pieces == 0 {
			continue
		}
		if kit.Lines[i].Each == nil {
			return nil, nil, false
		}
		worth := new(big.Rat).Mul(kit.Lines[i].Each, big.NewRat(int64(pieces), 1))
		worth.Mul(worth, cost.AndTax(o.TaxRate))
		all.Add(all, worth)
		if p.Part.Consumable {
			usedUp.Add(usedUp, worth)
		}
	}
	return all, usedUp, true
}

// Bill is the bill of one kit at list prices; it is not known when nobody sells one of its parts.
func (o *Order) Bill() (each unit.Money, known bool) {
	kit, err := o.listed()
	if err != nil || !kit.Known() {
		return unit.Money{}, false
	}
	return kit.Total, true
}

func (o *Order) listed() (cost.Kit, error) {
	return cost.OfKit(costParts(o.Manifest, carried), o.Currency, o.TaxRate)
}

// Unpriced are the parts that are taken from stock and that nobody sells.
func (o *Order) Unpriced() []string {
	var refs []string
	for _, p := range o.Parts {
		if min(p.Stock, p.Wanted) > 0 && len(p.Part.Offers) == 0 {
			refs = append(refs, string(p.Ref))
		}
	}
	return refs
}

// UsesStock reports whether anything is taken from stock.
func (o *Order) UsesStock() bool {
	for _, p := range o.Parts {
		if min(p.Stock, p.Wanted) > 0 {
			return true
		}
	}
	return false
}

// UsedUp is what the consumables in the order cost, without tax and postage.
func (o *Order) UsedUp() unit.Money {
	sum := o.Currency.Minor(0)
	for _, p := range o.Parcels {
		for _, l := range p.Lines {
			if o.Part(l.Ref).Consumable {
				sum, _ = sum.Add(l.Amount) // of one currency
			}
		}
	}
	return sum
}

// A KitSum is a line of what a kit costs.
type KitSum struct {
	ID     string // that of its words
	Amount unit.Money
	Known  bool
}

// KitSums are the lines of what a kit costs, down to what is left of its budget, each following from those above it: what is paid now
// and what comes from stock, less what later deployments use up, is held against the bill and against the budget.
func (o *Order) KitSums() []KitSum {
	var sums []KitSum
	add := func(id string, amount unit.Money, known bool) {
		sums = append(sums, KitSum{id, amount, known})
	}
	paid, known := o.EachKit()
	add("order.each-kit", paid, known)
	if !known {
		return sums
	}
	if o.UsesStock() {
		stock, priced := o.EachKitStock()
		add("order.each-stock", stock, priced)
		worth, priced := o.EachKitWorth()
		add("order.each-worth", worth, priced)
	}
	once, known := o.EachKitOnce()
	if o.Plan.Deployments > 1 {
		later, priced := o.EachKitLater()
		add("order.later", later, priced)
		add("order.once", once, known)
	}
	if bill, billed := o.Bill(); billed && known {
		add("order.bill", bill, true)
		beyond, _ := once.Sub(bill) // of one currency
		add("order.beyond-bill", beyond, true)
	}
	limit, limited := o.Budget()
	if !limited {
		return sums
	}
	add("order.budget", limit, true)
	if !known {
		return sums
	}
	id := "order.left"
	left, _ := limit.Sub(once) // of one currency
	if left.MinorUnits() < 0 {
		id = "order.over"
		left, _ = once.Sub(limit)
	}
	add(id, left, true)
	return sums
}
