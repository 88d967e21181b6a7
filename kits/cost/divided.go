package cost

import (
	"math"
	"math/bits"
)

// mostSteps is how many steps a joint may look at before its knot is divided instead: as many as take a few milliseconds.
const mostSteps = 60_000

// finishOrDivide ends a knot where the rows can be joined, and divides it in two otherwise.
func (s *search) finishOrDivide(k *knot, target int64) {
	var b basket
	k.bound, b = s.relaxed(k)
	room := min(target, s.matters(k.set))*unity - k.bound
	rows, turns := s.rows(k, &b)
	least, sum, chosen := s.solve(rows, len(k.open), room)
	if sum > room {
		return
	}
	j := s.join(k, rows, turns, least, sum, room)
	done := j.walk(0, 0)
	s.work += int64(s.steps-j.budget) * stepWork
	switch {
	case done && j.unused == 0:
	case done:
		s.bringIn(k, target, bits.TrailingZeros64(j.unused))
	default:
		p := k.wavering()
		if k.depth%3 == 2 || p < 0 {
			p = disputed(turns, chosen)
		}
		k.depth++
		s.narrow(k, rows, least, sum, room)
		for _, half := range k.halves(p) {
			s.search(half, target, partSteps)
		}
	}
}

// stepWork is what looking at a step takes, in the unit of work.
const stepWork = 16

// narrow drops ways that do not fit into the room beside what the rows that they leave alone ask.
func (s *search) narrow(k *knot, rows []row, least []int64, sum, room int64) {
	var is uint64
	var asks [64]int64
	for n, r := range rows {
		is |= 1 << r.supplier
		asks[r.supplier] = least[n]
	}
	for p := range k.open {
		o := &k.open[p]
		best := o.ways[o.best]
		fits := func(w *way) bool {
			others := sum
			for m := touches(&best, w, is); m != 0; m &= m - 1 {
				others -= asks[bits.TrailingZeros64(m)]
			}
			return w.price(&k.lambda)-o.price+others <= room
		}
		kept := []way{best}
		for n := range o.ways {
			if n != o.best && fits(&o.ways[n]) {
				kept = append(kept, o.ways[n])
			}
		}
		o.ways, o.best = kept, 0
	}
}

// A knot is divided over the part about which the relaxed problem wavers most, by what the goods that it brings are worth; −1 when it does not waver. Where
// that part is in one row only, the row has it solved already: so every third time it is a part on which rows do not agree instead. Either
// choice alone gets stuck on some orders.
func (k *knot) wavering() int {
	part, most := -1, 0.0
	for p := range k.open {
		o := &k.open[p]
		worth := func(w *way) float64 { return float64((w.ga+w.gb)*unity - w.price(&k.lambda)) }
		if _, spread := o.spread(worth); spread > most {
			part, most = p, spread
		}
	}
	return part
}

// disputed is the part with the dearest step that some row chooses and another, which it changes too, does not; the first part when there is none.
func disputed(turns []turn, chosen [][]int) int {
	part, most := turns[0].pool, int64(-1)
	for _, t := range turns {
		for _, st := range t.steps {
			touched, by := 0, 0
			for _, g := range st.goods {
				if g != 0 {
					touched++
				}
			}
			for _, w := range chosen[t.pool] {
				if w == st.way {
					by++
				}
			}
			if 0 < by && by < touched && st.price > most {
				part, most = t.pool, st.price
			}
		}
	}
	return part
}

// spread is how far the ways that the relaxed problem takes are apart in something, and their mean.
func (o *pool) spread(of func(*way) float64) (mean, spread float64) {
	weight := 0.0
	for n := range o.ways {
		weight += o.ways[n].taken
	}
	if weight == 0 {
		return 0, 0
	}
	for n := range o.ways {
		mean += o.ways[n].taken / weight * of(&o.ways[n])
	}
	for n := range o.ways {
		spread += o.ways[n].taken / weight * math.Abs(of(&o.ways[n])-mean)
	}
	return mean, spread
}

// halves divides a knot by the goods that a part brings a supplier, at the mean of what the relaxed problem takes: of the suppliers, the
// one where they are worth most. Where it always takes the same, it is divided into that way and all others. The half comes first in which the
// relaxed problem's way is.
func (k *knot) halves(p int) []*knot {
	o := &k.open[p]
	best := &o.ways[o.best]
	with := func(w *way) bool { return w == best }
	var suppliers uint64
	for n := range o.ways {
		suppliers |= o.ways[n].uses()
	}
	most := 0.0
	for m := suppliers; m != 0; m &= m - 1 {
		i := int32(bits.TrailingZeros64(m))
		mean, spread := o.spread(func(w *way) float64 { return float64(w.from(i)) })
		below := func(w *way) bool { return (float64(w.from(i)) <= mean) == (float64(best.from(i)) <= mean) }
		if spread *= 1 + float64(k.lambda[i]); spread > most && o.parted(below) {
			most, with = spread, below
		}
	}
	in, out := k.without(p), k.without(p)
	a, b := pool{part: o.part}, pool{part: o.part}
	for n := range o.ways {
		if with(&o.ways[n]) {
			a.ways = append(a.ways, o.ways[n])
		} else {
			b.ways = append(b.ways, o.ways[n])
		}
	}
	in.open = append(in.open, a)
	if len(b.ways) == 0 {
		return []*knot{in} // narrow has left one way
	}
	out.open = append(out.open, b)
	return []*knot{in, out}
}

// parted reports whether something holds of some ways and not of others.
func (o *pool) parted(holds func(*way) bool) bool {
	n := 0
	for i := range o.ways {
		if holds(&o.ways[i]) {
			n++
		}
	}
	return 0 < n && n < len(o.ways)
}
