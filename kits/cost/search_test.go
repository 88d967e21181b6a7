package cost

import (
	"math"
	"slices"
	"testing"
)

// from is a way to buy a part from one supplier, shared one from two.
func from(supplier int, cost int64) option {
	return option{mask: 1 << supplier, cost: cost, at: [2]share{{supplier, cost}, {supplier: -1}}}
}

func shared(a int, ga int64, b int, gb int64) option {
	return option{mask: 1<<a | 1<<b, cost: ga + gb, at: [2]share{{a, ga}, {b, gb}}}
}

// among is a search over parts whose options are given, cheapest first, and no way to share.
func among(charges []charge, parts ...[]option) *search {
	needed := make([]*wares, len(parts))
	for i := range needed {
		needed[i] = &wares{need: 1}
	}
	return newSearch(needed, parts, charges)
}

func picked(s *search, options ...int) []*option {
	var choice []*option
	for p, n := range options {
		choice = append(choice, &s.options[p][n])
	}
	return choice
}

// 8.00 and 5.00 of goods, 1.00 of postage, and none from 5.00 on: 14.00 in two parcels. Three suppliers make a weight of four.
func TestTotalsByHand(t *testing.T) {
	s := among([]charge{{100, never, 0}, {50, 500, 0}, {70, never, 900}}, []option{shared(0, 300, 1, 200), from(0, 520)}, []option{from(0, 500), from(2, 600)}, []option{from(1, 300)})
	for _, c := range []struct {
		choice     []*option
		cost, mask int64
	}{
		{picked(s, 0, 0, 0), 4*1400 + 2, 0b011},
		{picked(s, 1, 0, 0), 4*(520+500+300+100+50) + 2, 0b011},
		{picked(s, 0, 1, 0), 4*(500+600+300+100+300+70) + 3, 0b111}, // 3.00 of make-up
	} {
		if cost, mask := s.total(c.choice); cost != c.cost || mask != uint64(c.mask) {
			t.Errorf("got %d from %b, want %d from %b", cost, mask, c.cost, c.mask)
		}
	}
}

// What is kept as the best, and as the best of another set; and what an order may cost to matter beside them.
func TestWhatIsRecorded(t *testing.T) {
	s := among([]charge{{100, never, 0}, {100, never, 0}}, []option{from(0, 500), from(1, 520), from(0, 530), from(1, 540)})
	if s.matters(0b1) != mostMinor || s.below() != never-0.5 {
		t.Errorf("before anything is known %d matters, and %v", s.matters(0b1), s.below())
	}
	s.first.cost, s.second.cost = 2, 3
	if got := s.matters(0b11); got != 0 { // 3 − 1 − 2 parcels
		t.Errorf("two parcels for nothing: %d matters", got)
	}
	if s.first.mask = 0b11; s.matters(0b11) != -1 {
		t.Errorf("below nothing %d matters", s.matters(0b11))
	}
	s.first, s.second = found{cost: never}, found{cost: never}
	for _, c := range []struct {
		option        int
		first, second int64 // 0 for none
		zero, one     int64 // what matters from S0 and from S1
	}{
		{3, 640, 0, mostMinor, 639}, // from S1
		{2, 630, 640, 629, 639},     // from S0, cheaper
		{1, 620, 630, 629, 619},     // from S1 again, the cheapest
		{3, 620, 630, 629, 619},     // dearer, and nothing new
		{0, 600, 620, 599, 619},
		{2, 600, 620, 599, 619}, // from the same set as the best
		{1, 600, 620, 599, 619},
	} {
		s.record(picked(s, c.option))
		second := s.second.cost
		if c.second == 0 {
			c.second = never
		} else {
			c.second = 3*c.second + 1
		}
		if s.first.cost != 3*c.first+1 || second != c.second {
			t.Errorf("after %d: best %d and second %d, want %d and %d", c.option, s.first.cost, second, 3*c.first+1, c.second)
		}
		if zero, one := s.matters(0b1), s.matters(0b10); zero != c.zero || one != c.one {
			t.Errorf("after %d: %d and %d matter, want %d and %d", c.option, zero, one, c.zero, c.one)
		}
		if s.below() != float64(c.second)-0.5 {
			t.Errorf("after %d: %v is below", c.option, s.below())
		}
	}
	s.onlyFirst = true
	if s.matters(0b1) != 599 || s.matters(0b10) != 599 || s.below() != 1800.5 {
		t.Errorf("where only the best counts %d, %d and %v matter", s.matters(0b1), s.matters(0b10), s.below())
	}
}

