package cost

import (
	"math"
	"slices"
)

// A node is a part of the problem with a proof of how cheap an order in it can be at best.
//
// What couples the suppliers is that each part is bought once, and that both halves of an option from two suppliers are
// bought together. Both are priced instead of enforced (Lagrangian relaxation): u is what a part earns, z shifts the cost
// of an option between its halves. Then every supplier is a small problem of its own, which part to sell at what it earns,
// with postage, threshold and minimum in force (knapsack.go):
//
//	D(u, z) = Σ_parts u + Σ_suppliers min over its entries of (Σ (goods − θ·u ± z) + charge)
//
// A supplier about which nothing is decided may also sell nothing for nothing. An order that is bought in full fulfils
// the relaxed problem at its own cost, so D is never above the cost of any order. The u and z that make D greatest are
// sought by subgradient steps; any of them give a bound that holds.
type node struct {
	s        *search
	state    []state  // of each supplier
	modes    []mode   // of each supplier's postage
	alive    []bool   // options that are left
	sales    [][]sale // by option; the same in all nodes
	u, z     []float64
	bound    float64 // weighted
	used     []float64
	freed    []float64 // how often the relaxed suppliers sold, reached the threshold
	taken    []float64 // how often each option was bought, by entries
	hopeless bool
}

// A state is whether a supplier is part of the order.
type state uint8

const (
	undecided state = iota
	inside
	outside
)

// A mode is what is decided about a supplier's postage.
type mode uint8

const (
	open mode = iota
	paid      // postage is paid, wherever the sum comes to lie
	free      // the sum reaches the threshold
)

func (s *search) root() *node {
	n := &node{s: s, state: make([]state, len(s.suppliers)), modes: make([]mode, len(s.suppliers)), alive: make([]bool, len(s.flat)),
		u: make([]float64, len(s.options)), z: make([]float64, len(s.flat)),
		sales: s.sales(), used: make([]float64, len(s.suppliers)), freed: make([]float64, len(s.suppliers)), taken: make([]float64, len(s.flat))}
	for i := range n.alive {
		n.alive[i] = true
	}
	for p, part := range s.options {
		n.u[p] = float64(part[0].cost)
	}
	n.settle()
	return n
}

func (n *node) child() *node {
	c := *n
	c.state, c.modes, c.alive = slices.Clone(n.state), slices.Clone(n.modes), slices.Clone(n.alive)
	c.u, c.z = slices.Clone(n.u), slices.Clone(n.z)
	c.used, c.freed, c.taken = slices.Clone(n.used), slices.Clone(n.freed), slices.Clone(n.taken)
	return &c
}

// settle draws the plain conclusions: options of suppliers that are out are gone; a supplier that some part cannot do
// without is in, one without options is out; a threshold above all that is for sale is not reached.
func (n *node) settle() {
	var out, offered uint64
	for i, st := range n.state {
		if st == outside {
			out |= 1 << i
		}
	}
	var most [64]float64
	for p, ids := range n.s.byPart {
		every := ^uint64(0)
		before, after := math.Inf(1), math.Inf(1) // cheapest option
		for _, id := range ids {
			if !n.alive[id] {
				continue
			}
			o := n.s.flat[id]
			before = min(before, o.cost)
			if n.alive[id] = o.mask&out == 0; n.alive[id] {
				after = min(after, o.cost)
				every &= o.mask
				offered |= o.mask
			}
		}
		if math.IsInf(after, 1) {
			n.hopeless = true
			return
		}
		n.u[p] += after - before
		for i := range n.state {
			if every>>i&1 == 1 {
				n.state[i] = inside
			}
		}
	}
	for i, entries := range n.s.bySupplier {
		last, best := -1, 0.0
		for _, e := range entries {
			if !n.alive[e.id] {
				continue
			}
			if p := n.s.flat[e.id].part; p != last {
				most[i], last, best = most[i]+best, p, 0
			}
			best = max(best, e.goods)
		}
		most[i] += best
		c := n.s.suppliers[i]
		switch {
		case offered>>i&1 == 0 && n.state[i] == inside:
			n.hopeless = true
		case offered>>i&1 == 0:
			n.state[i] = outside
		case c.mayBeFree() && most[i] < float64(c.free) && n.modes[i] == free:
			n.hopeless = true
		case c.mayBeFree() && most[i] < float64(c.free):
			n.modes[i] = paid
		}
	}
}

// evaluate computes D and how often each option was bought: x counts its entries, the first and second apart.
func (n *node) evaluate(x, twin []float64) float64 {
	clear(x)
	clear(twin)
	sum := 0.0
	for _, u := range n.u {
		sum += u
	}
	for i := range n.s.suppliers {
		sold, reached := 0.0, 0.0
		if n.state[i] != outside {
			value, picks, freed := n.sell(i)
			value += 1 / float64(n.s.weight)
			if n.state[i] == inside || value < 0 {
				sold = 1
				sum += value
				for _, e := range picks {
					if e.sign < 0 {
						twin[e.id] = 1
					} else {
						x[e.id] = 1
					}
				}
				if freed {
					reached = 1
				}
			}
		}
		n.used[i] += (sold - n.used[i]) / 8
		n.freed[i] += (reached - n.freed[i]) / 8
	}
	return sum * float64(n.s.weight)
}

