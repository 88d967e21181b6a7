package cost

import (
	"fmt"
	"testing"
)

// opened is a knot over all parts of a search from the suppliers of a set, whose postage is paid.
func opened(s *search, set uint64) *knot {
	k := &knot{settlement: settlement{set: set}, target: never}
	s.fill(k)
	for i := range s.suppliers {
		k.modes[i] = paid
	}
	return k
}

// costs are what the ways that are left cost, part by part.
func costs(k *knot) string {
	text := ""
	for _, o := range k.open {
		text += fmt.Sprint(o.part, ":")
		for _, w := range o.ways {
			text += fmt.Sprint(" ", w.ga+w.gb)
		}
		text += "; "
	}
	return text
}

// S0 has a minimum of 10.00. The first part is always partly from S0, for 3.00 at the least, the second may be from S1. With 7.00 decided
// S0's sum is reached in any case, with 6.99 it is not; S1 may be left out.
func TestWhatIsUncertain(t *testing.T) {
	s := among([]charge{{0, never, 1000}, {}, {}}, []option{shared(0, 300, 1, 50), from(0, 400), shared(2, 100, 0, 310)}, []option{from(1, 200), from(0, 210)})
	for _, c := range []struct {
		goods int64
		used  uint64
		want  uint64
	}{{700, 0, 0b110}, {699, 0, 0b111}, {701, 0b10, 0b100}, {0, 0b110, 0b001}} {
		k := opened(s, 0b111)
		k.goods[0], k.used = c.goods, c.used
		if got := s.uncertain(k); got != c.want {
			t.Errorf("with %d from S0 and %b used: %b, want %b", c.goods, c.used, got, c.want)
		}
	}
	k := opened(s, 0b11) // without S2, of which nothing is said
	if got := s.uncertain(k); got != 0b11 {
		t.Errorf("of two: %b", got)
	}
}

// Where S0's sum is open its dearer ways may help to reach it, where it is not, they do not. One of equal ways is enough.
func TestWhatDominates(t *testing.T) {
	options := [][]option{{from(0, 300), from(0, 300), from(0, 320), from(1, 320), shared(0, 200, 1, 130)}, {from(0, 500)}, {from(1, 100), from(1, 90)}}
	s := among([]charge{{0, never, 1000}, {}}, options...)
	k := opened(s, 0b11)
	s.dominate(k) // 5.00 are certain from S0, and S1 is used in any case: only S0's sum matters
	if got, want := costs(k), "0: 300 320; 1: 500; 2: 90; "; got != want {
		t.Errorf("with an open sum: left are %q, want %q", got, want)
	}
	s = among([]charge{{0, never, 500}, {}}, options...)
	k = opened(s, 0b11)
	s.dominate(k)
	if got, want := costs(k), "0: 300; 1: 500; 2: 90; "; got != want {
		t.Errorf("with a sum that is reached: left are %q, want %q", got, want)
	}
	s = among([]charge{{0, never, 0}, {0, never, 2000}}, options...)
	k = opened(s, 0b11)
	s.dominate(k)
	if got, want := costs(k), "0: 300 320; 1: 500; 2: 90 100; "; got != want { // 1.30 for 3.30 are less than 3.20
		t.Errorf("with an open sum of the other: left are %q, want %q", got, want)
	}
}

// At multipliers of nothing the first part may cost 0.20 more, not 0.21; what has one way left is decided.
func TestWhatIsThinnedOut(t *testing.T) {
	s := among([]charge{{50, 1000, 0}, {50, never, 0}}, []option{from(0, 300), from(1, 320), from(0, 321)}, []option{from(0, 500), from(1, 600)})
	thin := func(room int64, change func(*knot)) (*knot, bool) {
		k := opened(s, 0b11)
		change(k)
		k.bound, _ = s.relaxed(k)
		return k, s.thin(k, room*unity)
	}
	k, ok := thin(20, func(*knot) {})
	if got := costs(k); !ok || got != "0: 300 320; " || k.cost != 500 || k.goods[0] != 500 || k.used != 0b1 || s.taken[1].option != &s.options[1][0] {
		t.Errorf("with room of 0.20: %v, %q, decided are %d", ok, got, k.cost)
	}
	if k, ok := thin(19, func(*knot) {}); ok || len(k.open) != 0 || k.cost != 800 {
		t.Errorf("with room of 0.19 nothing is left from S1: %v, %q", ok, costs(k))
	}
	if k, ok := thin(19, func(k *knot) { k.used = 0b10 }); !ok || k.cost != 800 || k.used != 0b11 {
		t.Errorf("with S1 used already: %v, %q", ok, costs(k))
	}
	// S0 is to send free from 10.00 on: 3.21 + 5.00 and 1.79 decided are enough, 1.78 are not.
	for goods, want := range map[int64]bool{179: true, 178: false} {
		if _, ok := thin(1000, func(k *knot) { k.modes[0], k.goods[0] = free, goods }); ok != want {
			t.Errorf("with %d decided from S0 its threshold is in reach: %v", goods, ok)
		}
	}
	// Of a supplier from which the relaxed problem buys nothing.
	k = opened(s, 0b11)
	s.relaxed(k)
	if got := k.unused(); got != 1 {
		t.Errorf("S%d is unused", got)
	}
	if k.used = 0b10; k.unused() != -1 {
		t.Errorf("S%d is unused", k.unused())
	}
}

// Within a room of nothing only the best ways are gathered, within more also the shares: five pieces are 12 from S0, 15 from S1, and
// 12, 15 or 18 shared (see the shares by hand).
func TestWhatIsGathered(t *testing.T) {
	charges := []charge{{0, never, 30}, {0, never, 30}}
	w, _ := newWares([]good{selling(0, 3, 6), selling(1, 1, 3)}, 5, charges, true, asIs)
	for room, want := range map[int64]string{0: "0: 12 12; ", 2: "0: 12 12; ", 3: "0: 12 12 15 15; ", 6: "0: 12 12 15 15 18; "} {
		s := newSearch([]*wares{w}, [][]option{{from(0, 12), from(1, 15)}}, charges)
		k := opened(s, 0b11)
		s.relaxed(k)
		s.gather(k, room*unity)
		if got := costs(k); got != want {
			t.Errorf("within %d: got %q, want %q", room, got, want)
		}
		if s.work < 5 {
			t.Errorf("a work of %d", s.work)
		}
	}
	s := newSearch([]*wares{w}, [][]option{{from(0, 12), from(1, 15)}}, charges)
	k := opened(s, 0b1)
	s.relaxed(k)
	s.gather(k, 100*unity)
	if got := costs(k); got != "0: 12; " {
		t.Errorf("from S0 alone: got %q", got)
	}
}