// Postage of 3.00, none from 50.00 on, a minimum of 10.00. Up to λ = 3/40 it is cheaper to reach for the 50.00.
func TestTheSumThatAMultiplierIsAbout(t *testing.T) {
	s := among([]charge{{300, 5000, 1000}}, []option{from(0, 100)})
	for _, c := range []struct {
		mode        mode
		lambda      float64
		asks, reach int64
	}{
		{open, 0, 0, 5000}, {open, 0.07, 0, 5000}, {open, 0.08, 300, 1000}, {open, 1, 300, 1000},
		{paid, 0, 300, 1000}, {paid, 0.07, 300, 1000}, {free, 0, 0, 5000}, {free, 0.9, 0, 5000},
	} {
		k := &knot{}
		k.modes[0], k.lambda[0] = c.mode, int64(c.lambda*unity)
		if asks, reach := s.sums(k, 0); asks != c.asks || reach != c.reach {
			t.Errorf("mode %d at %v: asks %d for %d, want %d for %d", c.mode, c.lambda, asks, reach, c.asks, c.reach)
		}
	}
}

// L = Σ (postage + λ · sum) + Σ min (1 − λ) · goods, with λ a half at S0, whose minimum is 10.00, and nothing at S1: one part is
// bought already for 4.00 from S0; another costs 6.00 there, 3.00 at the multiplier, or 2.90 from S1; a third 8.00, 4.00 at the
// multiplier, or 5.00, or 5.00 + 0.90 shared, which is 2.50 + 0.90. L is 1.00 + 5.00 + 0.70 + 2.00 + 2.90 + 3.40.
func TestTheRelaxedProblemByHand(t *testing.T) {
	s := among([]charge{{100, never, 1000}, {70, never, 0}}, []option{from(0, 400)}, []option{from(1, 290), from(0, 600)}, []option{from(1, 500), shared(1, 90, 0, 500), from(0, 800)})
	k := &knot{settlement: settlement{set: 0b11}}
	most, ok := s.fill(k)
	if !ok || most != [64]int64{400 + 600 + 800, 290 + 500} {
		t.Fatalf("filled %v, the most is %v", ok, most[:2])
	}
	for i := range 2 {
		k.modes[i] = paid
	}
	k.lambda[0] = unity / 2
	bound, b := s.relaxed(k)
	if bound != (100+500+70+200+290+340)*unity || s.work != 1+2+3 {
		t.Errorf("L is %v, want 15.00, after looking at %d ways", float64(bound)/unity/100, s.work)
	}
	if b.cost != 400+290+590 || b.used != 0b11 || b.goods[0] != 900 || b.goods[1] != 380 {
		t.Errorf("it buys for %d from %b: %v", b.cost, b.used, b.goods[:2])
	}
	if k.open[2].best != 1 || k.open[2].price != 340*unity {
		t.Errorf("of the third part way %d at %v", k.open[2].best, float64(k.open[2].price)/unity)
	}
	// With the first part decided all is the same, and with the third.
	third := k.without(2)
	s.decideWay(third, 2, k.open[2].ways[1])
	if again, basket := s.relaxed(third); again != bound || basket != b || third.used != 0b11 || third.goods[0] != 500 || third.goods[1] != 90 {
		t.Errorf("the third decided: L is %v, bought for %d", float64(again)/unity, basket.cost)
	}
	c := k.without(0)
	s.decideWay(c, 0, k.open[0].ways[0])
	if again, basket := s.relaxed(c); again != bound || basket != b || c.cost != 400 || c.used != 0b1 || c.goods[0] != 400 || len(c.open) != 2 || c.open[0].part != 1 {
		t.Errorf("decided: L is %v, bought for %d of %d", float64(again)/unity, basket.cost, c.cost)
	}
	// 9.00 are 1.00 short of S0's minimum, 3.80 are 3.80 too many for none at S1, where the multiplier cannot fall.
	if !s.step(k, &b, 1000) || k.lambda[0] != unity/2+10 || k.lambda[1] != 0 {
		t.Errorf("a step leads to %v", k.lambda[:2])
	}
	k.lambda[1] = 1000 // 1000 · 100/(100² + 380²) is 0.65, 1000 · 380/… is 2.46; a hundred times as far
	if !s.step(k, &b, 100_000) || k.lambda[0] != unity/2+10+64 || k.lambda[1] != 1000-246 {
		t.Errorf("a step leads to %v", k.lambda[:2])
	}
	if !s.step(k, &b, 1e12) || k.lambda[0] != unity || k.lambda[1] != 0 {
		t.Errorf("a wide step leads to %v", k.lambda[:2])
	}
	if s.step(k, &b, 1) || k.lambda[0] != unity || k.lambda[1] != 0 {
		t.Errorf("at both ends there is a step to %v", k.lambda[:2])
	}
	k.set = 0b10
	if _, ok := s.fill(k); ok {
		t.Error("S1 alone does not sell the first part")
	}
}

