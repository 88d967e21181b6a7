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

// newWares works out what the suppliers ask for a need, and the options among which bounds choose, cheapest first. exact says that
// no price is finer than a minor unit.
func newWares(goods []good, need int64, charges []charge, exact bool, amount func(fine int64) int64) (*wares, []option) {
	slices.SortStableFunc(goods, func(a, b good) int { return cmp.Compare(a.lead, b.lead) }) // of equal goods, the sooner
	w := &wares{need: need, amount: amount}
	var fine []int64 // cost of each ladder
	var found []option
	for _, s := range sellers(goods) {
		l := ladder{supplier: s, goods: only(goods, s, s), fair: exact}
		for _, g := range l.goods {
			l.fair = l.fair && g.pack == 1
		}
		m := cheapestMix(l.goods, need)
		o := makeOption(l.goods, m, amount)
		l.all = o.cost
		w.ladders, fine, found = append(w.ladders, l), append(fine, m.cost), append(found, o)
	}
	for i, a := range w.ladders {
		for j, b := range w.ladders[:i] {
			if a.fair && b.fair {
				continue // a mix of both is never cheaper than either alone
			}
			from := only(goods, a.supplier, b.supplier)
			if m := cheapestMix(from, need); m.cost < min(fine[i], fine[j]) {
				found = append(found, makeOption(from, m, amount))
			}
		}
	}
	w.share(charges)
	for _, sh := range w.sharings {
		found = append(found, w.bargains(sh)...)
	}
	slices.SortStableFunc(found, cheaper)
	return w, found
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
