package cost

import (
	"cmp"
	"math/bits"
	"slices"
)

// A basket is a choice with the sums that it makes at each supplier.
type basket struct {
	s      *search
	choice []int
	alive  []bool
	keep   uint64
	goods  [64]int64
	uses   [64]int
}

func (b *basket) add(o *option, sign int) {
	for _, at := range o.at {
		if at.supplier >= 0 {
			b.goods[at.supplier] += int64(sign) * at.goods
			b.uses[at.supplier] += sign
		}
	}
}

func (b *basket) change(part, to int) {
	b.add(&b.s.options[part][b.choice[part]], -1)
	b.add(&b.s.options[part][to], 1)
	b.choice[part] = to
}

// charges of the suppliers in mask; a supplier that must be kept and is not used costs more than any order.
func (b *basket) charges(mask uint64) int64 {
	var sum int64
	for ; mask != 0; mask &= mask - 1 {
		switch i := bits.TrailingZeros64(mask); {
		case b.uses[i] > 0:
			sum += b.s.suppliers[i].of(b.goods[i])*b.s.weight + 1
		case b.keep>>i&1 == 1:
			return never
		}
	}
	return sum
}

// gain is by how much the choice becomes cheaper, weighted, when a part changes to another option.
func (b *basket) gain(part, to int) int64 {
	from := b.choice[part]
	if to == from || !b.alive[b.s.byPart[part][to]] {
		return 0
	}
	old, next := &b.s.options[part][from], &b.s.options[part][to]
	touched := old.mask | next.mask
	before := old.cost*b.s.weight + b.charges(touched)
	b.add(old, -1)
	b.add(next, 1)
	after := next.cost*b.s.weight + b.charges(touched)
	b.add(next, -1)
	b.add(old, 1)
	return before - after
}

// bring moves the part that costs least to move to a supplier that is not used yet; false when none can.
func (b *basket) bring(supplier int) bool {
	part, to, best := -1, 0, int64(-never/2)
	for p, options := range b.s.options {
		for n := range options {
			if options[n].mask>>supplier&1 == 0 || !b.alive[b.s.byPart[p][n]] {
				continue
			}
			b.keep &^= 1 << supplier // not used before, so nothing is lost
			if gain := b.gain(p, n); gain > best {
				part, to, best = p, n, gain
			}
			b.keep |= 1 << supplier
		}
	}
	if part < 0 {
		return false
	}
	b.change(part, to)
	return true
}

// improve changes one part at a time as long as that pays, then tries for each supplier to reach its threshold and to do
// without it, and begins again when that paid.
func (b *basket) improve() {
	for improved := true; improved; {
		b.single()
		improved = false
		for i := range b.s.suppliers {
			if b.uses[i] > 0 {
				improved = b.attempt(func() bool { return b.fill(i) }) || improved
				improved = b.attempt(func() bool { return b.drain(i) }) || improved
			}
		}
	}
}

func (b *basket) single() {
	for improved := true; improved; {
		improved = false
		for p, part := range b.s.options {
			for n := range part {
				if b.gain(p, n) > 0 {
					b.change(p, n)
					improved = true
				}
			}
			b.s.work += int64(len(part))
		}
	}
}

// attempt makes a move of many parts and takes it back when it does not pay.
func (b *basket) attempt(move func() bool) bool {
	before, _ := b.s.total(b.choice)
	was := *b
	was.choice = slices.Clone(b.choice)
	b.s.work += int64(len(b.choice))
	if move() {
		if after, mask := b.s.total(b.choice); after < before && b.keep&^mask == 0 {
			return true
		}
	}
	*b = was
	return false
}

// fill moves parts to a supplier until its goods reach the threshold, those first that cost least for the goods they bring.
func (b *basket) fill(supplier int) bool {
	c := b.s.suppliers[supplier]
	if !c.mayBeFree() || b.goods[supplier] >= c.free {
		return false
	}
	type move struct {
		part, to int
		dearer   float64 // for each unit of goods
	}
	var moves []move
	for p, options := range b.s.options {
		now := &options[b.choice[p]]
		for n := range options {
			more := options[n].from(supplier) - now.from(supplier)
			if more > 0 && b.alive[b.s.byPart[p][n]] {
				moves = append(moves, move{p, n, float64(options[n].cost-now.cost) / float64(more)})
			}
		}
	}
	slices.SortStableFunc(moves, func(a, b move) int { return cmp.Compare(a.dearer, b.dearer) })
	moved := map[int]bool{}
	for _, m := range moves {
		if moved[m.part] {
			continue
		}
		moved[m.part] = true
		b.change(m.part, m.to)
		if b.goods[supplier] >= c.free {
			return true
		}
	}
	return false
}

// drain moves every part away from a supplier.
func (b *basket) drain(supplier int) bool {
	if b.keep>>supplier&1 == 1 {
		return false
	}
	_, used := b.s.total(b.choice)
	for p, options := range b.s.options {
		if options[b.choice[p]].mask>>supplier&1 == 0 {
			continue
		}
		away := -1 // the cheapest from suppliers that are used anyway
		for n := range options {
			if m := options[n].mask; m>>supplier&1 == 0 && m&^used == 0 && b.alive[b.s.byPart[p][n]] {
				away = n
				break
			}
		}
		if away < 0 {
			return false
		}
		b.change(p, away)
	}
	return true
}