// A part that only S1 sells makes S1 inside; S2 sells nothing that S0 does not sell cheaper, but might; S3 sells nothing.
func TestPlainConclusions(t *testing.T) {
	charges := []charge{{}, {}, {}, {}}
	tree := func(states ...state) *node {
		s := among(charges, []option{from(0, 300), from(1, 320), from(2, 400)}, []option{from(1, 500), shared(1, 400, 2, 200)})
		n := s.root()
		copy(n.state, states)
		return n
	}
	for _, c := range []struct {
		before []state
		ok     bool
		after  []state
		u      []float64
	}{
		{[]state{undecided, undecided, undecided, undecided}, true, []state{undecided, inside, undecided, outside}, []float64{300, 500}},
		{[]state{outside, undecided, undecided, undecided}, true, []state{outside, inside, undecided, outside}, []float64{320, 500}},
		{[]state{outside, undecided, outside, undecided}, true, []state{outside, inside, outside, outside}, []float64{320, 500}},
		{[]state{inside, undecided, inside, undecided}, true, []state{inside, inside, inside, outside}, []float64{300, 500}},
		{[]state{undecided, outside, undecided, undecided}, false, nil, nil},
		{[]state{undecided, undecided, undecided, inside}, false, nil, nil},
	} {
		n := tree(c.before...)
		if ok := n.conclude(); ok != c.ok || ok && (!slices.Equal(n.state, c.after) || !slices.Equal(n.u, c.u)) {
			t.Errorf("%v: %v, %v at %v; want %v, %v at %v", c.before, ok, n.state, n.u, c.ok, c.after, c.u)
		}
	}
	n := tree(inside, undecided, outside, inside)
	if set, decided := n.inside(); set != 0b1001 || decided {
		t.Errorf("inside are %b, decided %v", set, decided)
	}
	n.state[1] = outside
	if set, decided := n.inside(); set != 0b1001 || !decided {
		t.Errorf("inside are %b, decided %v", set, decided)
	}
	for _, c := range []struct {
		used  []float64
		state []state
		want  int
	}{
		{[]float64{0.1, 0.4, 0.9, 1}, []state{undecided, undecided, undecided, undecided}, 1},
		{[]float64{0.1, 0.8, 0.4, 1}, []state{undecided, undecided, inside, undecided}, 1}, // about 0.4 it is decided
		{[]float64{0.2, 0.5, 0.5, 0.5}, []state{undecided, undecided, undecided, outside}, 1},
		{[]float64{0, 1, 0, 1}, []state{outside, inside, undecided, undecided}, 2},
		{[]float64{0, 0, 0, 0.4}, []state{inside, inside, inside, undecided}, 3},
	} {
		n.used, n.state = c.used, c.state
		if got := n.wavering(); got != c.want {
			t.Errorf("used %v: %d wavers, want %d", c.used, got, c.want)
		}
	}
}

