package cost

import (
	"math"
	"math/bits"
	"slices"
)

// The search chooses one option for every part so that goods and the suppliers' charges cost the least. A supplier's
// charge hangs on the sum of what is bought there: postage unless the sum reaches a threshold, and the difference to a
// minimum order. To the cost in minor units, times weight, one is added for each parcel, so that of two orders of equal
// cost the one with fewer parcels is the cheaper.
//
// It is a branch and bound: polish.go finds good orders, dual.go proves how cheap an order can be at best, and tree.go
// divides the problem where the two do not meet. What is left is the optimum; when the work is cut short before that,
// proven is false.
type search struct {
	options   [][]option // by part, cheapest first
	suppliers []charge
	weight    int64

	flat       []flatOption // all options
	byPart     [][]int      // numbers in flat
	bySupplier [][]entry    // ordered by part

	first, second found // the best order, and the best with another set of suppliers
	onlyFirst     bool  // do not look for the second
	work, limit   int64 // entries looked at, and how many may be
	proven        bool
}

// mostWork bounds the search to a few seconds. It is a count, not a clock, so that the same order comes out everywhere.
const mostWork = 200_000_000

// A charge is what a supplier asks beside the goods.
type charge struct {
	postage int64
	free    int64 // goods from which there is no postage; never when above any sum
	minimum int64
}

const never = math.MaxInt64 / 4

// of is the charge on top of goods.
func (c charge) of(goods int64) int64 {
	worth := max(goods, c.minimum)
	if worth >= c.free {
		return worth - goods
	}
	return worth - goods + c.postage
}

// mayBeFree reports whether postage hangs on what is bought.
func (c charge) mayBeFree() bool { return c.postage > 0 && c.free < never && c.free > c.minimum }

// found is a complete choice.
type found struct {
	cost   int64
	mask   uint64
	choice []int // option of each part
}

// A flatOption is an option with its part.
type flatOption struct {
	part, number int
	mask         uint64
	cost         float64
}

// An entry is what an option buys from one supplier. An option of two suppliers has two entries.
type entry struct {
	id    int // in flat
	goods float64
	theta float64 // share of the option's cost
	sign  float64 // +1 in the first of two entries, −1 in the second, 0 in an only one
}

func newSearch(options [][]option, suppliers []charge) *search {
	s := &search{options: options, suppliers: suppliers, weight: int64(len(suppliers)) + 1, limit: mostWork, proven: true,
		byPart: make([][]int, len(options)), bySupplier: make([][]entry, len(suppliers))}
	s.first.cost, s.second.cost = never, never
	for p, part := range options {
		for n, o := range part {
			id := len(s.flat)
			s.flat = append(s.flat, flatOption{p, n, o.mask, float64(o.cost)})
			s.byPart[p] = append(s.byPart[p], id)
			for i, at := range o.at {
				if at.supplier < 0 {
					continue
				}
				e := entry{id: id, goods: float64(at.goods), theta: 1}
				if two := o.at[1].supplier >= 0; two {
					e.sign, e.theta = float64(1-2*i), 0.5
					if o.cost > 0 {
						e.theta = e.goods / float64(o.cost)
					}
				}
				s.bySupplier[at.supplier] = append(s.bySupplier[at.supplier], e)
			}
		}
	}
	return s
}

// run finds the optimum.
func (s *search) run() {
	if len(s.options) == 0 {
		s.first = found{}
		return
	}
	s.start()
	s.grow(s.root(), 300)
}

// total is the weighted cost of a choice, and the suppliers it uses.
func (s *search) total(choice []int) (int64, uint64) {
	var cost int64
	var mask uint64
	var goods [64]int64
	for p, n := range choice {
		o := &s.options[p][n]
		cost += o.cost
		mask |= o.mask
		for _, at := range o.at {
			if at.supplier >= 0 {
				goods[at.supplier] += at.goods
			}
		}
	}
	for i, c := range s.suppliers {
		if mask>>i&1 == 1 {
			cost += c.of(goods[i])
		}
	}
	return cost*s.weight + int64(bits.OnesCount64(mask)), mask
}

// record keeps a choice when it is the best, or the best with another set of suppliers than the best.
func (s *search) record(choice []int) {
	cost, mask := s.total(choice)
	switch {
	case cost < s.first.cost:
		if mask != s.first.mask && s.first.choice != nil {
			s.second = s.first
		}
		s.first = found{cost, mask, slices.Clone(choice)}
	case mask != s.first.mask && cost < s.second.cost:
		s.second = found{cost, mask, slices.Clone(choice)}
	}
}
