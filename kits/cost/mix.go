package cost

import "math"

// A good is an offer inside the search: prices are integers of the finest unit that any price uses.
type good struct {
	supplier int
	offer    int // in the part's list
	pack     int64
	tiers    []tier  // the first from the fewest packs that are sold, prices falling
	lead     float64 // +Inf when not known
}

type tier struct{ from, price int64 }

// price of a number of packs: the tier reached holds for all of them.
func (g good) price(packs int64) int64 {
	each := g.tiers[0].price
	for _, t := range g.tiers[1:] {
		if packs >= t.from {
			each = t.price
		}
	}
	return packs * each
}

// packs are the packs that cover a need at the least cost: as many as it takes, or those up to a price break.
func (g good) packs(need int64) int64 {
	best := max((need+g.pack-1)/g.pack, g.tiers[0].from)
	for _, t := range g.tiers[1:] {
		if t.from > best && g.price(t.from) < g.price(best) {
			best = t.from
		}
	}
	return best
}

// A mix is a number of packs of each good.
type mix struct {
	packs []int64
	cost  int64
	count int64 // packs altogether
}

func (m mix) better(than mix) bool {
	return than.packs == nil || m.cost < than.cost || m.cost == than.cost && m.count < than.count
}

// cheapestMix finds the packs that cover a need at the least cost, of equals the one with the fewest packs. More than the
// need is bought where that is cheaper: a pack of ten for eight, or ten packs for nine where the price breaks at ten.
//
// Every good's tier is chosen first and its packs up to the break are bought; what is left is covered at the chosen
// prices, where more packs are never dearer a piece, so no upper ends are needed.
func cheapestMix(goods []good, need int64) mix {
	if len(goods) == 1 {
		packs := goods[0].packs(need)
		return mix{[]int64{packs}, goods[0].price(packs), packs}
	}
	m := mixer{goods: goods, chosen: make([]int64, len(goods)), bought: make([]int64, len(goods))}
	m.choose(0, need, 0)
	return m.best
}

type mixer struct {
	goods  []good
	chosen []int64 // price of the tier; closed for a good that is not bought
	bought []int64 // packs up to the break
	best   mix
}

// closed is no price: of a good that is sold only by several packs, none is bought.
const closed = -1

// choose decides the tier of each good from i on; left is what is still needed, spent what the breaks cost so far.
func (m *mixer) choose(i int, left, spent int64) {
	if m.best.packs != nil && spent > m.best.cost {
		return
	}
	if i == len(m.goods) {
		m.cover(left)
		return
	}
	for n, t := range m.goods[i].tiers {
		from := t.from
		switch {
		case n == 0 && from == 1:
			from = 0
		case n == 0:
			m.chosen[i], m.bought[i] = closed, 0
			m.choose(i+1, left, spent)
		}
		m.chosen[i], m.bought[i] = t.price, from
		m.choose(i+1, left-from*m.goods[i].pack, spent+from*t.price)
	}
}

// cover buys what is left at the chosen prices: an unbounded covering knapsack. In some optimum fewer packs than the best
// value's pack size are of other goods (any so many have a part whose pieces are a multiple of it, and could be changed
// for best-value packs), so all but a bounded rest is best-value packs.
func (m *mixer) cover(left int64) {
	packs := append([]int64(nil), m.bought...)
	if left > 0 {
		best, widest := -1, int64(0)
		for i, g := range m.goods {
			if m.chosen[i] == closed {
				continue
			}
			if best < 0 {
				best = i
				continue
			}
			here, there := m.chosen[i]*m.goods[best].pack, m.chosen[best]*g.pack
			if here < there || here == there && g.pack > m.goods[best].pack { // of equals the larger, which takes fewer packs
				best = i
			}
		}
		if best < 0 {
			return
		}
		for i, g := range m.goods {
			if i != best && m.chosen[i] != closed {
				widest = max(widest, g.pack)
			}
		}
		size := m.goods[best].pack
		if bulk := (left - (size-1)*widest) / size; bulk > 0 {
			packs[best] += bulk
			left -= bulk * size
		}
		m.rest(packs, left)
	}
	found := mix{packs: packs}
	for i, n := range packs {
		found.cost += m.goods[i].price(n)
		found.count += n
	}
	if found.better(m.best) {
		m.best = found
	}
}

// rest adds the packs that cover a small rest, by dynamic programming over its pieces.
func (m *mixer) rest(packs []int64, left int64) {
	if left <= 0 {
		return
	}
	cost, count, last := make([]int64, left+1), make([]int64, left+1), make([]int, left+1)
	for x := int64(1); x <= left; x++ {
		cost[x] = math.MaxInt64
		for i, g := range m.goods {
			if m.chosen[i] == closed {
				continue
			}
			before := max(x-g.pack, 0)
			c, n := cost[before]+m.chosen[i], count[before]+1
			if c < cost[x] || c == cost[x] && n < count[x] {
				cost[x], count[x], last[x] = c, n, i
			}
		}
	}
	for x := left; x > 0; x = max(x-m.goods[last[x]].pack, 0) {
		packs[last[x]]++
	}
}