// One supplier sells parts for 1.00 and 2.00 that earn 1.50 and 1.80. At a price of (1 − λ) goods less what it earns it sells
// the first for −0.50, and from λ = 0.1 on the second too. To reach 3.00 is worth −0.50 − λ + 3 λ up to there, −0.30 from there
// on; to reach 1.50 is worth most at λ = 0.1, −0.50 − 0.10 + 0.15.
func TestWhatASupplierSellsByHand(t *testing.T) {
	relax := func(state state, c charge, u ...float64) *relaxation {
		s := among([]charge{c}, []option{from(0, 100)}, []option{from(0, 200)})
		n := s.root()
		n.state[0] = state
		r := n.relax()
		for k := range r.entries[0] {
			r.w[0][k] = u[k]
		}
		return r
	}
	r := relax(undecided, charge{}, 150, 180)
	for lambda, want := range map[float64][2]float64{0: {-50, 100}, 0.05: {-55, 100}, 0.5: {-100 - 80, 300}, 1: {-150 - 180, 300}} {
		before := r.s.work
		if value, goods := r.sales(0, lambda); !(math.Abs(value-want[0]) <= 1e-9) || goods != want[1] || r.s.work != before+2 {
			t.Errorf("at %v it sells %v for %v, want %v", lambda, goods, value, want)
		}
	}
	near := func(what string, got, want, within float64) {
		t.Helper()
		if !(got <= want+1e-9) || !(got >= want-within) {
			t.Errorf("%s: got %v, want %v within %v below", what, got, want, within)
		}
	}
	best, at := r.reach(0, 0, 300)
	near("to reach 3.00", best, -30, 1e-9)
	if at < 0.1 {
		t.Errorf("3.00 are reached at %v", at)
	}
	best, at = r.reach(0, 1, 150)
	near("to reach 1.50", best, -45, 0.2)
	if math.Abs(at-0.1) > 1.0/512 {
		t.Errorf("1.50 are best at %v", at)
	}
	if best, at = r.reach(0, 1, 100); best != -50 || at != 0 {
		t.Errorf("1.00 is reached as it is: %v at %v", best, at)
	}
	// What is never reached is paid at its full: to reach 9.00 is worth −3.30 + 9.00 at λ = 1.
	if best, _ = r.reach(0, 0, 900); !(best <= 570) || !(best > 570-900./512) {
		t.Errorf("9.00 are worth %v", best)
	}
	// Postage of 0.60, none from 3.00 on, which is worth −0.30 without postage, and −0.50 + 0.60 with it.
	value, _ := relax(undecided, charge{60, 300, 0}, 150, 180).sell(0)
	near("with free postage in reach", value, -30, 1e-9)
	value, lambda := relax(undecided, charge{10, 300, 0}, 150, 180).sell(0)
	if value != -40 || lambda != 0 {
		t.Errorf("cheap postage is paid: %v at %v", value, lambda)
	}
	// A minimum of 1.50 and postage in any case.
	value, _ = relax(undecided, charge{60, never, 150}, 150, 180).sell(0)
	near("with a minimum", value, -45+60, 0.2)
	// One that must sell sells what loses least, one that need not sells nothing.
	if value, goods := relax(inside, charge{}, 70, 190).sales(0, 0); value != 10 || goods != 0 {
		t.Errorf("what must be sold loses %v on %v", value, goods)
	}
	if value, goods := relax(undecided, charge{}, 70, 190).sales(0, 0); value != 0 || goods != 0 {
		t.Errorf("what need not be sold loses %v on %v", value, goods)
	}
}

