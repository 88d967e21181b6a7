package cost

import (
	"math/bits"
	"slices"
)

// start finds good orders before anything is proved: it walks from the set of all suppliers to better neighbours (one
// more, one fewer, one changed), and adds to the best set each supplier that it leaves out, so that there is a second.
func (s *search) start() {
	var all uint64
	for _, part := range s.options {
		for _, o := range part {
			all |= o.mask
		}
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
	s.settle(s.first.mask)
	for i := range s.suppliers {
		if (all&^s.first.mask)>>i&1 == 1 {
			s.bring(i)
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
func (s *search) cheapestWithin(allowed uint64) (choice []*option, ok bool) {
	choice = make([]*option, len(s.options))
	for p, part := range s.options {
		n := slices.IndexFunc(part, func(o option) bool { return o.mask&^allowed == 0 })
		if n < 0 {
			return nil, false
		}
		choice[p] = &part[n]
		s.work += int64(n + 1)
	}
	return choice, true
}

// bring moves the part that costs least to move to a supplier that the best order leaves out.
func (s *search) bring(supplier int) {
	choice := slices.Clone(s.first.choice)
	best, least := -1, int64(never)
	var to *option
	for p, part := range s.options {
		for n := range part {
			if o := &part[n]; o.mask>>supplier&1 == 1 && o.cost-choice[p].cost < least {
				best, least, to = p, o.cost-choice[p].cost, o
			}
		}
	}
	if best >= 0 {
		choice[best] = to
		s.record(choice)
	}
}
