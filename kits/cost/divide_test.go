package cost

import (
	"fmt"
	"slices"
	"testing"
)

func asIs(fine int64) int64 { return fine }

// selling is a good of one price.
func selling(supplier int, pack, each int64) good {
	return good{supplier: supplier, pack: pack, tiers: []tier{{1, each}}}
}

// S0 sells packs of three for 5 and pieces for 2, S1 pieces for 2.50 by lines that are rounded half to even. One piece is a single
// one, two are two, three a pack, four a pack and a piece, five two packs (of six, 10) or a pack and two pieces (9).
func TestRungsByHand(t *testing.T) {
	halves := func(fine int64) int64 { return halfEven(fine, 2) }
	w, _ := newWares([]good{selling(0, 3, 10), selling(0, 1, 4), selling(1, 1, 5)}, 6, []charge{{minimum: 9}, {minimum: 9}}, false, halves)
	if got, want := fmt.Sprint(w.rungs(0)), "[{0 0} {2 1} {4 2} {5 3} {7 4} {9 5}]"; got != want {
		t.Errorf("S0: got %s, want %s", got, want)
	}
	if got, want := fmt.Sprint(w.rungs(1)), "[{0 0} {2 1} {5 2} {8 3} {10 4} {12 5}]"; got != want {
		t.Errorf("S1: got %s, want %s", got, want)
	}
	if w.ladders[0].all != 10 || w.ladders[1].all != 15 || w.ladders[0].fair || w.ladders[1].fair {
		t.Errorf("all six cost %d and %d, fair %v and %v", w.ladders[0].all, w.ladders[1].all, w.ladders[0].fair, w.ladders[1].fair)
	}
	if first, again := w.rungs(0), w.rungs(0); &first[0] != &again[0] {
		t.Error("the rungs are worked out again")
	}
	w.need, w.ladders[1].kept = mostKept+1, nil
	if a := w.rungs(1); len(a) != mostKept+1 || a[mostKept].pieces != mostKept || &a[0] == &w.rungs(1)[0] {
		t.Errorf("%d rungs to %d pieces, which are not kept", len(a), a[mostKept].pieces)
	}
	w.need, w.ladders[1].kept = mostKept, nil
	if a := w.rungs(1); len(a) != mostKept || &a[0] != &w.rungs(1)[0] {
		t.Errorf("%d rungs are worked out again", len(a))
	}
}

// A pack sent whole is more than a piece: of packs of ten, one to nine pieces are all ten.
func TestPiecesThatAreSent(t *testing.T) {
	w, _ := newWares([]good{selling(0, 10, 70), selling(1, 4, 40)}, 9, []charge{{}, {}}, true, asIs)
	for n := 1; n < 9; n++ {
		if a, b := w.rungs(0)[n], w.rungs(1)[n]; a != (rung{70, 10}) || b != (rung{40 * int64((n+3)/4), 4 * int64((n+3)/4)}) {
			t.Errorf("%d pieces: %v and %v", n, a, b)
		}
	}
}

// All six pieces cost 12 from S0 and 15 from S1. S1's goods may save its minimum of 4 and S0's its minimum of 2 with postage of 3
// that is free from 20: buying all from S0 is dearer than a share only where that costs no more than 12 + 4, all from S1 15 + 5.
func TestWhoMayShare(t *testing.T) {
	goods := []good{selling(0, 1, 2), selling(1, 2, 5)}
	for _, c := range []struct {
		name  string
		need  int64
		a, b  charge
		limit int64 // of the only sharing; 0 for none
	}{
		{"both save", 6, charge{3, 20, 2}, charge{3, never, 4}, 16},
		{"the dearer saves nothing", 6, charge{3, 20, 2}, charge{3, never, 0}, 0},
		{"the dearer saves a little", 6, charge{3, 20, 2}, charge{3, never, 1}, 13},
		{"the dearer saves much", 6, charge{0, never, 1}, charge{0, never, 40}, 16},
		{"the cheaper saves nothing", 6, charge{3, never, 0}, charge{3, never, 4}, 15},
		{"one piece", 1, charge{3, 20, 2}, charge{3, never, 4}, 0},
		{"two pieces", 2, charge{3, 20, 2}, charge{3, never, 4}, 8}, // 4 and 5
	} {
		w, _ := newWares(slices.Clone(goods), c.need, []charge{c.a, c.b}, true, asIs)
		switch {
		case c.limit == 0 && len(w.sharings) != 0, c.limit != 0 && (len(w.sharings) != 1 || w.sharings[0].limit != c.limit):
			t.Errorf("%s: got %v, want a limit of %d", c.name, w.sharings, c.limit)
		}
	}
}

