package cost

import (
	"cmp"
	"math/bits"
	"slices"
)

// An option is one way to buy a part: the cheapest mix of the packs of one supplier, or of two where the mix of both is
// cheaper than either alone. Amounts are integers of minor units, each line rounded.
type option struct {
	mask  uint64 // suppliers
	cost  int64  // of the goods
	at    [2]share
	lead  float64 // of the slowest pack; +Inf when not known
	lines []choice
}

// A share is the value of goods bought from one supplier; the second share of an option may be empty.
type share struct {
	supplier int
	goods    int64
}

// A choice is a number of packs of one offer.
type choice struct {
	good   good
	packs  int64
	amount int64
}

// from is the value of the goods that an option buys from a supplier.
func (o *option) from(supplier int) int64 {
	for _, at := range o.at {
		if at.supplier == supplier {
			return at.goods
		}
	}
	return 0
}

// options lists the ways to buy a need, cheapest first. amount rounds a price in fine units to minor units.
func options(goods []good, need int64, amount func(fine int64) int64) []option {
	slices.SortStableFunc(goods, func(a, b good) int { return cmp.Compare(a.lead, b.lead) }) // of equal goods, the sooner
	suppliers := sellers(goods)
	alone := make([]int64, len(suppliers)) // cost in fine units
	var found []option
	for i, s := range suppliers {
		from := only(goods, s, s)
		m := cheapestMix(from, need)
		alone[i] = m.cost
		found = append(found, makeOption(from, m, amount))
	}
	for i, a := range suppliers {
		for j, b := range suppliers[:i] {
			from := only(goods, a, b)
			if m := cheapestMix(from, need); m.cost < min(alone[i], alone[j]) {
				found = append(found, makeOption(from, m, amount))
			}
		}
	}
	slices.SortStableFunc(found, cheaper)
	return found
}

// cheaper orders options by cost, then fewer suppliers, then the sooner.
func cheaper(a, b option) int {
	return cmp.Or(cmp.Compare(a.cost, b.cost), bits.OnesCount64(a.mask)-bits.OnesCount64(b.mask), cmp.Compare(a.lead, b.lead))
}

func sellers(goods []good) []int {
	var suppliers []int
	for _, g := range goods {
		if !slices.Contains(suppliers, g.supplier) {
			suppliers = append(suppliers, g.supplier)
		}
	}
	return suppliers
}

func only(goods []good, a, b int) []good {
	var from []good
	for _, g := range goods {
		if g.supplier == a || g.supplier == b {
			from = append(from, g)
		}
	}
	return from
}

func makeOption(goods []good, m mix, amount func(int64) int64) option {
	o := option{at: [2]share{{supplier: -1}, {supplier: -1}}}
	for i, n := range m.packs {
		if n == 0 {
			continue
		}
		c := choice{goods[i], n, amount(goods[i].price(n))}
		o.lines = append(o.lines, c)
		o.cost += c.amount
		o.mask |= 1 << c.good.supplier
		o.lead = max(o.lead, c.good.lead)
		at := &o.at[0]
		if at.supplier >= 0 && at.supplier != c.good.supplier {
			at = &o.at[1]
		}
		at.supplier = c.good.supplier
		at.goods += c.amount
	}
	return o
}
