package cost

import "math/bits"

// In the lower storey the suppliers are settled: each is used. What is open is who sends free, and what is bought where. The
// sums to be reached, thresholds of free postage and minimums, are priced instead of enforced (Lagrangian relaxation): λ from
// 0 to 1 is what a unit of goods from a supplier is worth towards its sum. Then each part is bought by itself:
//
//	L(λ) = Σ_suppliers (postage + λ·sum) + Σ_parts min over options of Σ (1−λ)·goods
//
// L is never above the cost of an order from these suppliers: with goods short of the minimum, (1−λ)·goods + λ·minimum is at
// most goods and make-up, and with the sum reached it is at most the goods. All of this is in integers: minor units times
// unity, and λ a fraction of it. As costs are whole, a bound that is above the last cost that matters, if only by a fraction,
// ends the search.
const unity = 1 << 16

// A mode is what is decided about a supplier's postage.
type mode uint8

const (
	open mode = iota
	paid      // postage is paid, wherever the sum comes to lie
	free      // the sum reaches the threshold
)

// A way is one to buy a part: an option, or a share that becomes an option when it is recorded.
type way struct {
	ga, gb int64 // goods
	a, b   int32 // suppliers; b is −1 for one alone
	option *option
	shared *sharing
	share  int64
	taken  float64 // how often the relaxed problem took it, the last times more
}

// price is what the relaxed problem pays for it.
func (w *way) price(lambda *[64]int64) int64 {
	price := w.ga * (unity - lambda[w.a])
	if w.b >= 0 {
		price += w.gb * (unity - lambda[w.b])
	}
	return price
}

func (w *way) uses() uint64 {
	if w.b < 0 {
		return 1 << w.a
	}
	return 1<<w.a | 1<<w.b
}

// A pool is what is left of the ways to buy a part.
type pool struct {
	part  int
	ways  []way
	best  int // that of the relaxed problem
	price int64
}

// A settlement is what is decided about an order from one set of suppliers.
type settlement struct {
	set    uint64
	modes  [64]mode
	lambda [64]int64
	bound  int64
}

// A knot is a settlement with the parts of which it is open how they are bought, and the sums of the others.
type knot struct {
	settlement
	open   []pool
	cost   int64
	goods  [64]int64
	used   uint64
	depth  int
	target int64 // the last cost that is looked for
}

// settle finds the settlements of a set of suppliers under which an order may matter, and orders on the way.
func (s *search) settle(set uint64) {
	k := &knot{settlement: settlement{set: set, lambda: s.guide}, target: never}
	most, ok := s.fill(k)
	if !ok || s.seen[set] {
		return
	}
	s.seen[set] = true
	for m := set; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		if c := s.suppliers[i]; !c.mayBeFree() || most[i] < c.free {
			k.modes[i] = paid
		}
	}
	s.decide(k, setSteps)
	s.guide = k.lambda
}

// fill puts all parts into a knot, with the options from its suppliers. It returns the most that each may sell.
func (s *search) fill(k *knot) (most [64]int64, ok bool) {
	k.open = make([]pool, 0, len(s.options))
	for p, part := range s.options {
		ways := make([]way, 0, len(part))
		for n := range part {
			o := &part[n]
			if o.mask&^k.set == 0 {
				ways = append(ways, way{ga: o.at[0].goods, gb: o.at[1].goods, a: int32(o.at[0].supplier), b: int32(o.at[1].supplier), option: o})
			}
		}
		if len(ways) == 0 {
			return most, false
		}
		addMost(&most, ways)
		k.open = append(k.open, pool{part: p, ways: ways})
	}
	return most, true
}

// addMost adds to each supplier the most that a part may bring it.
func addMost(most *[64]int64, ways []way) {
	for n := range ways {
		w := &ways[n]
		for m := w.uses(); m != 0; m &= m - 1 {
			i := int32(bits.TrailingZeros64(m))
			more := w.from(i)
			for before := range ways[:n] { // only what is above the part's most so far
				more = min(more, w.from(i)-ways[before].from(i))
			}
			most[i] += max(more, 0)
		}
	}
}

func (w *way) from(supplier int32) int64 {
	switch supplier {
	case w.a:
		return w.ga
	case w.b:
		return w.gb
	}
	return 0
}

// The steps in which the bounds of settlements are raised: more for a new set than for another mode of one supplier.
const (
	setSteps  = 60
	modeSteps = 25
)

