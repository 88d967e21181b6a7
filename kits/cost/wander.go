package cost

import (
	"slices"
)

// mostTries bounds the wandering.
const mostTries = 600

// wander looks for better orders near the best: with its set of suppliers changed by one or two, and with one or two more
// thresholds reached, each followed by basket.improve. It starts again from every better order.
func (s *search) wander() {
	tries := 0
	for better := true; better && tries < mostTries; {
		better = false
		best, mask := s.first.cost, s.first.mask
		for _, set := range neighbours(mask, s.offering())[1:] {
			if choice, ok := s.cheapestWithin(set); ok {
				tries++
				s.polish(choice, s.within(set), 0)
			}
			if better = s.first.cost < best; better {
				break
			}
		}
		for i := 0; !better && i < len(s.suppliers); i++ {
			for j := 0; !better && j <= i; j++ {
				tries++
				s.reach(i, j)
				better = s.first.cost < best
			}
		}
	}
}

// reach fills two suppliers (or one, when they are the same) up to their thresholds at whatever cost, and improves the rest.
func (s *search) reach(i, j int) {
	b := &basket{s: s, choice: slices.Clone(s.first.choice), alive: s.everything()}
	for p, n := range b.choice {
		b.add(&s.options[p][n], 1)
	}
	if !b.fill(i) || i != j && !b.fill(j) {
		return
	}
	b.improve()
	s.record(b.choice)
}

// offering are the suppliers that sell anything that is needed.
func (s *search) offering() uint64 {
	var all uint64
	for _, o := range s.flat {
		all |= o.mask
	}
	return all
}

// within are the options from a set of suppliers.
func (s *search) within(set uint64) []bool {
	alive := make([]bool, len(s.flat))
	for id, o := range s.flat {
		alive[id] = o.mask&^set == 0
	}
	return alive
}
