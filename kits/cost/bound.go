package cost

import (
	"math"
	"slices"
)

// While it is open which suppliers are used, three things that couple the suppliers are priced instead of enforced
// (Lagrangian relaxation): u is what a part earns when it is bought; z shifts the cost of an option of two suppliers between them; and λ is
// what a unit of goods is worth towards a supplier's threshold or minimum. Then every supplier is a small problem of its own, which
// parts to sell at what they earn, and whether to pay postage:
//
//	D(u, z, λ) = Σ_parts u + Σ_suppliers min over paid, free of (charge + λ·sum to be reached + Σ_parts min(0, (1−λ)·goods − θ·u ± z))
//
// A supplier about which nothing is decided may also sell nothing for nothing. An order that is bought in full fulfils the
// relaxed problem at no more than its own cost, so D is never above the cost of any order, whatever the prices. The u and z
// that make D greatest are sought by subgradient steps (Held, Wolfe, Crowder, Mathematical Programming 6 (1974) 62), the λ by
// halving an interval, supplier by supplier.

// An entry is what an option buys from one supplier. An option of two suppliers has two entries.
type entry struct {
	part, id int // id numbers the options of all parts
	goods    float64
	theta    float64 // share of the option's cost
	sign     float64 // +1 in the first of two entries, −1 in the second, 0 in an only one
	fewest   float64 // the least share of these goods that a way to share the part may buy here
}

// stall is what the suppliers sell: their entries, ordered by part.
func (s *search) stalls() [][]entry {
	stalls := make([][]entry, len(s.suppliers))
	for p, part := range s.options {
		var mixed uint64
		for _, o := range part {
			if o.at[1].supplier >= 0 {
				mixed |= o.mask
			}
		}
		for k := range part {
			o := &part[k]
			for i, at := range o.at {
				if at.supplier < 0 {
					continue
				}
				e := entry{part: p, id: len(s.flat), goods: float64(at.goods), theta: 1, fewest: s.wares[p].fewest(at.supplier)}
				if e.fewest < 1 && mixed>>at.supplier&1 == 1 {
					e.fewest = 0
				}
				if o.at[1].supplier >= 0 {
					e.sign, e.theta = float64(1-2*i), 0.5
					if o.cost > 0 {
						e.theta = e.goods / float64(o.cost)
					}
				}
				stalls[at.supplier] = append(stalls[at.supplier], e)
			}
			s.flat = append(s.flat, o.mask)
		}
	}
	return stalls
}

// fewest is the least share of all goods that a way to share the part buys from a supplier.
func (w *wares) fewest(supplier int) float64 {
	for _, sh := range w.sharings {
		for _, i := range []int{sh.a, sh.b} {
			if l := &w.ladders[i]; l.supplier == supplier && l.all > 0 {
				return float64(w.rungs(i)[1].cost) / float64(l.all)
			} else if l.supplier == supplier {
				return 0
			}
		}
	}
	return 1
}

// A relaxation is D at one node, with room to work.
type relaxation struct {
	*node
	entries [][]entry // by supplier
	w       [][]float64
	bought  []float64 // of each option: how many of its entries, the second counted apart
	twin    []float64
	slope   []float64 // of D in u
}

func (n *node) relax() *relaxation {
	s := n.s
	r := &relaxation{node: n, entries: make([][]entry, len(n.state)), w: make([][]float64, len(n.state)), bought: make([]float64, len(s.flat)), twin: make([]float64, len(s.flat)), slope: make([]float64, len(n.u))}
	var out uint64
	for i, st := range n.state {
		if st == outside {
			out |= 1 << i
		}
	}
	for i := range n.state {
		for _, e := range s.bySupplier[i] {
			if s.flat[e.id]&out == 0 {
				r.entries[i] = append(r.entries[i], e)
			}
		}
		r.w[i] = make([]float64, len(r.entries[i]))
	}
	return r
}

// raise seeks prices with a great bound, with Polyak's steps towards what would matter, and stops once that is reached.
func (n *node) raise(steps int) {
	r := n.relax()
	bestU, bestZ := slices.Clone(n.u), slices.Clone(n.z)
	n.bound = math.Inf(-1)
	theta, stale := 1.0, 0
	for range steps {
		target := n.s.below()
		d := r.evaluate()
		if d > n.bound {
			if d > n.bound+1e-4*math.Abs(target-n.bound) {
				stale = 0
			}
			n.bound = d
			copy(bestU, n.u)
			copy(bestZ, n.z)
		} else if stale++; stale >= 5 {
			theta, stale = theta/1.5, 0
		}
		norm := r.norm()
		if n.bound > target || theta < 0.02 || norm == 0 {
			break
		}
		gap := target + 1 - d
		if gap > math.Abs(d) { // no order to aim at is known yet
			gap = math.Abs(d)/20 + 1
		}
		length := theta * gap / float64(n.s.weight) / norm
		for p := range n.u {
			n.u[p] += length * r.slope[p]
		}
		for id := range n.z { // that of an option of one supplier is nowhere used
			n.z[id] += length * (r.bought[id] - r.twin[id])
		}
	}
	copy(n.u, bestU)
	copy(n.z, bestZ)
}

