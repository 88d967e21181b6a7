package cost

import (
	"cmp"
	"math/bits"
	"slices"
)

// When it is settled which suppliers are used and who sends free, most parts are bought in one way, or the order costs more
// than what matters: a way may be dearer than the part's best at the multipliers by no more than the room between bound and
// target. What is left is the core. It is looked through for the cheapest order from little above the bound upwards: the
// lower the target, the smaller the core.

// core finds the cheapest order under a settlement, if it matters.
func (s *search) core(at settlement) {
	k := &knot{settlement: at, target: never}
	s.fill(k)
	s.ascend(k, coreSteps)
	s.relaxed(k)
	for more := int64(1); ; more += (more + 1) / 2 {
		last := s.matters(k.set)
		if k.bound > last*unity {
			return
		}
		target := min(k.bound/unity+more, last)
		c := *k
		c.open, c.target = slices.Clone(k.open), target
		s.gather(&c, target*unity-k.bound)
		s.search(&c, target, partSteps)
		if target == last || s.matters(k.set) < target || !s.proven {
			return
		}
	}
}

// The steps in which bounds are raised in the core.
const (
	coreSteps = 100
	partSteps = 60
)

// gather keeps the ways that are within the room, and adds the shares that are: only they may reach a sum more cheaply than
// the options do.
func (s *search) gather(k *knot, room int64) {
	for p := range k.open {
		o := &k.open[p]
		limit := o.price + room
		o.ways = slices.DeleteFunc(slices.Clone(o.ways), func(w way) bool { return w.price(&k.lambda) > limit })
		wares := s.wares[o.part]
		for n := range wares.sharings {
			sh := &wares.sharings[n]
			a, b := wares.ladders[sh.a].supplier, wares.ladders[sh.b].supplier
			if k.set>>a&1 == 0 || k.set>>b&1 == 0 {
				continue
			}
			s.work += wares.need
			fa, fb := unity-k.lambda[a], unity-k.lambda[b]
			wares.divided(*sh, func(share, ga, gb int64) {
				if ga*fa+gb*fb <= limit {
					o.ways = append(o.ways, way{a: int32(a), b: int32(b), ga: ga, gb: gb, shared: sh, share: share})
				}
			})
		}
	}
	s.dominate(k)
}

// dominate drops ways that another of the same part beats in everything that still matters: it costs no more and brings no less
// to each supplier whose sum is not reached in any case, or that might not be used.
func (s *search) dominate(k *knot) {
	matter := s.uncertain(k)
	for p := range k.open {
		o := &k.open[p]
		if len(o.ways) == 1 {
			continue
		}
		slices.SortStableFunc(o.ways, func(a, b way) int { return cmp.Compare(a.ga+a.gb, b.ga+b.gb) })
		kept := o.ways[:0:0]
		for n := range o.ways {
			w := &o.ways[n]
			if !slices.ContainsFunc(kept, func(v way) bool { return v.brings(w, matter) }) {
				kept = append(kept, *w)
			}
		}
		o.ways = kept
	}
}

// uncertain are the suppliers whose sum what is left does not reach in any case, and those that it may leave out.
func (s *search) uncertain(k *knot) uint64 {
	least, used := k.goods, k.used
	for p := range k.open {
		ways := k.open[p].ways
		every := k.set
		for n := range ways {
			every &= ways[n].uses()
		}
		used |= every
		for ; every != 0; every &= every - 1 {
			i := int32(bits.TrailingZeros64(every))
			lowest := ways[0].from(i)
			for n := range ways {
				lowest = min(lowest, ways[n].from(i))
			}
			least[i] += lowest
		}
	}
	matter := k.set &^ used
	for m := k.set; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		if _, reach := s.sums(k, i); least[i] < reach {
			matter |= 1 << i
		}
	}
	return matter
}