// raise seeks multipliers with a great bound, with Polyak's steps towards the target, and stops once it is reached.
func (n *node) raise(target func() float64, steps int) {
	s := n.s
	x, twin := make([]float64, len(s.flat)), make([]float64, len(s.flat))
	bestU, bestZ := slices.Clone(n.u), slices.Clone(n.z)
	slope := make([]float64, len(n.u))
	n.startPlainly(x, twin)
	n.bound = math.Inf(-1)
	theta, stale := 1.0, 0
	for step := range steps {
		d := n.evaluate(x, twin)
		if d > n.bound {
			if d > n.bound+1e-4*math.Abs(target()-n.bound) {
				stale = 0
			}
			n.bound = d
			copy(bestU, n.u)
			copy(bestZ, n.z)
		} else if stale++; stale >= 6 {
			theta, stale = theta/1.5, 0
		}
		if n.bound > target() || theta < 0.01 {
			break
		}
		norm := n.slope(x, twin, slope)
		if step%25 == 24 {
			s.polish(n.guess(), n.alive, n.inside())
		}
		if norm == 0 {
			break
		}
		gap := target() + 1 - d
		if gap > math.Abs(d) { // no order to aim at is known yet
			gap = math.Abs(d)/20 + 1
		}
		length := theta * gap / float64(s.weight) / norm
		for p := range n.u {
			n.u[p] += length * slope[p]
		}
		for id := range n.z {
			if n.alive[id] {
				n.z[id] += length * (x[id] - twin[id]) * n.paired(id)
			}
		}
	}
	copy(n.u, bestU)
	copy(n.z, bestZ)
	if n.bound <= target() {
		s.polish(n.relaxed(), n.alive, n.inside())
	}
}

// startPlainly goes back to multipliers at which every part earns the cost of its cheapest option, when their bound is
// the greater: where no threshold is in doubt they are the best there are.
func (n *node) startPlainly(x, twin []float64) {
	now := n.evaluate(x, twin)
	u, z := n.u, n.z
	n.u, n.z = make([]float64, len(u)), make([]float64, len(z))
	for p, ids := range n.s.byPart {
		n.u[p] = math.Inf(1)
		for _, id := range ids {
			if n.alive[id] {
				n.u[p] = min(n.u[p], n.s.flat[id].cost)
			}
		}
	}
	if n.evaluate(x, twin) <= now {
		n.u, n.z = u, z
	}
}

// paired is 1 for an option from two suppliers, else 0.
func (n *node) paired(id int) float64 {
	if mask := n.s.flat[id].mask; mask&(mask-1) != 0 {
		return 1
	}
	return 0
}

// slope fills in the derivative of D in each u, keeps the averages of what is bought, and returns the squared length of the
// whole slope.
func (n *node) slope(x, twin, slope []float64) float64 {
	for p := range slope {
		slope[p] = 1
	}
	norm := 0.0
	for _, entries := range n.s.bySupplier {
		for _, e := range entries {
			bought := x[e.id]
			if e.sign < 0 {
				bought = twin[e.id]
			}
			slope[n.s.flat[e.id].part] -= e.theta * bought
			if e.sign >= 0 {
				average := bought
				if e.sign > 0 {
					average = (bought + twin[e.id]) / 2
					norm += (bought - twin[e.id]) * (bought - twin[e.id])
				}
				n.taken[e.id] += (average - n.taken[e.id]) / 8
			}
		}
	}
	for _, g := range slope {
		norm += g * g
	}
	return norm
}

// inside are the suppliers that must be used.
func (n *node) inside() uint64 {
	var in uint64
	for i, st := range n.state {
		if st == inside {
			in |= 1 << i
		}
	}
	return in
}

// relaxed takes for each part the option that the relaxed problem buys: of several the dearest at its reduced cost, as it
// is there to reach a threshold, and of none the cheapest.
func (n *node) relaxed() []int {
	x, twin := make([]float64, len(n.s.flat)), make([]float64, len(n.s.flat))
	n.evaluate(x, twin)
	choice := make([]int, len(n.u))
	for p, ids := range n.s.byPart {
		best, bought := -1, false
		for _, id := range ids {
			if !n.alive[id] {
				continue
			}
			buys := x[id] == 1 && (n.paired(id) == 0 || twin[id] == 1)
			cost := n.s.flat[id].cost
			if best < 0 || buys && (!bought || cost > n.s.flat[best].cost) {
				best, bought = id, buys
			}
		}
		choice[p] = n.s.flat[best].number
	}
	return choice
}

// guess takes for each part the option that was bought most often.
func (n *node) guess() []int {
	choice := make([]int, len(n.u))
	for p, ids := range n.s.byPart {
		best := -1
		for _, id := range ids {
			if n.alive[id] && (best < 0 || n.taken[id] > n.taken[best]) {
				best = id
			}
		}
		choice[p] = n.s.flat[best].number
	}
	return choice
}
