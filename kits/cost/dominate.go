package cost

import "math/bits"

// dominate drops options that another of the same part beats in everything that still matters: it costs no more and brings
// no less to each supplier whose goods may still change a charge. A supplier's goods no longer matter once the options that
// are left buy enough there in any case: its parcel goes out, its minimum is met, and its postage is decided. Of equal
// options the first stays.
func (n *node) dominate() {
	sure := n.sureGoods()
	var matter uint64
	for i, c := range n.s.suppliers {
		settled := n.state[i] == outside ||
			n.state[i] == inside && sure[i].uses > 0 && sure[i].goods >= float64(c.minimum) &&
				(!c.mayBeFree() || n.modes[i] == paid || sure[i].goods >= float64(c.free))
		if !settled {
			matter |= 1 << i
		}
	}
	for _, ids := range n.s.byPart {
		for i, a := range ids {
			for _, b := range ids[:i] {
				switch {
				case !n.alive[a] || !n.alive[b]:
				case n.beats(b, a, matter):
					n.alive[a] = false
				case n.beats(a, b, matter):
					n.alive[b] = false
				}
			}
		}
	}
}

// beats reports whether option a is at least as good as b.
func (n *node) beats(a, b int, matter uint64) bool {
	if n.s.flat[a].cost > n.s.flat[b].cost || n.s.flat[b].mask&^n.s.flat[a].mask&matter != 0 {
		return false
	}
	for _, y := range n.sales[b] {
		if matter>>y.supplier&1 == 0 {
			continue
		}
		for _, x := range n.sales[a] {
			if x.supplier == y.supplier && x.goods < y.goods {
				return false
			}
		}
	}
	// A supplier about which it is open whether it is used at all must not come in unasked.
	return n.s.flat[a].mask&^n.s.flat[b].mask&n.open() == 0
}

// open are the suppliers about which nothing is decided.
func (n *node) open() uint64 {
	var mask uint64
	for i, st := range n.state {
		if st == undecided {
			mask |= 1 << i
		}
	}
	return mask
}

// sureGoods is what the options that are left buy from each supplier in any case.
func (n *node) sureGoods() []sold {
	sure := make([]sold, len(n.s.suppliers))
	for _, ids := range n.s.byPart {
		every := ^uint64(0)
		var least [64]float64
		for _, id := range ids {
			if !n.alive[id] {
				continue
			}
			for _, e := range n.sales[id] {
				if every == ^uint64(0) || e.goods < least[e.supplier] {
					least[e.supplier] = e.goods
				}
			}
			every &= n.s.flat[id].mask
		}
		for ; every != 0; every &= every - 1 {
			i := bits.TrailingZeros64(every)
			if i >= len(sure) {
				break
			}
			sure[i].goods += least[i]
			sure[i].uses++
		}
	}
	return sure
}

// sold is a sum of goods and how many parts they are of.
type sold struct {
	goods float64
	uses  int
}

// A sale is what an option buys from one supplier.
type sale struct {
	supplier     int
	goods, theta float64
}

// sales lists them by option, the first of two before the second.
func (s *search) sales() [][]sale {
	all := make([][]sale, len(s.flat))
	for _, second := range []bool{false, true} {
		for i, entries := range s.bySupplier {
			for _, e := range entries {
				if (e.sign < 0) == second {
					all[e.id] = append(all[e.id], sale{i, e.goods, e.theta})
				}
			}
		}
	}
	return all
}
