package cost

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// The search chooses one option for every part so that goods and the suppliers' charges cost the least. A supplier's
// charge hangs on the sum of what is bought there: postage unless the sum reaches a threshold, and the difference to a
// minimum order. To the cost in minor units, times weight, one is added for each parcel, so that of two orders of equal
// cost the one with fewer parcels is the cheaper.
//
// It is a branch and bound in two storeys. The upper one (tree.go) decides which suppliers are used, with bounds that price
// the parts (bound.go). The lower one has the suppliers given: it decides who sends free (settled.go) and then what is
// bought where (core.go), with bounds that price the thresholds, in integers, and then mend each threshold by itself
// (rows.go, joint.go, divided.go). What is left is the optimum; when the work is cut short before that, proven is false.
type search struct {
	options   [][]option // by part, cheapest first: those among which bounds choose
	wares     []*wares   // by part, for the ways to share it
	suppliers []charge
	weight    int64

	first, second found    // the best order, and the best with another set of suppliers
	onlyFirst     bool     // do not look for the second
	flat          []uint64 // suppliers of every option
	bySupplier    [][]entry
	guide         [64]int64 // multipliers of the last settled suppliers, to begin with
	settled       []settlement
	seen          map[uint64]bool // sets of suppliers that are settled
	taken         []way           // how each part is bought now
	labels        [2][]label      // room to work
	work, limit   int64           // steps done, and how many may be
	steps         int             // that a joint may look at
	proven        bool
	secondProven  bool // whether the second is the best but the first; given up before proven is
}

// mostWork bounds the search to a few seconds. It is a count, not a clock, so that the same order comes out everywhere.
const mostWork = 400_000_000

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

// certain is the postage of a supplier whose goods do not change it.
func (c charge) certain() int64 {
	if c.free <= c.minimum {
		return 0
	}
	return c.postage
}

// found is a complete choice.
type found struct {
	cost   int64
	mask   uint64
	choice []*option // of each part
}

func newSearch(wares []*wares, options [][]option, suppliers []charge) *search {
	s := &search{wares: wares, options: options, suppliers: suppliers, weight: int64(len(suppliers)) + 1, limit: mostWork, steps: mostSteps, proven: true, secondProven: true}
	s.first.cost, s.second.cost = never, never
	s.seen = map[uint64]bool{}
	s.bySupplier, s.taken = s.stalls(), make([]way, len(options))
	return s
}

// run finds the optimum.
func (s *search) run() {
	if len(s.options) == 0 {
		s.first = found{}
		return
	}
	s.start()
	s.grow(s.root(), rootSteps)
	s.finish()
}

// exhausted reports whether the work is used up. Before it is, the second best is given up, and what is left goes into the best: its
// proof cuts off more.
func (s *search) exhausted() bool {
	if s.work <= s.limit {
		return false
	}
	s.secondProven = false
	if !s.onlyFirst {
		s.onlyFirst = true
		s.limit += s.limit / 2
		return false
	}
	s.proven = false
	return true
}

// finish looks for the best orders under the settlements that may have one, those first whose bound is lowest.
func (s *search) finish() {
	slices.SortStableFunc(s.settled, func(a, b settlement) int { return cmp.Compare(a.bound, b.bound) })
	for _, at := range s.settled {
		s.core(at)
	}
}

// total is the weighted cost of a choice, and the suppliers it uses.
func (s *search) total(choice []*option) (int64, uint64) {
	var cost int64
	var mask uint64
	var goods [64]int64
	for _, o := range choice {
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
func (s *search) record(choice []*option) {
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

// matters is the greatest cost in minor units, without the count of parcels, that an order from exactly these suppliers may have to be
// better than what is known.
func (s *search) matters(set uint64) int64 {
	target := s.second.cost - 1
	if s.onlyFirst || set == s.first.mask {
		target = s.first.cost - 1
	}
	target -= int64(bits.OnesCount64(set))
	if target < 0 {
		return -1
	}
	return min(target/s.weight, mostMinor)
}
