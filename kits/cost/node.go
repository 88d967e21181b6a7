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
// with postage, threshold and minimum in force (knapsack.go, cover.go):
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
