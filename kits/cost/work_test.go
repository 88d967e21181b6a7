package cost

import (
	"fmt"
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
	s, divided, _, err := q.search(needs, &Order{})
	if err != nil {
		t.Fatal(err)
	}
	s.run()
	work := s.work
	if d, _ := s.divide(divided); d != s {
		work += d.work
	}
	return work
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
		552, 480, 736, 496, 548, 592, 912, 468, 528, 616, 8904, 4037, 2263, 5504, 2304, 2613, 6804, 2551, 1140, 5760, 6464, 1967, 3340, 6904, 3174,
		45623, 24034, 5455, 10598, 36478, 4911, 43504, 13345, 58170, 28447, 42886, 36770, 33008, 3573, 9119, 6685, 4987, 7514, 14595, 21865,
		14113, 85570, 182598, 71369, 176361, 153560, 29222, 57205, 23218, 96520, 458853, 36176, 93022, 39851, 169475, 42314, 24973, 24646, 49228, 70054,
		36732, 536173, 125277, 379167, 163821, 795905, 86777, 112625, 929730, 33134, 260940, 67023, 81414, 213223, 736313,
		306084, 1210956, 1277902, 275586, 3963703, 1023968, 155979, 127582, 531384, 690503, 4227701, 581309, 1065578, 409518, 1020250, 1246628,
		1729732, 5658912, 1858338, 1621840,
	}
	workOfSamples    = []int64{4984995, 12115094, 38133, 292863}
	workOfSmallParts = []int64{66267, 145078, 141386, 934626, 378022, 1070138, 619230, 3868514}
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
		s, _, _, err := q.search(needs, &Order{})
		if err != nil {
			t.Fatal(err)
		}
		best := float64(solved.Best*s.weight + int64(solved.Parcels))
		n := s.root()
		if first := n.evaluate(make([]float64, len(s.flat)), make([]float64, len(s.flat))); first > best+0.5 {
			t.Errorf("order %d: before any step the bound is %v, and %v is the best", i, first, best)
		}
		n.raise(func() float64 { return best }, 200)
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
