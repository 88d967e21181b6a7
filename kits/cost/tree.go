package cost

// grow bounds a node and divides it until nothing in it can matter.
func (s *search) grow(n *node, steps int) {
	if s.work > s.limit {
		s.proven = false
		return
	}
	if n.hopeless {
		return
	}
	target := func() float64 { return s.below(n) }
	n.raise(target, steps)
	s.polish(n.guess(), n.alive, n.inside())
	if n.bound > target() {
		return
	}
	if n.reduce(target()); n.hopeless {
		return
	}
	for _, c := range n.divide() {
		c.settle()
		s.grow(c, 25)
	}
}

// below is the greatest cost that would still matter: under the best order, or the second for any other set of suppliers
// than the best one's. Once the set is decided, costs that so many parcels cannot give are left out. Half a unit keeps the
// rounding of the bound from cutting off the optimum.
func (s *search) below(n *node) float64 {
	var in uint64
	parcels := int64(0)
	for i, st := range n.state {
		switch st {
		case undecided:
			if s.onlyFirst {
				return float64(s.first.cost) - 0.5
			}
			return float64(s.second.cost) - 0.5
		case inside:
			in |= 1 << i
			parcels++
		}
	}
	target := s.second.cost - 1
	if s.onlyFirst || in == s.first.mask {
		target = s.first.cost - 1
	}
	return float64(target-((target-parcels)%s.weight+s.weight)%s.weight) + 0.5
}

// divide splits a node over what the relaxed problem wavers about most: first the suppliers, as the target falls when
// their set is decided, then postage, then the options of a part. Where nothing wavers and a gap is left all the same,
// anything that is open is split. A node in which all is decided has been recorded by polish and has no children.
func (n *node) divide() []*node {
	if i := n.waveringSupplier(-1); i >= 0 {
		in, out := n.child(), n.child()
		in.state[i], out.state[i] = inside, outside
		if n.used[i] < 0.5 {
			return []*node{out, in}
		}
		return []*node{in, out}
	}
	for _, least := range []float64{0.03, -1} {
		if i := n.waveringPostage(least); i >= 0 {
			pays, reaches := n.child(), n.child()
			pays.modes[i], reaches.modes[i] = paid, free
			if n.freed[i] < 0.5 {
				return []*node{pays, reaches}
			}
			return []*node{reaches, pays}
		}
		if p := n.waveringPart(least); p >= 0 {
			return n.fixed(p)
		}
	}
	return nil
}

// waver is 0 for an average of 0 or 1 and greatest between.
func waver(average float64) float64 { return average * (1 - average) }

func (n *node) waveringSupplier(least float64) int {
	best := -1
	for i, st := range n.state {
		if w := waver(n.used[i]); st == undecided && w > least {
			best, least = i, w
		}
	}
	return best
}

func (n *node) waveringPostage(least float64) int {
	best := -1
	for i, m := range n.modes {
		if w := waver(n.freed[i]); n.state[i] == inside && m == open && n.s.suppliers[i].mayBeFree() && w > least {
			best, least = i, w
		}
	}
	return best
}

func (n *node) waveringPart(least float64) int {
	best := -1
	for p, ids := range n.s.byPart {
		left, most := 0, -1.0
		for _, id := range ids {
			if n.alive[id] {
				left++
				most = max(most, waver(n.taken[id]))
			}
		}
		if left > 1 && most > least {
			best, least = p, most
		}
	}
	return best
}

// fixed makes a child for each option of a part, the one bought most often first.
func (n *node) fixed(p int) []*node {
	var children []*node
	var order []int
	for _, id := range n.s.byPart[p] {
		if !n.alive[id] {
			continue
		}
		at := len(order)
		for at > 0 && n.taken[order[at-1]] < n.taken[id] {
			at--
		}
		order = append(order[:at], append([]int{id}, order[at:]...)...)
	}
	for _, keep := range order {
		c := n.child()
		for _, id := range n.s.byPart[p] {
			c.alive[id] = id == keep
		}
		children = append(children, c)
	}
	return children
}
