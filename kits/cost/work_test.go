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
		236, 120, 284, 136, 2229, 128, 332, 120, 172, 444, 2140, 4212, 813, 9806, 1190, 1945, 3490, 2075, 837, 4565, 3596, 1424, 5968,
		9475, 2024, 81276, 26468, 2581, 5855, 50706, 5515, 26927, 8104, 62457, 40038, 44418, 20084, 52311, 4937, 20259, 8706, 14414,
		3107, 17834, 49153, 5424, 139626, 84571, 50788, 190873, 88870, 9469, 150059, 30620, 52383, 304120, 25992, 110336, 30166, 205100,
		69391, 42060, 47706, 67190, 33098, 120786, 388101, 278274, 246349, 311449, 366233, 105099, 178006, 652706, 85448, 100126, 422932,
		69586, 197820, 889528, 632305, 969692, 1690836, 293362, 1737031, 2660038, 534956, 143905, 677972, 406656, 3146370, 970993,
		300622, 1438278, 2581167, 1122329, 2959815, 5113185, 12362111, 3151229,
	}
	workOfSamples    = []int64{81584, 224744, 161359, 428772}
	workOfSmallParts = []int64{16572, 47634, 49240, 849233, 130091, 917563, 200801, 1398953}
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
