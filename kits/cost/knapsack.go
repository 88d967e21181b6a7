package cost

import "math"

// sell solves one supplier's part of the relaxed problem. A supplier that must be used sells something, even at a loss.
func (n *node) sell(supplier int) (value float64, picks []entry, freed bool) {
	value, picks, freed = n.sellFreely(supplier)
	if n.state[supplier] == inside && len(picks) == 0 {
		if least, only := n.sellSomething(supplier); least > value {
			return least, []entry{only}, false
		}
	}
	return value, picks, freed
}

// sellSomething bounds the value of selling at least one entry: the least over all entries of that one's price and the
// fractional bound of the rest. Large suppliers, where one entry hardly matters, are spared the work.
func (n *node) sellSomething(supplier int) (float64, entry) {
	k := knapsack{ups: n.upgrades(n.s.bySupplier[supplier], nil)}
	if len(k.ups) == 0 || len(k.ups) > 60 {
		return math.Inf(-1), entry{}
	}
	n.s.work += int64(len(k.ups) * len(k.ups))
	least, only := math.Inf(1), entry{}
	for _, up := range k.ups {
		if v := up.price + n.atLeast(supplier, &k, up.goods); v < least {
			least, only = v, up.entry
		}
	}
	return least, only
}

// atLeast bounds the charge and the upgrades that come on top of goods already sold.
func (n *node) atLeast(supplier int, k *knapsack, goods float64) float64 {
	c, mode := n.s.suppliers[supplier], n.modes[supplier]
	least := math.Inf(1)
	if mode != free || !c.mayBeFree() {
		k.soft = true
		least = k.fraction(0, float64(c.minimum)-goods)
		if c.free > c.minimum {
			least += float64(c.postage)
		}
	}
	if mode != paid && c.mayBeFree() {
		k.soft = false
		least = min(least, k.fraction(0, float64(c.free)-goods))
	}
	return least
}

// sellFreely takes of each part at most one entry, at its reduced price
// goods − θ·u ± z, so that prices and charge together are least. As the charge never rises with the goods, what has a
// price below zero is sold in any case; upgrades beyond that only pay to reach the minimum or the threshold, and which of
// them is a covering knapsack. Upgrades of one part are let stand side by side, and a knapsack that takes long is replaced
// by its fractional bound: both only lower the value, as a bound may.
func (n *node) sellFreely(supplier int) (float64, []entry, bool) {
	c, entries := n.s.suppliers[supplier], n.s.bySupplier[supplier]
	value, goods, picks := n.pays(entries)
	toMinimum, toFree := float64(c.minimum)-goods, float64(c.free)-goods
	mode := n.modes[supplier]
	if !c.mayBeFree() { // postage is certain, or there is none
		postage := float64(c.postage)
		if c.free <= c.minimum {
			postage = 0
		}
		cover, more := n.cover(entries, picks, toMinimum, true, math.Inf(1))
		return value + postage + cover, apply(picks, more), false
	}
	if mode != paid && toFree <= 0 {
		return value, picks, true
	}
	extra, more := math.Inf(1), []upgrade(nil)
	if mode != free {
		extra, more = n.cover(entries, picks, toMinimum, true, math.Inf(1))
		extra += float64(c.postage)
	}
	if mode != paid {
		if reach, by := n.cover(entries, picks, toFree, false, extra); reach < extra {
			return value + reach, apply(picks, by), true
		}
	}
	return value + extra, apply(picks, more), false
}

// pays takes of each part the entry with the lowest price below zero.
func (n *node) pays(entries []entry) (value, goods float64, picks []entry) {
	last, lowest := -1, 0.0
	for _, e := range entries {
		if !n.alive[e.id] {
			continue
		}
		part := n.s.flat[e.id].part
		if part != last {
			last, lowest = part, 0
		}
		if price := n.price(e); price <= lowest {
			if len(picks) > 0 && n.s.flat[picks[len(picks)-1].id].part == part {
				value, goods, picks = value-lowest, goods-picks[len(picks)-1].goods, picks[:len(picks)-1]
			}
			value, goods, lowest = value+price, goods+e.goods, price
			picks = append(picks, e)
		}
	}
	n.s.work += int64(len(entries))
	return value, goods, picks
}

// price is an entry's reduced price.
func (n *node) price(e entry) float64 {
	return e.goods - e.theta*n.u[n.s.flat[e.id].part] + e.sign*n.z[e.id]
}
