package cost

import "testing"

// taking is a pool of ways from S0 and S1, and how often the relaxed problem took each.
func taking(part int, taken []float64, options ...option) pool {
	o := pool{part: part}
	for n, x := range options {
		o.ways = append(o.ways, way{ga: x.at[0].goods, gb: x.at[1].goods, a: int32(x.at[0].supplier), b: int32(x.at[1].supplier), taken: taken[n]})
	}
	return o
}

// Of 1.00 taken once and 2.00 taken three times the mean is 1.75, from which they are 0.75 and 0.25 apart, 0.375 on average.
func TestSpreadByHand(t *testing.T) {
	goods := func(w *way) float64 { return float64(w.ga) }
	o := taking(0, []float64{1, 3, 0}, from(0, 100), from(0, 200), from(0, 900))
	if mean, spread := o.spread(goods); mean != 175 || spread != 37.5 {
		t.Errorf("mean %v and spread %v", mean, spread)
	}
	o = taking(0, []float64{0, 0}, from(0, 100), from(0, 200))
	if mean, spread := o.spread(goods); mean != 0 || spread != 0 {
		t.Errorf("of none taken: mean %v and spread %v", mean, spread)
	}
	for least, want := range map[int64]bool{0: false, 100: false, 101: true, 200: true, 201: false} {
		if got := o.parted(func(w *way) bool { return w.ga >= least }); got != want {
			t.Errorf("%d divides the ways: %v", least, got)
		}
	}
}

// At a multiplier of a half at S0 the ways of the second part are 1.00 apart in worth, those of the first 0.50, the third's are from
// S1, where goods are worth nothing.
func TestWhichPartWavers(t *testing.T) {
	k := &knot{open: []pool{
		taking(0, []float64{1, 1}, from(0, 100), from(0, 200)), taking(1, []float64{1, 1}, from(0, 100), from(0, 300)),
		taking(2, []float64{1, 1}, from(1, 100), from(1, 900)), taking(3, []float64{1, 1}, from(0, 300), from(0, 100)),
	}}
	if got := k.wavering(); got != -1 {
		t.Errorf("where goods are worth nothing part %d wavers", got)
	}
	k.lambda[0] = unity / 2
	if got := k.wavering(); got != 1 {
		t.Errorf("part %d wavers", got)
	}
}

// Two rows are touched by the dearest steps that only one of them chooses: that for 0.20, not the one for 0.10. One that both choose,
// none chooses, or that touches one alone, is not disputed.
func TestWhichPartIsDisputed(t *testing.T) {
	steps := func(pool, way int, price int64, goods ...int64) turn {
		return turn{pool: pool, steps: []step{{way: way, price: price, goods: goods}}}
	}
	chosen := [][]int{{1}, {2}, {3, 3}, {9}, {5}, {2}}
	one, two, both, none, alone, equal := steps(0, 1, 10, 5, -3), steps(1, 2, 20, 1, 1), steps(2, 3, 90, 1, 1), steps(3, 4, 80, 1, 1), steps(4, 5, 70, 0, 4), steps(5, 2, 20, 1, -1)
	for _, c := range []struct {
		turns []turn
		want  int
	}{
		{[]turn{one, two, both, none, alone}, 1}, {[]turn{both, two, one}, 1}, {[]turn{none, one}, 0}, {[]turn{alone, both, none}, 4}, {[]turn{two, equal}, 1}, {[]turn{equal, two}, 5},
		{[]turn{both, steps(0, 1, 0, 5, -3)}, 0}, // at no price, but disputed
	} {
		if got := disputed(c.turns, chosen); got != c.want {
			t.Errorf("%+v: part %d is disputed, want %d", c.turns, got, c.want)
		}
	}
}

// The halves part at the mean of what is taken, the mean with the lower, and that of the relaxed problem's way comes first. Where always the
// same is taken it is that against the rest.
func TestHalvesByHand(t *testing.T) {
	for _, c := range []struct {
		name  string
		taken []float64
		best  int
		ways  []option
		want  []string
	}{
		{"at 2.00", []float64{1, 1, 0}, 0, []option{from(0, 100), from(0, 300), from(1, 250)}, []string{"7: 50; 0: 100 250; ", "7: 50; 0: 300; "}},
		{"the upper first", []float64{1, 1, 0}, 1, []option{from(0, 100), from(0, 300), from(1, 250)}, []string{"7: 50; 0: 300; ", "7: 50; 0: 100 250; "}},
		{"the mean itself", []float64{1, 0, 1}, 0, []option{from(0, 100), from(0, 200), from(0, 300)}, []string{"7: 50; 0: 100 200; ", "7: 50; 0: 300; "}},
		{"best is the mean", []float64{1, 2, 1}, 1, []option{from(0, 100), from(0, 200), from(0, 300)}, []string{"7: 50; 0: 100 200; ", "7: 50; 0: 300; "}},
		{"by S1, where they are further apart", []float64{1, 0, 1}, 0, []option{shared(0, 100, 1, 100), shared(0, 110, 1, 500), shared(0, 120, 1, 900)}, []string{"7: 50; 0: 200 610; ", "7: 50; 0: 1020; "}},
		{"always the same", []float64{0, 4, 0}, 1, []option{from(0, 100), from(0, 200), from(0, 300)}, []string{"7: 50; 0: 200; ", "7: 50; 0: 100 300; "}},
		{"only one", []float64{0}, 0, []option{from(0, 100)}, []string{"7: 50; 0: 100; "}},
	} {
		o := taking(0, c.taken, c.ways...)
		o.best = c.best
		k := &knot{open: []pool{o, taking(7, []float64{0}, from(0, 50))}}
		var got []string
		for _, half := range k.halves(0) {
			got = append(got, costs(half))
		}
		if len(got) != len(c.want) || got[0] != c.want[0] || len(got) == 2 && got[1] != c.want[1] {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