// decide settles who sends free, the supplier first whose goods are nearest to its threshold. A settlement that may matter
// is kept for later, when better orders are known.
func (s *search) decide(k *knot, steps int) {
	if s.exhausted() {
		return
	}
	goods := s.ascend(k, steps)
	if k.bound > s.matters(k.set)*unity {
		return
	}
	nearest, far := -1, 0.0
	for m := k.set; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		if k.modes[i] != open {
			continue
		}
		d := float64(goods[i]) / float64(s.suppliers[i].free)
		if d = min(d, 1/d); nearest < 0 || d > far {
			nearest, far = i, d
		}
	}
	if nearest < 0 {
		s.settled = append(s.settled, k.settlement)
		return
	}
	pays, reaches := *k, *k
	pays.modes[nearest], reaches.modes[nearest] = paid, free
	children := []*knot{&reaches, &pays}
	if goods[nearest] < s.suppliers[nearest].free {
		children = []*knot{&pays, &reaches}
	}
	for _, c := range children {
		s.decide(c, modeSteps)
	}
}

// sums are what a supplier asks in any case, and the sum that λ is about. Before it is decided whether it sends free, that is the
// lesser of both.
func (s *search) sums(k *knot, i int) (asks, reach int64) {
	c := s.suppliers[i]
	if k.modes[i] == free || k.modes[i] == open && k.lambda[i]*(c.free-c.minimum) < c.postage*unity {
		return 0, c.free
	}
	return c.certain(), c.minimum
}

// A basket is what is bought, without the suppliers' charges.
type basket struct {
	cost  int64
	goods [64]int64
	used  uint64
}

// relaxed works out L at the multipliers of a knot.
func (s *search) relaxed(k *knot) (bound int64, b basket) {
	b = basket{k.cost, k.goods, k.used}
	for m := k.set; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		asks, reach := s.sums(k, i)
		bound += asks*unity + k.lambda[i]*reach + k.goods[i]*(unity-k.lambda[i])
	}
	for p := range k.open {
		o := &k.open[p]
		o.price = never
		for n := range o.ways {
			if price := o.ways[n].price(&k.lambda); price < o.price {
				o.best, o.price = n, price
			}
		}
		bound += o.price
		s.work += int64(len(o.ways))
		b.add(&o.ways[o.best])
	}
	return bound, b
}

func (b *basket) add(w *way) {
	b.cost += w.ga + w.gb
	b.used |= w.uses()
	b.goods[w.a] += w.ga
	if w.b >= 0 {
		b.goods[w.b] += w.gb
	}
}

// ascend seeks the multipliers with the greatest bound, in steps of Polyak's length along the subgradient, and records the
// orders that it comes across. It leaves the knot with the best, and returns the goods that the relaxed problem buys there.
func (s *search) ascend(k *knot, steps int) (goods [64]int64) {
	k.bound = -never
	for p := range k.open {
		for n := range k.open[p].ways {
			k.open[p].ways[n].taken = 0
		}
	}
	at, weight := k.lambda, 1.0
	aim, stale := float64(min(k.target, s.matters(k.set))*unity), 0
	for range steps {
		bound, b := s.relaxed(k)
		if bound > k.bound {
			if k.bound == -never {
				aim -= float64(bound)
			}
			k.bound, at, goods, stale = bound, k.lambda, b.goods, 0
		} else if stale++; stale >= 4 {
			aim, stale = aim/3, 0
			k.lambda = at
			continue
		}
		s.offer(k, b)
		if k.bound > min(k.target, s.matters(k.set))*unity || aim < unity/16 {
			break
		}
		weight *= 1.25
		for p := range k.open {
			o := &k.open[p]
			o.ways[o.best].taken += weight
		}
		if !s.step(k, &b, float64(k.bound-bound)+aim) {
			break
		}
	}
	k.lambda = at
	return goods
}

// step moves the multipliers along the subgradient; false when there is nowhere to go.
func (s *search) step(k *knot, b *basket, length float64) bool {
	var slope [64]float64
	norm := 0.0
	for m := k.set; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		_, reach := s.sums(k, i)
		g := float64(reach - b.goods[i])
		if k.lambda[i] == 0 && g < 0 || k.lambda[i] == unity && g > 0 {
			continue
		}
		slope[i] = g
		norm += g * g
	}
	if norm == 0 {
		return false
	}
	for m := k.set; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		k.lambda[i] = min(max(k.lambda[i]+int64(length*slope[i]/norm), 0), unity)
	}
	return true
}

// offer records the order that the relaxed problem buys, when it is better than what is known.
func (s *search) offer(k *knot, b basket) {
	for m := b.used; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		b.cost += s.suppliers[i].of(b.goods[i])
	}
	if b.cost > s.matters(b.used) {
		return
	}
	for p := range k.open {
		o := &k.open[p]
		s.taken[o.part] = o.ways[o.best]
	}
	s.recordTaken()
}

// recordTaken records the ways in which all parts are bought now.
func (s *search) recordTaken() {
	choice := make([]*option, len(s.taken))
	for p := range s.taken {
		w := &s.taken[p]
		if w.option == nil {
			o := s.wares[p].divide(*w.shared, w.share)
			w.option = &o
		}
		choice[p] = w.option
	}
	s.record(choice)
}