// Five pieces: threes from S0 for 6, pieces from S1 for 3, of which all cost 12 and 15. One to three from S0 are 6 for three that are sent, beside
// 12, 9 and 6 from S1; four would be six, which are enough. Of equal 6 from S0 the 6 from S1 are the least, and below the line from
// (12, 0) to (0, 15): at 6 that is 7.50.
func TestSharesByHand(t *testing.T) {
	charges := []charge{{0, never, 30}, {0, never, 30}}
	w, found := newWares([]good{selling(0, 3, 6), selling(1, 1, 3)}, 5, charges, true, asIs)
	if len(w.sharings) != 1 {
		t.Fatalf("%d sharings", len(w.sharings))
	}
	var got []string
	w.divided(w.sharings[0], func(share, a, b int64) { got = append(got, fmt.Sprint(share, a, b)) })
	// The sharing's first is S1: its pieces, what they cost, and the rest from S0.
	if want := []string{"2 6 6", "3 9 6", "4 12 6"}; !slices.Equal(got, want) {
		t.Errorf("shares are %q, want %q", got, want)
	}
	o := w.divide(w.sharings[0], 2)
	if o.cost != 12 || o.mask != 0b11 || o.at != [2]share{{1, 6}, {0, 6}} || len(o.lines) != 2 || o.lines[0].packs != 2 || o.lines[1].packs != 1 {
		t.Errorf("divided: %+v", o)
	}
	bargains := w.bargains(w.sharings[0])
	if len(bargains) != 1 || bargains[0].cost != 12 || bargains[0].at != o.at {
		t.Errorf("bargains are %+v", bargains)
	}
	// All from S0 for 12, then shared for 12, from more suppliers, then all from S1.
	if len(found) != 3 || found[0].mask != 0b1 || found[1].mask != 0b11 || found[2].mask != 0b10 || found[2].cost != 15 {
		t.Errorf("options are %+v", found)
	}
	// With a limit of 17 the last share is left out, with one of 11 all are.
	for limit, want := range map[int64]int{18: 3, 17: 2, 12: 1, 11: 0} {
		shares := 0
		w.divided(sharing{w.sharings[0].a, w.sharings[0].b, limit}, func(int64, int64, int64) { shares++ })
		if shares != want {
			t.Errorf("with a limit of %d there are %d shares, want %d", limit, shares, want)
		}
	}
	// Of four pieces one or more packs of four from S0 are all of them: nothing is shared.
	w, _ = newWares([]good{selling(0, 4, 6), selling(1, 1, 3)}, 4, charges, true, asIs)
	w.divided(w.sharings[0], func(share, a, b int64) {
		t.Errorf("%d pieces for %d and the rest for %d are more than all", share, a, b)
	})
	// Pieces from both, at prices of whole minor units, are no bargain: every share lies on the line.
	w, _ = newWares([]good{selling(0, 1, 2), selling(1, 1, 3)}, 5, charges, true, asIs)
	if len(w.sharings) != 1 || w.bargains(w.sharings[0]) != nil || !w.ladders[0].fair {
		t.Errorf("bargains of pieces are %+v", w.bargains(w.sharings[0]))
	}
}

// The least of a part that a supplier may sell is a share of its smallest rung, or all where the part is not shared.
func TestTheFewestThatASupplierSells(t *testing.T) {
	w, _ := newWares([]good{selling(0, 3, 6), selling(1, 1, 3)}, 5, []charge{{0, never, 30}, {0, never, 30}}, true, asIs)
	if a, b, c := w.fewest(0), w.fewest(1), w.fewest(2); a != 6./12 || b != 3./15 || c != 1 {
		t.Errorf("got %v, %v and %v, want a half, a fifth and all", a, b, c)
	}
	w.ladders[0].all = 0
	if got := w.fewest(0); got != 0 {
		t.Errorf("of what costs nothing at least %v is sold", got)
	}
	// In the stalls it is that, but nothing for a supplier that also sells a part of a mix.
	for _, e := range []struct {
		options []option
		want    []float64
	}{{[]option{from(0, 12), from(1, 15)}, []float64{0.5, 0.2}}, {[]option{from(0, 12), shared(1, 6, 0, 6), from(1, 15)}, []float64{0, 0, 0, 0}}} {
		w.ladders[0].all = 12
		s := newSearch([]*wares{w}, [][]option{e.options}, []charge{{}, {}})
		var got []float64
		for _, stall := range s.bySupplier {
			for _, entry := range stall {
				got = append(got, entry.fewest)
			}
		}
		if !slices.Equal(got, e.want) {
			t.Errorf("%d options: at least %v, want %v", len(e.options), got, e.want)
		}
	}
}

