package cost

import (
	"math"
	"slices"
)

// A node of the upper storey decides of some suppliers whether they are used.
type node struct {
	s      *search
	state  []state   // of each supplier
	u, z   []float64 // prices, see bound.go
	lambda [][2]float64
	bound  float64   // weighted
	used   []float64 // how often the relaxed suppliers sold
}

// A state is whether a supplier is part of the order.
type state uint8

const (
	undecided state = iota
	inside
	outside
)

// The steps in which bounds are raised: many at the root, few where the prices come from a parent.
const (
	rootSteps  = 200
	childSteps = 25
)

func (s *search) root() *node {
	n := &node{s: s, state: make([]state, len(s.suppliers)), u: make([]float64, len(s.options)), z: make([]float64, len(s.flat)),
		lambda: make([][2]float64, len(s.suppliers)), used: make([]float64, len(s.suppliers))}
	for p, part := range s.options {
		n.u[p] = float64(part[0].cost)
	}
	return n
}

func (n *node) child() *node {
	c := *n
	c.state, c.u, c.z, c.lambda, c.used = slices.Clone(n.state), slices.Clone(n.u), slices.Clone(n.z), slices.Clone(n.lambda), slices.Clone(n.used)
	return &c
}

// grow bounds a node and divides it over the supplier about which the relaxed problem wavers most, until nothing in it can
// matter.
func (s *search) grow(n *node, steps int) {
	if s.exhausted() {
		return
	}
	if !n.conclude() {
		return
	}
	set, decided := n.inside()
	if decided {
		s.settle(set)
		return
	}
	if n.raise(steps); n.bound > s.below() {
		return
	}
	i := n.wavering()
	in, out := n.child(), n.child()
	in.state[i], out.state[i] = inside, outside
	children := []*node{in, out}
	if n.used[i] < 0.5 {
		children = []*node{out, in}
	}
	for _, c := range children {
		s.grow(c, childSteps)
	}
}

// below is the greatest cost that would still matter while it is open which suppliers are used. Half a unit keeps the rounding of
// a bound from cutting off the optimum.
func (s *search) below() float64 {
	if s.onlyFirst {
		return float64(s.first.cost) - 0.5
	}
	return float64(s.second.cost) - 0.5
}

// inside are the suppliers that must be used; decided says that they are all that may be.
func (n *node) inside() (set uint64, decided bool) {
	decided = true
	for i, st := range n.state {
		switch st {
		case inside:
			set |= 1 << i
		case undecided:
			decided = false
		}
	}
	return set, decided
}

// conclude draws the plain conclusions: a supplier that some part cannot do without is in, one that sells nothing that is
// left is out. It returns false when a part cannot be bought. Suppliers that share a part each sell it alone too.
func (n *node) conclude() bool {
	var out, offered uint64
	for i, st := range n.state {
		if st == outside {
			out |= 1 << i
		}
	}
	for p, part := range n.s.options {
		every, after := ^uint64(0), math.Inf(1)
		for k := range part {
			o := &part[k]
			if o.mask&out != 0 {
				continue
			}
			after = min(after, float64(o.cost))
			every &= o.mask
			offered |= o.mask
		}
		if math.IsInf(after, 1) {
			return false
		}
		n.u[p] = max(n.u[p], after)
		for i := range n.state {
			if every>>i&1 == 1 {
				n.state[i] = inside
			}
		}
	}
	for i, st := range n.state {
		if offered>>i&1 == 0 {
			if st == inside {
				return false
			}
			n.state[i] = outside
		}
	}
	return true
}

// wavering is the undecided supplier that is neither used always nor never.
func (n *node) wavering() int {
	best, most := -1, -1.0
	for i, st := range n.state {
		if w := n.used[i] * (1 - n.used[i]); st == undecided && w > most {
			best, most = i, w
		}
	}
	return best
}