// brings reports whether a way brings the suppliers in a set no less than another.
func (w *way) brings(other *way, matter uint64) bool {
	for m := other.uses() & matter; m != 0; m &= m - 1 {
		i := int32(bits.TrailingZeros64(m))
		if w.uses()>>i&1 == 0 || w.from(i) < other.from(i) {
			return false
		}
	}
	return true
}

// search finds the cheapest order in a knot up to a target.
func (s *search) search(k *knot, target int64, steps int) {
	if s.exhausted() {
		return
	}
	s.ascend(k, steps)
	target = min(target, s.matters(k.set))
	room := target*unity - k.bound
	if room < 0 || !s.thin(k, room) {
		return
	}
	s.relaxed(k)
	if i := k.unused(); i >= 0 {
		s.bringIn(k, target, i)
		return
	}
	if len(k.open) == 0 {
		return
	}
	s.finishOrDivide(k, target)
}

// without copies a knot but for one of its open parts.
func (k *knot) without(p int) *knot {
	c := *k
	c.open = make([]pool, 0, len(k.open))
	for n, o := range k.open {
		if n != p {
			o.ways = slices.Clone(o.ways)
			c.open = append(c.open, o)
		}
	}
	return &c
}

// decideWay buys a part in one way.
func (s *search) decideWay(k *knot, part int, w way) {
	s.taken[part] = w
	k.cost += w.ga + w.gb
	k.used |= w.uses()
	k.goods[w.a] += w.ga
	if w.b >= 0 {
		k.goods[w.b] += w.gb
	}
}

// thin drops what is outside the room, and decides the parts of which one way is left. It returns false when a threshold is
// out of reach or a supplier cannot be used.
func (s *search) thin(k *knot, room int64) bool {
	bound, _ := s.relaxed(k)
	room += k.bound - bound // none of it, but for the rounding of λ
	for p := range k.open {
		o := &k.open[p]
		o.ways = slices.DeleteFunc(o.ways, func(w way) bool { return w.price(&k.lambda)-o.price > room })
	}
	s.dominate(k)
	left := k.open[:0:0]
	can := k.used
	for _, o := range k.open {
		for n := range o.ways {
			can |= o.ways[n].uses()
		}
		if len(o.ways) == 1 {
			s.decideWay(k, o.part, o.ways[0])
			continue
		}
		left = append(left, o)
	}
	k.open = left
	most := k.goods
	for _, o := range left {
		addMost(&most, o.ways)
	}
	for m := k.set; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		if k.modes[i] == free && most[i] < s.suppliers[i].free {
			return false
		}
	}
	return can == k.set
}

// unused is a supplier from which the relaxed problem buys nothing, or −1.
func (k *knot) unused() int {
	used := k.used
	for _, o := range k.open {
		used |= o.ways[o.best].uses()
	}
	if k.set == used {
		return -1
	}
	return bits.TrailingZeros64(k.set &^ used)
}

// bringIn divides a knot over what is bought from a supplier: the way that costs least first, each without those before.
func (s *search) bringIn(k *knot, target int64, supplier int) {
	type use struct {
		part  int
		way   way
		extra int64
	}
	var uses []use
	for p, o := range k.open {
		for _, w := range o.ways {
			if w.uses()>>supplier&1 == 1 {
				uses = append(uses, use{p, w, w.price(&k.lambda) - o.price})
			}
		}
	}
	slices.SortStableFunc(uses, func(a, b use) int { return cmp.Compare(a.extra, b.extra) })
	for n, u := range uses {
		if u.extra > min(target, s.matters(k.set))*unity-k.bound {
			return
		}
		c := k.without(u.part)
		for p := range c.open {
			o := &c.open[p]
			o.ways = slices.DeleteFunc(o.ways, func(w way) bool {
				return slices.ContainsFunc(uses[:n], func(before use) bool { return k.open[before.part].part == o.part && before.way == w })
			})
		}
		if slices.ContainsFunc(c.open, func(o pool) bool { return len(o.ways) == 0 }) {
			return
		}
		s.decideWay(c, k.open[u.part].part, u.way)
		s.search(c, target, partSteps)
	}
}
