package cost

// reduce drops the options that cannot be part of an order that matters: those that lift the bound above the target when
// they are forced in. Forced into a supplier's sales, an entry costs its price more than what was sold of its part, and
// brings its goods; what then is left to reach the minimum or the threshold has a fractional bound. Most parts keep one
// option after this, and only those about which there is real doubt are divided.
func (n *node) reduce(target float64) {
	s := n.s
	bound := 0.0
	for _, u := range n.u {
		bound += u
	}
	lift := make([]float64, len(s.flat))
	for i, entries := range s.bySupplier {
		if n.state[i] == outside {
			continue
		}
		parcel := 1 / float64(s.weight)
		least, _, _ := n.sell(i)
		least += parcel
		if n.state[i] == undecided {
			least = min(least, 0)
		}
		bound += least
		value, goods, picks := n.pays(entries)
		k := knapsack{ups: n.upgrades(entries, picks)}
		at := 0
		for _, e := range entries {
			if !n.alive[e.id] {
				continue
			}
			part := s.flat[e.id].part
			for at < len(picks) && s.flat[picks[at].id].part < part {
				at++
			}
			price, more := n.price(e), e.goods
			if at < len(picks) && s.flat[picks[at].id].part == part {
				price, more = price-n.price(picks[at]), more-picks[at].goods
			}
			lift[e.id] += max(value+price+n.atLeast(i, &k, goods+more)+parcel-least, 0)
			s.work += 8
		}
	}
	for _, ids := range s.byPart {
		left := false
		for _, id := range ids {
			if n.alive[id] && (bound+lift[id])*float64(s.weight) > target {
				n.alive[id] = false
			}
			left = left || n.alive[id]
		}
		if !left {
			n.hopeless = true
			return
		}
	}
	if n.settle(); !n.hopeless {
		n.dominate()
	}
}