// evaluate computes D, what is bought, and the slope in u.
func (r *relaxation) evaluate() float64 {
	clear(r.bought)
	clear(r.twin)
	sum := 0.0
	for p, u := range r.u {
		sum += u
		r.slope[p] = 1
	}
	parcel := 1 / float64(r.s.weight)
	for i, entries := range r.entries {
		if r.state[i] == outside {
			continue
		}
		w := r.w[i]
		for k := range entries {
			e := &entries[k]
			w[k] = e.theta*r.u[e.part] - e.sign*r.z[e.id]
		}
		value, lambda := r.sell(i)
		value += parcel
		sold := 0.0
		if r.state[i] == inside || value < 0 {
			sum += value
			sold = 1
			r.buy(i, lambda)
		}
		r.used[i] += (sold - r.used[i]) / 8
	}
	return sum * float64(r.s.weight)
}

// buy marks what a supplier sells at λ.
func (r *relaxation) buy(i int, lambda float64) {
	entries, w := r.entries[i], r.w[i]
	for k := 0; k < len(entries); {
		part, best, lowest := entries[k].part, -1, 0.0
		for ; k < len(entries) && entries[k].part == part; k++ {
			if price := (1-lambda)*entries[k].goods - w[k]; price < lowest {
				best, lowest = k, price
			}
		}
		if best < 0 {
			continue
		}
		e := &entries[best]
		r.slope[part] -= e.theta
		if e.sign < 0 {
			r.twin[e.id] = 1
		} else {
			r.bought[e.id] = 1
		}
	}
}

// norm is the squared length of the slope.
func (r *relaxation) norm() float64 {
	norm := 0.0
	for _, g := range r.slope {
		norm += g * g
	}
	for id, mask := range r.s.flat {
		if mask&(mask-1) != 0 {
			norm += (r.bought[id] - r.twin[id]) * (r.bought[id] - r.twin[id])
		}
	}
	return norm
}

// sell solves one supplier's part of the relaxed problem.
func (r *relaxation) sell(i int) (value, lambda float64) {
	c := r.s.suppliers[i]
	value, lambda = r.reach(i, 0, float64(c.minimum))
	value += float64(c.certain())
	if !c.mayBeFree() {
		return value, lambda
	}
	if v, l := r.reach(i, 1, float64(c.free)); v < value {
		return v, l
	}
	return value, lambda
}

// reach is the greatest bound on sales of at least a sum, over λ; what a minimum lacks may be paid, so λ goes up to 1.
func (r *relaxation) reach(i, mode int, sum float64) (best, at float64) {
	best, goods := r.sales(i, 0)
	if goods >= sum {
		return best, 0
	}
	lo, hi := 0.0, 1.0
	try := r.lambda[i][mode]
	if try <= 0 || try >= 1 {
		try = 0.5
	}
	for step := 1.0 / 64; hi-lo > 1.0/1024; step *= 4 {
		value, goods := r.sales(i, try)
		value += try * sum
		if value > best {
			best, at = value, try
		}
		if goods < sum {
			lo = try
			try = min(lo+step, (lo+hi)/2)
		} else {
			hi = try
			try = max(hi-step, (lo+hi)/2)
		}
	}
	r.lambda[i][mode] = at
	return best, at
}

// sales are what a supplier sells at λ: of each part the entry with the lowest price below zero. One that must be used sells
// something, even at a loss, if only the smallest share of a part.
func (r *relaxation) sales(i int, lambda float64) (value, goods float64) {
	entries, w := r.entries[i], r.w[i]
	r.s.work += int64(len(entries))
	last, lowest, its, least := -1, 0.0, 0.0, math.Inf(1)
	for k := range entries {
		e := &entries[k]
		if e.part != last {
			value, goods = value+lowest, goods+its
			last, lowest, its = e.part, 0, 0
		}
		price := (1-lambda)*e.goods - w[k]
		if price < lowest {
			lowest, its = price, e.goods
		}
		least = min(least, price*e.fewest)
	}
	value, goods = value+lowest, goods+its
	if value == 0 && r.state[i] == inside && least > 0 && !math.IsInf(least, 1) {
		return least, goods
	}
	return value, goods
}
