package cost

import (
	"fmt"
	"math"
	"runtime"
	"testing"
)

// worked is how much work finding and proving an order takes: entries looked at, which no clock and no other load changes.
func worked(t testing.TB, q Request) int64 {
	t.Helper()
	needs, err := q.needs()
	if err != nil {
		t.Fatal(err)
	}
	s, _, err := q.search(needs, math.NaN())
	if err != nil {
		t.Fatal(err)
	}
	s.run()
	return s.work
}

// The search takes no more work than it did when it was last made faster, within a twentieth. (Another processor rounds
// otherwise, and may turn another way: twice.)
func TestTheSearchTakesNoMoreWork(t *testing.T) {
	most := 1.05
	if runtime.GOARCH != "amd64" {
		most = 2
	}
	hold := func(name string, q Request, was int64) {
		if now := worked(t, q); float64(now) > most*float64(was) {
			t.Errorf("%s takes %d, and took %d", name, now, was)
		}
	}
	for i, s := range readSolved(t) {
		hold(fmt.Sprint("order ", i), s.request(), workOfSolved[i])
	}
	for i, was := range workOfSamples {
		hold(fmt.Sprint("sample ", i), Sample(uint64(i), 4+i, 10+5*i, 3), was)
	}
	for i, was := range workOfSmallParts {
		hold(fmt.Sprint("small parts ", i), smallParts(uint64(i), 3000+1500*i, 4+i, 20+10*i, 2+i%2), was)
	}
}

var (
	workOfSolved = []int64{
		240, 124, 288, 140, 2209, 132, 336, 124, 176, 448, 2150, 4224, 823, 9794, 1200, 1956, 3502, 2086, 849, 4577, 3607, 1434, 5963, 9564, 2034,
		89806, 26464, 2611, 5874, 50774, 5533, 26944, 8131, 63065, 40008, 44456, 20109, 61543, 4955, 20279, 8707, 15270, 3125, 17862, 49814, 5458,
		150247, 112854, 55001, 211795, 108495, 9509, 175129, 39525, 52362, 323694, 28286, 150678, 30163, 219529, 74405, 45924, 47694, 68805, 33113,
		120177, 407511, 290800, 265130, 338240, 399014, 105111, 199105, 694368, 96143, 105390, 455041, 69602, 201142, 950676, 653118, 1007208,
		1757962, 303262, 2397369, 2981060, 543632, 145602, 714566, 425901, 3707930, 998140, 320515, 1724149, 2655846, 1283653, 3167607, 6131757,
		12618610, 3386438,
	}
	workOfSamples    = []int64{82023, 297637, 160811, 491639}
	workOfSmallParts = []int64{16605, 47687, 49316, 949541, 142211, 926539, 201695, 1432737}
)

// The proof begins with a bound for all orders together. It is never above the cost of the best, and seldom far below it.
func TestTheFirstBoundHolds(t *testing.T) {
	close := 0
	for i, solved := range readSolved(t) {
		q := solved.request()
		needs, err := q.needs()
		if err != nil {
			t.Fatal(err)
		}
		s, _, err := q.search(needs, math.NaN())
		if err != nil {
			t.Fatal(err)
		}
		best := float64(solved.Best*s.weight + int64(solved.Parcels))
		s.start()
		s.second.cost = solved.Best*s.weight + int64(solved.Parcels) + 1
		n := s.root()
		n.conclude()
		n.raise(1)
		if n.bound > best+0.5 {
			t.Errorf("order %d: before any step the bound is %v, and %v is the best", i, n.bound, best)
		}
		n.raise(200)
		if n.bound > best+0.5 {
			t.Errorf("order %d: the bound is %v, and %v is the best", i, n.bound, best)
		}
		if n.bound >= 0.99*best {
			close++
		}
	}
	t.Logf("of 100 bounds %d are within a hundredth", close)
	if close < 90 {
		t.Errorf("only %d of 100 bounds are within a hundredth", close)
	}
}
