package kits

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"hoistbook/kits/cost"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var costFacts = []*Entry{costKit, costAllSets, costBudget, costCurrency, costRelabelled}

// prices is the cost of one kit by line and in all; its parts that nobody prices are in Missing.
var prices = shared(func(c *frame) cost.Kit { return priced(c, pieces) })

// allSets is the same with every set of batteries that takes turns: what a club pays before it can fly.
var allSets = shared(func(c *frame) cost.Kit { return priced(c, carried) })

func priced(c *frame, quantity func(manifest.Part) int) cost.Kit {
	_ = currencyCode(c)
	tax := given(c, "/budget/tax", budget(c).Tax)
	if !c.known() {
		return cost.Kit{}
	}
	kit := try(cost.OfKit(costParts(c.run.manifest, quantity), *budget(c).Currency, tax)).in(c)
	if !kit.Known() {
		c.missing("nobody says what %s costs", strings.Join(kit.Missing, ", "))
	}
	return kit
}

var minorUnits = []source.Ref{source.At("iso-4217", "minor units")}

var costKit = money("cost.kit", "Cost of one kit, with tax",
	"sum of quantity × (1 + spares) × cheapest price ÷ pack, consumables included, × (1 + tax), rounded half-even at the total", minorUnits,
	func(c *frame) string { return total(c, prices) })

var costAllSets = money("cost.all_sets", "Cost of one kit with every set of batteries, with tax",
	"as cost.kit, a battery's quantity × its sets in rotation", minorUnits,
	func(c *frame) string { return total(c, allSets) })

func total(c *frame, of working[cost.Kit]) string {
	for ref, p := range manifest.Sorted(c.run.manifest.Parts) {
		for i := range p.Offers {
			c.cite(at("parts", ref, "offers", strconv.Itoa(i), "price"))
		}
	}
	kit := of.of(c)
	if !c.known() {
		return ""
	}
	return kit.Total.Decimal().String()
}

var costBudget = money("cost.budget", "What one kit may cost", asSaid, policy,
	func(c *frame) string {
		limit := budget(c).PerKit
		if limit == nil {
			c.missing("the manifest does not say /budget/per_kit")
			return ""
		}
		c.cite("/budget/per_kit")
		return limit.String()
	})

var costCurrency = word(nil, "cost.currency", "Currency of the prices", asSaid, nil, policy,
	func(c *frame, _ string) string { return currencyCode(c) })

// An overlay that changes the currency changes what every price means, and has to say every price anew.
var costRelabelled = yesNo(nil, "cost.relabelled", "Whether prices are read in another currency than they were written in",
	"an overlay changes the currency, and a price, postage or budget still comes from beneath it", policy,
	func(c *frame, _ string) bool {
		m := c.run.manifest
		beneath := m.Below("/budget/currency")
		if beneath == nil || beneath.Text == currencyCode(c) {
			return false
		}
		above := m.Origin("/budget/currency")
		for _, pointer := range moneyPointers(m) {
			if m.Has(pointer) && m.Origin(pointer) != above {
				c.cite(pointer)
				return true
			}
		}
		return false
	})

// moneyPointers are the places of a manifest where sums of money stand.
func moneyPointers(m *manifest.Manifest) []string {
	all := []string{"/budget/per_kit"}
	for ref, p := range manifest.Sorted(m.Parts) {
		for i := range p.Offers {
			all = append(all, at("parts", ref, "offers", strconv.Itoa(i), "price"))
		}
	}
	for id := range manifest.Sorted(m.Suppliers) {
		for _, key := range []string{"postage", "free_postage_from", "least_order"} {
			all = append(all, at("suppliers", id, key))
		}
	}
	return all
}

func currencyCode(c *frame) string {
	code := ""
	if currency := budget(c).Currency; currency != nil {
		code = currency.Code()
	}
	return text(c, "/budget/currency", code)
}

// money defines a fact that is an exact decimal in the currency of the budget.
func money(id, title, formula string, sources []source.Ref, compute func(c *frame) string) *Entry {
	e := word(nil, id, title, formula, nil, sources, func(c *frame, _ string) string { return compute(c) })
	e.Kind = fact.Money
	inner := e.compute
	e.compute = func(c *frame, subject string) fact.Value {
		v := inner(c, subject)
		v.Kind = fact.Money
		return v
	}
	return e
}

func budget(c *frame) *manifest.Budget {
	if b := c.run.manifest.Budget; b != nil {
		return b
	}
	return &manifest.Budget{}
}

// costParts is the parts list as far as money is concerned, with as many of each part as quantity says.
func costParts(m *manifest.Manifest, quantity func(manifest.Part) int) []cost.Part {
	var parts []cost.Part
	for ref, p := range manifest.Sorted(m.Parts) {
		line := cost.Part{Ref: string(ref), Place: string(p.Place), Quantity: quantity(p), Consumable: p.Consumable}
		if p.Spares != nil {
			line.Spares = *p.Spares
		}
		for _, o := range p.Offers {
			line.Offers = append(line.Offers, costOffer(o))
		}
		parts = append(parts, line)
	}
	return parts
}

func costOffer(o manifest.Offer) cost.Offer {
	offer := cost.Offer{Supplier: string(o.Supplier), OrderCode: o.OrderCode, Pack: 1, Price: o.Price, LeadTime: unit.Duration(nan)}
	if o.Pack != nil {
		offer.Pack = *o.Pack
	}
	if o.LeadTime != nil {
		offer.LeadTime = *o.LeadTime
	}
	if o.LeastPacks != nil {
		offer.Least = *o.LeastPacks
	}
	for packs, price := range o.Breaks {
		from, err := strconv.Atoi(string(packs))
		if err == nil { // the schema admits digits only
			offer.Breaks = append(offer.Breaks, cost.Break{From: from, Price: price})
		}
	}
	slices.SortFunc(offer.Breaks, func(a, b cost.Break) int { return cmp.Compare(a.From, b.From) })
	return offer
}
