package cost

import (
	"math"
	"slices"
)

// An upgrade sells more goods of a part than pays by itself: extra goods at an extra price.
type upgrade struct {
	goods, price float64
	instead      int // picks index of the entry that it replaces; −1 for none
	entry        entry
}

func apply(picks []entry, more []upgrade) []entry {
	picks = slices.Clone(picks)
	for _, up := range more {
		if up.instead >= 0 {
			picks[up.instead] = up.entry
		} else {
			picks = append(picks, up.entry)
		}
	}
	return picks
}

// upgrades lists what could be sold beyond picks, the best value first.
func (n *node) upgrades(entries, picks []entry) []upgrade {
	var ups []upgrade
	at := 0
	for _, e := range entries {
		if !n.alive[e.id] {
			continue
		}
		part := n.s.flat[e.id].part
		for at < len(picks) && n.s.flat[picks[at].id].part < part {
			at++
		}
		up := upgrade{e.goods, n.price(e), -1, e}
		if at < len(picks) && n.s.flat[picks[at].id].part == part {
			up.goods, up.price, up.instead = e.goods-picks[at].goods, up.price-n.price(picks[at]), at
		}
		if up.goods > 0 {
			ups = append(ups, up)
		}
	}
	slices.SortFunc(ups, func(a, b upgrade) int {
		switch x := a.price*b.goods - b.price*a.goods; {
		case x < 0:
			return -1
		case x > 0:
			return 1
		}
		return a.entry.id - b.entry.id
	})
	return ups
}

// mostKnots bounds one knapsack; beyond it the fractional bound has to do.
const mostKnots = 20000

// cover finds the cheapest upgrades whose goods reach the gap. Soft, what they miss may be paid for at its value (a
// minimum made up). A cost of limit or more is not looked for; without any cover the cost is infinite.
func (n *node) cover(entries, picks []entry, gap float64, soft bool, limit float64) (float64, []upgrade) {
	if gap <= 0 {
		return 0, nil
	}
	k := knapsack{ups: n.upgrades(entries, picks), soft: soft, best: limit + slack}
	k.behind = make([]float64, len(k.ups)+1)
	for i := len(k.ups) - 1; i >= 0; i-- {
		k.behind[i] = k.behind[i+1] + k.ups[i].goods
	}
	if soft {
		k.best = min(k.best, gap)
	}
	bound := k.fraction(0, gap)
	k.walk(0, gap, 0)
	n.s.work += int64(k.knots * 8)
	if k.knots > mostKnots {
		return bound, k.taken
	}
	if k.best >= limit+slack {
		return math.Inf(1), nil
	}
	return max(k.best-slack, bound), k.taken
}

// slack is how far from the optimum a cover may be; it is taken off its cost, so that the bound holds.
const slack = 0.02

type knapsack struct {
	ups    []upgrade
	behind []float64 // goods of this and all later upgrades
	soft   bool
	best   float64
	taken  []upgrade
	now    []upgrade
	knots  int
}

// fraction is the cost of reaching the gap with upgrades from i on when the last may be cut: never above that of any cover.
func (k *knapsack) fraction(i int, gap float64) float64 {
	cost := 0.0
	for ; i < len(k.ups) && gap > 0; i++ {
		up := k.ups[i]
		if k.soft && up.price >= up.goods {
			break
		}
		if up.goods >= gap {
			return cost + up.price*gap/up.goods
		}
		cost += up.price
		gap -= up.goods
	}
	if gap > 0 && !k.soft {
		return math.Inf(1)
	}
	return cost + max(gap, 0)
}

func (k *knapsack) walk(i int, gap, cost float64) {
	if k.knots++; k.knots > mostKnots {
		return
	}
	reached := cost
	if gap > 0 {
		reached = math.Inf(1)
		if k.soft {
			reached = cost + gap
		}
	}
	if reached < k.best {
		k.best, k.taken = reached, slices.Clone(k.now)
	}
	if gap <= 0 || i == len(k.ups) || !k.soft && k.behind[i] < gap || cost+k.fraction(i, gap) >= k.best-slack {
		return
	}
	k.now = append(k.now, k.ups[i])
	k.walk(i+1, gap-k.ups[i].goods, cost+k.ups[i].price)
	k.now = k.now[:len(k.now)-1]
	k.walk(i+1, gap, cost)
}