// An option of two suppliers has an entry with each: its goods there, its part of the cost, and on which side of the shift it is.
func TestStallsByHand(t *testing.T) {
	s := among([]charge{{}, {}}, []option{from(0, 100), shared(0, 30, 1, 90), from(1, 130)}, []option{shared(1, 0, 0, 0)})
	want := [][]entry{
		{{part: 0, id: 0, goods: 100, theta: 1, fewest: 1}, {part: 0, id: 1, goods: 30, theta: 0.25, sign: 1, fewest: 1}, {part: 1, id: 3, goods: 0, theta: 0.5, sign: -1, fewest: 1}},
		{{part: 0, id: 1, goods: 90, theta: 0.75, sign: -1, fewest: 1}, {part: 0, id: 2, goods: 130, theta: 1, fewest: 1}, {part: 1, id: 3, goods: 0, theta: 0.5, sign: 1, fewest: 1}},
	}
	for i := range want {
		if !slices.Equal(s.bySupplier[i], want[i]) {
			t.Errorf("S%d sells %+v, want %+v", i, s.bySupplier[i], want[i])
		}
	}
	if !slices.Equal(s.flat, []uint64{1, 3, 2, 3}) {
		t.Errorf("suppliers of the options are %b", s.flat)
	}
}

// The part that is moved is the one for which that costs least: 0.20, not 0.50, and not where it saves nothing.
func TestWhatIsBroughtToASupplier(t *testing.T) {
	s := among([]charge{{100, never, 0}, {100, never, 0}, {}}, []option{from(0, 500), from(1, 550)}, []option{from(0, 300), from(1, 320)}, []option{from(0, 100)})
	s.record(picked(s, 0, 0, 0))
	s.bring(1)
	if s.second.cost != 4*(500+320+100+200)+2 || s.second.mask != 0b11 {
		t.Errorf("brought: %d from %b", s.second.cost, s.second.mask)
	}
	s.bring(2) // sells nothing
	if s.first.cost != 4*(900+100)+1 || s.second.mask != 0b11 {
		t.Errorf("afterwards %d from %b and %b", s.first.cost, s.first.mask, s.second.mask)
	}
	before := s.work
	if s.cheapestWithin(0b11); s.work != before+3 {
		t.Errorf("%d options were looked at, want the first of each part", s.work-before)
	}
	for allowed, want := range map[uint64]string{0b1: "500 300 100 true", 0b10: "false", 0b11: "500 300 100 true", 0b111: "500 300 100 true"} {
		choice, ok := s.cheapestWithin(allowed)
		got := ""
		for _, o := range choice {
			got += fmt.Sprint(o.cost, " ")
		}
		if got += fmt.Sprint(ok); got != want {
			t.Errorf("within %b: got %s, want %s", allowed, got, want)
		}
	}
	if best, ok := s.single(); !ok || best.cost != 4*1000+1 || best.mask != 0b1 {
		t.Errorf("single is %d from %b", best.cost, best.mask)
	}
	s.start()
	if s.first.mask != 0b1 || s.second.mask != 0b11 {
		t.Errorf("the walk ends at %b and %b", s.first.mask, s.second.mask)
	}
}

// The bargains are the corners of the lower hull, in whatever order the rungs stand: of points between (0, 90) and (120, 0) those that no two
// others lie below or level with. (a, b) of one to five pieces are (50, 40), (20, 60), (70, 20), (20, 50), (110, 10): from (0, 90) to
// (20, 50) falls by 2, on to (70, 20) by 0.6, on to (120, 0) by 0.4; (50, 40) lies above 32 and (110, 10) above 4.
func TestBargainsAreTheHull(t *testing.T) {
	for _, order := range [][]int{{0, 1, 2, 3, 4}, {4, 3, 2, 1, 0}, {2, 0, 3, 1, 4}, {3, 1, 2, 4, 0}} {
		w := &wares{need: 6, amount: asIs, ladders: []ladder{
			{supplier: 0, goods: []good{selling(0, 1, 1)}, all: 120, kept: make([]rung, 6)}, {supplier: 1, goods: []good{selling(1, 1, 1)}, all: 90, kept: make([]rung, 6)},
		}}
		points := [][2]int64{{50, 40}, {20, 60}, {70, 20}, {20, 50}, {110, 10}}
		var want []string
		for n, p := range order {
			w.ladders[0].kept[n+1].cost, w.ladders[1].kept[5-n].cost = points[p][0], points[p][1]
			if p == 2 || p == 3 {
				want = append(want, fmt.Sprint(n+1, " and ", 5-n))
			}
		}
		var got []string
		for _, o := range w.bargains(sharing{0, 1, 1000}) {
			got = append(got, fmt.Sprint(o.lines[0].packs, " and ", o.lines[1].packs))
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%v: bargains are %v, want %v", order, got, want)
		}
	}
}

// Cheaper comes first, of equals what takes fewer suppliers, of these what is there sooner.
func TestWhichOptionIsCheaper(t *testing.T) {
	alone, both := from(0, 500), shared(0, 300, 1, 200)
	late, dear := alone, from(1, 501)
	alone.lead, late.lead = 5, 9
	order := []option{alone, late, both, dear}
	for i, a := range order {
		for j, b := range order {
			if got := cheaper(a, b); got < 0 != (i < j) || got > 0 != (i > j) {
				t.Errorf("%+v beside %+v: got %d", a, b, got)
			}
		}
	}
}
