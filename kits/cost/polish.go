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
	s.wander()
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

// polish makes a choice cheaper by the moves of basket.go and records what comes out. It keeps to the options that are
// alive, and to using the suppliers in keep: one that the choice leaves out gets the part that costs least to move there.
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
	b.improve()
	s.record(b.choice)
}
