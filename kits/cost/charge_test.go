package cost

import (
	"slices"
	"testing"
)

// Postage of 4.00 by the value from which it is free and by the minimum, and what goods can save of it all.
func TestChargesByHand(t *testing.T) {
	for _, c := range []struct {
		charge
		of             map[int64]int64 // by goods
		free           bool            // may it be so
		certain, saves int64
	}{
		{charge{400, never, 0}, map[int64]int64{1: 400, 9999: 400}, false, 400, 0},
		{charge{400, never, 2000}, map[int64]int64{1250: 1150, 1999: 401, 2000: 400, 2001: 400}, false, 400, 2000},
		{charge{400, 5000, 2000}, map[int64]int64{1250: 1150, 2000: 400, 4999: 400, 5000: 0, 6000: 0}, true, 400, 2400},
		{charge{400, 2001, 2000}, map[int64]int64{1250: 1150, 2000: 400, 2001: 0}, true, 400, 2400},
		{charge{400, 2000, 2000}, map[int64]int64{1250: 750, 1999: 1, 2000: 0}, false, 0, 2000},
		{charge{400, 1500, 2000}, map[int64]int64{1250: 750, 1600: 400, 2500: 0}, false, 0, 2000},
		{charge{0, 5000, 2000}, map[int64]int64{1250: 750, 2000: 0}, false, 0, 2000},
		{charge{1, 5000, 0}, map[int64]int64{4999: 1, 5000: 0}, true, 1, 1},
	} {
		for goods, want := range c.of {
			if got := c.charge.of(goods); got != want {
				t.Errorf("%v on %d: got %d, want %d", c.charge, goods, got, want)
			}
		}
		if c.mayBeFree() != c.free || c.charge.certain() != c.certain || c.charge.saves() != c.saves {
			t.Errorf("%v: may be free %v, certain %d, saves %d", c.charge, c.mayBeFree(), c.charge.certain(), c.charge.saves())
		}
	}
}

// One fewer, one more, or one for another, of the suppliers that sell anything.
func TestNeighboursOfASet(t *testing.T) {
	for _, c := range []struct {
		set, all uint64
		want     []uint64
	}{
		{0b0010, 0b1011, []uint64{0b0000, 0b0001, 0b0010, 0b0011, 0b1000, 0b1010}},
		{0b11, 0b11, []uint64{0b01, 0b10, 0b11}},
		{0b1, 0b1, []uint64{0b0, 0b1}},
	} {
		got := neighbours(c.set, c.all)
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("of %b in %b: got %b, want %b", c.set, c.all, got, c.want)
		}
	}
}

// A way to buy from one supplier, or two: what it costs when a quarter of the goods of the first and half of those of the
// second is given back, and what it brings.
func TestWaysByHand(t *testing.T) {
	var lambda [64]int64
	lambda[0], lambda[2] = unity/4, unity/2
	alone, both := way{ga: 800, a: 0, b: -1}, way{ga: 200, gb: 500, a: 0, b: 2}
	if a, b := alone.price(&lambda), both.price(&lambda); a != 600*unity || b != 400*unity {
		t.Errorf("prices are %v and %v", float64(a)/unity, float64(b)/unity)
	}
	turned := way{ga: 500, gb: 200, a: 2, b: 0}
	if turned.price(&lambda) != both.price(&lambda) || turned.uses() != both.uses() || turned.from(0) != 200 || turned.from(2) != 500 {
		t.Errorf("turned round it is %v of %b", float64(turned.price(&lambda))/unity, turned.uses())
	}
	if a, b := alone.uses(), both.uses(); a != 0b1 || b != 0b101 {
		t.Errorf("uses %b and %b", a, b)
	}
	for supplier, want := range map[int32][2]int64{0: {800, 200}, 1: {0, 0}, 2: {0, 500}} {
		if got := [2]int64{alone.from(supplier), both.from(supplier)}; got != want {
			t.Errorf("from %d: got %v, want %v", supplier, got, want)
		}
	}
	for _, c := range []struct {
		matter        uint64
		fewer, poorer bool // alone brings what both does, and the other way round
	}{{0, true, true}, {0b1, true, false}, {0b100, false, true}, {0b101, false, false}, {0b10, true, true}} {
		if x, y := alone.brings(&both, c.matter), both.brings(&alone, c.matter); x != c.fewer || y != c.poorer {
			t.Errorf("where %b matters: %v and %v", c.matter, x, y)
		}
	}
	if !both.brings(&both, 0b101) {
		t.Error("a way brings what it brings")
	}
	most := [64]int64{0: 1000, 2: 10}
	addMost(&most, []way{both, alone, {ga: 300, a: 0, b: -1}, {ga: 400, a: 2, b: -1}})
	if most != [64]int64{0: 1800, 2: 510} {
		t.Errorf("the most is %v", most[:3])
	}
}

// Left of an arrow to the right is up. What lies on it is no turn, unless the products are beyond the 53 bits of a float.
func TestTurns(t *testing.T) {
	for _, c := range []struct {
		x, y, u, v int64
		want       bool
	}{
		{1, 0, 0, 1, true}, {1, 0, 5, 1, true}, {1, 0, 5, -1, false}, {0, 1, 1, 0, false}, {1, 1, 2, 2, false}, {3, -2, 6, -4, false},
		{3, -2, 6, -3, true}, {3, -2, 6, -5, false}, {-3, 2, -6, 3, true}, {1 << 30, 1 << 30, 1 << 31, 1 << 31, true}, {1 << 27, 1 << 27, 1 << 27, 1 << 27, true}, {1 << 26, 1 << 26, 1 << 26, 1 << 26, false},
		{-2_000_000, -4_000_000_000_001, 1, 2_000_000, true}, {2_000_000, 3_999_999_999_999, 1, 2_000_000, true}, {2_000_000, 8_000_000_000_000, 1, 2_000_000, false}, {1 << 30, -1 << 30, 1 << 31, -1 << 31, true},
	} {
		if got := below(c.x, c.y, c.u, c.v); got != c.want {
			t.Errorf("from (%d, %d) to (%d, %d): left %v, want %v", c.x, c.y, c.u, c.v, got, c.want)
		}
	}
}
