package cost

import (
	"math"
	"slices"
)

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
