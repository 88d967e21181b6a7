package cost

import (
	"math/bits"
	"slices"
)

// start finds good orders before anything is proved: it walks from the set of all suppliers to better neighbours (one
// more, one fewer, one changed), and adds to the best set each supplier that it leaves out, so that there is a second.
func (s *search) start() {
	var all uint64
	for _, o := range s.flat {
		all |= o.mask
	}
	best, set := int64(never), all
	for {
		better, next := best, set
		for _, candidate := range neighbours(set, all) {
			if choice, ok := s.cheapestWithin(candidate); ok {
				s.record(choice)
				if cost, used := s.total(choice); cost < better {
					better, next = cost, used
				}
			}
		}
		if better >= best {
			break
		}
		best, set = better, next
	}
	if s.first.choice == nil {
		return
	}
	s.polish(s.first.choice, s.everything(), 0)
	for i := range s.suppliers {
		if (all&^s.first.mask)>>i&1 == 1 {
			s.recordWith(i, s.first.choice)
		}
	}
}

func neighbours(set, all uint64) []uint64 {
	near := []uint64{set}
	for i := range bits.Len64(all) {
		if all>>i&1 == 0 {
			continue
		}
		near = append(near, set^1<<i)
		for j := range bits.Len64(all) {
			if set>>i&1 == 1 && (all&^set)>>j&1 == 1 {
				near = append(near, set&^(1<<i)|1<<j)
			}
		}
	}
	return near
}

// cheapestWithin takes each part's cheapest option from the allowed suppliers.
func (s *search) cheapestWithin(allowed uint64) (choice []int, ok bool) {
	choice = make([]int, len(s.options))
	for p, part := range s.options {
		n := slices.IndexFunc(part, func(o option) bool { return o.mask&^allowed == 0 })
		if n < 0 {
			return nil, false
		}
		choice[p] = n
	}
	return choice, true
}

// recordWith moves the part that costs least to move to a supplier that a choice leaves out, and polishes the rest.
func (s *search) recordWith(supplier int, choice []int) {
	s.polish(choice, s.everything(), 1<<supplier)
}

func (s *search) everything() []bool {
	alive := make([]bool, len(s.flat))
	for i := range alive {
		alive[i] = true
	}
	return alive
}

// polish changes one part at a time as long as that makes a choice cheaper, and records what comes out. It keeps to the
// options that are alive, and to using the suppliers in keep: one that the choice leaves out gets the part that costs
// least to move there.
func (s *search) polish(choice []int, alive []bool, keep uint64) {
	b := &basket{s: s, choice: slices.Clone(choice), alive: alive, keep: keep}
	for p, n := range b.choice {
		b.add(&s.options[p][n], 1)
	}
	for ; keep != 0; keep &= keep - 1 {
		if i := bits.TrailingZeros64(keep); b.uses[i] == 0 && !b.bring(i) {
			return
		}
	}
	for improved := true; improved; {
		improved = false
		for p, part := range s.options {
			for n := range part {
				if b.gain(p, n) > 0 {
					b.change(p, n)
					improved = true
				}
			}
			s.work += int64(len(part))
		}
	}
	s.record(b.choice)
}

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