// D by hand: what the parts earn, less what the suppliers lose on them. Parts of 1.00 from S0 or 1.10 from S1, and of 2.00 from S0,
// earn 1.50 and 2.30; each supplier asks 0.40 for postage, and a third of a cent for its parcel. S0 sells both, for −0.80 + 0.40; S1
// sells the first, for −0.40 + 0.40 and its parcel, and need not.
func TestTheBoundByHand(t *testing.T) {
	s := among([]charge{{40, never, 0}, {40, never, 0}}, []option{from(0, 100), from(1, 110)}, []option{from(0, 200)})
	n := s.root()
	n.u[0], n.u[1] = 150, 230
	r := n.relax()
	parcel := 1. / 3
	if d := r.evaluate(); math.Abs(d-3*(380-40+parcel)) > 1e-9 {
		t.Errorf("D is %v, want %v", d/3, 380-40+parcel)
	}
	if !slices.Equal(r.slope, []float64{0, 0}) || n.used[0] != 1./8 || n.used[1] != 0 || r.norm() != 0 {
		t.Errorf("slopes %v, used %v", r.slope, n.used)
	}
	// Both must sell: the first part is sold twice.
	n.state[0], n.state[1] = inside, inside
	r = n.relax()
	if d := r.evaluate(); math.Abs(d-3*(380-40+2*parcel)) > 1e-9 || !slices.Equal(r.slope, []float64{-1, 0}) || r.norm() != 1 {
		t.Errorf("D is %v, want %v; slopes %v", d/3, 380-40+2*parcel, r.slope)
	}
	// Without S1 nothing of it is left.
	n.state[1] = outside
	r = n.relax()
	if d := r.evaluate(); math.Abs(d-3*(380-40+parcel)) > 1e-9 || len(r.entries[1]) != 0 {
		t.Errorf("D is %v, want %v", d/3, 380-40+parcel)
	}
}

// Work is counted: what is begun with the last of it is done, what is begun beyond it is not, and then nothing is proved.
func TestWorkIsLimited(t *testing.T) {
	for name, begin := range map[string]func(*search){
		"a settlement": func(s *search) { s.decide(opened(s, 0b1), 1) },
		"a core":       func(s *search) { s.search(opened(s, 0b1), never, 1) },
		"a node":       func(s *search) { s.grow(s.root(), 1) },
	} {
		for _, c := range []struct {
			left   int64
			begins bool
		}{{0, true}, {-1, false}} {
			s := among([]charge{{100, never, 0}}, []option{from(0, 500)})
			s.work, s.limit, s.onlyFirst = 100, 100+c.left, true
			if begin(s); s.proven != c.begins || s.work > 100 != c.begins {
				t.Errorf("%s with %d steps left: proven %v after %d", name, c.left, s.proven, s.work-100)
			}
		}
	}
}

// Whatever the work is limited to, what is called proved is what comes out without a limit; the second best is given up first.
func TestWhatIsProvedInLittleWork(t *testing.T) {
	var both, onlyFirst, neither int
	for seed := range uint64(40) {
		q := smallParts(seed, 2500, 3+int(seed%4), 12+int(seed%20), 2+int(seed%2))
		needs, err := q.needs()
		if err != nil {
			t.Fatal(err)
		}
		var want *search
		for _, limit := range []int64{mostWork, 1000, 3000, 10_000, 30_000} {
			s, _, err := q.search(needs, math.NaN())
			if err != nil {
				t.Fatal(err)
			}
			s.limit = limit
			s.run()
			if want == nil {
				want = s
			}
			switch {
			case s.proven && s.first.cost != want.first.cost:
				t.Errorf("order %d in %d: %d is called the best, and %d is", seed, limit, s.first.cost, want.first.cost)
			case s.secondProven && (!s.proven || s.second.cost != want.second.cost):
				t.Errorf("order %d in %d: %d is called the second, and %d is", seed, limit, s.second.cost, want.second.cost)
			case s.secondProven:
				both++
			case s.proven:
				onlyFirst++
			default:
				neither++
			}
		}
	}
	t.Logf("both proved %d times, only the first %d, neither %d", both, onlyFirst, neither)
	if min(both, onlyFirst, neither) < 5 {
		t.Errorf("both are proved %d times, only the first %d, neither %d: want some of each", both, onlyFirst, neither)
	}
}
