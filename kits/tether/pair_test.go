package tether

import (
	"math"
	"testing"
)

// The embedded pair as Dormand and Prince print it (table 2 of their paper): nodes, and the weights of the two orders.
var (
	nodes  = [7]float64{0, 1. / 5, 3. / 10, 4. / 5, 8. / 9, 1, 1}
	fifth  = [7]float64{35. / 384, 0, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84, 0}
	fourth = [7]float64{5179. / 57600, 0, 7571. / 16695, 393. / 640, -92097. / 339200, 187. / 2100, 1. / 40}
)

// Each row of the stages adds up to its node, the weights integrate polynomials to their orders, and what is taken for the
// error is the difference of the two.
func TestThePairIsThatOfThePaper(t *testing.T) {
	for i, row := range stages {
		sum := 0.0
		for j, weight := range row {
			if j >= i && weight != 0 {
				t.Errorf("stage %d looks at stage %d", i, j)
			}
			sum += weight
		}
		near(t, "node", sum, nodes[i], 1e-15)
		near(t, "error", fault[i], fifth[i]-fourth[i], 1e-16)
	}
	for j, weight := range stages[6] {
		near(t, "last stage", weight, fifth[j], 1e-16)
	}
	for order := 1; order <= 5; order++ {
		high, low := 0.0, 0.0
		for i, c := range nodes {
			power := math.Pow(c, float64(order-1))
			high += fifth[i] * power
			low += (fifth[i] - fault[i]) * power
		}
		near(t, "order of the fifth", high, 1/float64(order), 1e-14)
		if order <= 4 {
			near(t, "order of the fourth", low, 1/float64(order), 1e-14)
		}
	}
	// A condition that the sums above do not see: Σ b_i a_ij c_j = 1/6.
	sum := 0.0
	for i, row := range stages {
		for j, a := range row {
			sum += fifth[i] * a * nodes[j]
		}
	}
	near(t, "nested", sum, 1./6, 1e-14)
}

// anyMarch is a march of a line of 40 m with weight and drag.
func anyMarch() *march {
	return &march{height: 38, length: 40, tension: 20, angle: 0.4, weight: 0.08, drag: 0.15, metre: 2, twice: 0.3}
}

// independent steps the same equations as vectors, from the printed table.
func independent(m *march, from [3]float64, step float64) (to, wrong [3]float64) {
	slope := func(y [3]float64) [3]float64 {
		f := m.drag * math.Pow(math.Max(m.height-y[1], 0)/m.metre, m.twice) * math.Pow(math.Cos(y[0]), 2)
		return [3]float64{(f + m.weight*math.Sin(y[0])) / (m.tension - m.weight*y[1]), math.Cos(y[0]), math.Sin(y[0])}
	}
	var k [7][3]float64
	for i := range k {
		y := from
		for j := range i {
			for n := range y {
				y[n] += step * stages[i][j] * k[j][n]
			}
		}
		k[i] = slope(y)
	}
	to = from
	for i := range k {
		for n := range to {
			to[n] += step * fifth[i] * k[i][n]
			wrong[n] += step * (fifth[i] - fourth[i]) * k[i][n]
		}
	}
	return to, wrong
}

func TestAStepIsThatOfThePair(t *testing.T) {
	for _, change := range []func(*march){
		func(*march) {}, func(m *march) { m.angle = 0 }, func(m *march) { m.drag, m.weight = 0.9, 0.001 }, func(m *march) { m.weight = 0.4 }, func(m *march) { m.tension, m.angle = 4, 1.2 },
	} {
		m := anyMarch()
		change(m)
		at := point{angle: m.angle, drop: 1.5, drift: 0.7}
		for _, step := range []float64{0.5, 2, 8} {
			var k [7]point
			k[0], _ = m.slope(at)
			got, by := m.step(at, step, &k)
			want, wrong := independent(m, [3]float64{at.angle, at.drop, at.drift}, step)
			near(t, "angle", got.angle, want[0], 1e-13)
			near(t, "drop", got.drop, want[1], 1e-12)
			near(t, "drift", got.drift, want[2], 1e-12)
			far := math.Max(math.Abs(wrong[0]), math.Max(math.Abs(wrong[1]), math.Abs(wrong[2]))/m.length)
			near(t, "error", by, far/1e-7, 1e-6*far/1e-7+1e-5)
		}
	}
}

// The error in the place counts where it is larger than that in the angle: on a short line.
func TestTheErrorOfThePlaceCounts(t *testing.T) {
	m := anyMarch()
	m.length = 0.5
	for _, angle := range []float64{0.2, 0.7, 1.3} {
		at := point{angle: angle}
		var k [7]point
		k[0], _ = m.slope(at)
		_, by := m.step(at, 8, &k)
		_, wrong := independent(m, [3]float64{angle, 0, 0}, 8)
		place := math.Max(math.Abs(wrong[1]), math.Abs(wrong[2])) / m.length
		if place <= math.Abs(wrong[0]) {
			t.Fatal("the error of the angle is the larger: this test shows nothing")
		}
		near(t, "error", by, place/1e-7, 1e-6*place/1e-7)
	}
}

// Where the line would have to push there is no slope, and no step.
func TestALineNeverPushes(t *testing.T) {
	m := anyMarch()
	m.weight = 1
	if _, ok := m.slope(point{drop: 20}); ok {
		t.Error("a line without tension has a slope")
	}
	if _, ok := m.slope(point{drop: 19.999}); !ok {
		t.Error("a line with a little tension has none")
	}
	var k [7]point
	k[0], _ = m.slope(point{drop: 19})
	if _, by := m.step(point{drop: 19}, 8, &k); !math.IsInf(by, 1) {
		t.Errorf("a step beyond the end of the tension is %v wrong", by)
	}
	m.tension = 0
	if foot, ok := m.descend(math.Inf(1), nil); ok || foot != (footing{}) {
		t.Errorf("a march without tension ends at %v", foot)
	}
}

// The march takes few steps where little happens and none that is longer than asked for; what it may be wrong by decides.
func TestStepsOfAMarch(t *testing.T) {
	steps := func(m *march, longest float64) (count int, greatest float64) {
		before := point{angle: m.angle}
		foot, ok := m.descend(longest, func(p point) {
			count++
			greatest = math.Max(greatest, math.Hypot(p.drop-before.drop, p.drift-before.drift))
			before = p
		})
		if !ok || foot.flat || foot.along != m.length || foot.point != before {
			t.Fatalf("the march ends at %+v, last seen %v", foot, before)
		}
		return count, greatest
	}
	still := anyMarch()
	still.drag, still.weight, still.angle = 0, 0, 0
	if count, _ := steps(still, math.Inf(1)); count > 4 { // an eighth, then five times as much, then the rest
		t.Errorf("a straight line takes %d steps", count)
	}
	if count, greatest := steps(still, 4); count < 10 || count > 11 || greatest > 4*(1+1e-9) {
		t.Errorf("%d steps, the greatest of %v", count, greatest)
	}
	// An eighth-order integrator of scipy (DOP853) with a tolerance of 1e-9 sees this line with 15 steps.
	if count, _ := steps(anyMarch(), math.Inf(1)); count < 4 || count > 16 {
		t.Errorf("a bent line takes %d steps", count)
	}
}

// A step that is wrong by half of what it may be is lengthened a little, one far better by five at most, one that is twice
// as wrong shortened (the usual control for order five, exponent 1/5 and safety 0.9).
func TestShrink(t *testing.T) {
	near(t, "twice as wrong", shrink(2), 0.9*math.Pow(2, -0.2), 1e-15)
	near(t, "barely wrong", shrink(1.0001), 0.9, 1e-4)
	near(t, "far too wrong", shrink(1e9), 0.2, 0)
	near(t, "just at a fifth", shrink(math.Pow(4.5, 5)), 0.2, 1e-15)
	for _, wrong := range []float64{math.NaN(), math.Inf(1)} {
		near(t, "no number", shrink(wrong), 0.25, 0)
	}
}

// A heavy line in still air under a slight pull turns flat where the catenary does: at T_z = 0, that is at s = T_z(top)/w.
func TestWhereALineTurnsFlat(t *testing.T) {
	const up, across, weight = 10.0, 3.0, 0.5
	m := &march{height: 15, length: 40, tension: math.Hypot(up, across), angle: math.Atan2(across, up), weight: weight, metre: 2}
	foot, ok := m.descend(math.Inf(1), nil)
	if !ok || !foot.flat {
		t.Fatalf("got %+v, want a flat end", foot)
	}
	near(t, "along", foot.along, up/weight, 1e-4)
	near(t, "angle", foot.angle, math.Pi/2, 1e-6)
	near(t, "drop", foot.drop, (math.Hypot(up, across)-across)/weight, 1e-4)
	near(t, "drift", foot.drift, across/weight*math.Asinh(up/across), 1e-4)
	if c := m.clearance(foot); math.Abs(c-(up/weight/40-1)) > 1e-6 || c >= 0 {
		t.Errorf("the clearance is %v", c)
	}
	whole := footing{point{angle: 1}, m.length, false}
	near(t, "clearance off the ground", m.clearance(whole), math.Cos(1), 1e-15)
	if c := m.clearance(footing{point{angle: math.Pi / 2}, m.length, true}); !(c < 0) {
		t.Errorf("a line that is flat at its very end has a clearance of %v", c)
	}
}

// controlled marches by the usual control of steps, apart from our code: a step that is wrong by more than the tolerance is
// shortened by 0.9 wrong^(−1/5), not below a fifth; after one that is good the next is longer or shorter by the same, not
// beyond five times; the first is an eighth of the line.
func controlled(m *march, longest float64) [][3]float64 {
	y := [3]float64{m.angle, 0, 0}
	var seen [][3]float64
	step, s := math.Min(m.length/8, longest), 0.0
	for {
		h, last := step, s+step >= m.length-1e-9
		if last {
			h = m.length - s
		}
		to, by := independent(m, y, h)
		wrong := math.Max(math.Abs(by[0]), math.Max(math.Abs(by[1]), math.Abs(by[2]))/m.length) / 1e-7
		if wrong > 1 {
			step = h * math.Max(0.2, 0.9*math.Pow(wrong, -0.2))
			continue
		}
		y = to
		seen = append(seen, y)
		if last {
			return seen
		}
		s += h
		step = math.Min(h*math.Min(5, 0.9*math.Pow(wrong+1e-10, -0.2)), longest)
	}
}

func TestStepsAreControlled(t *testing.T) {
	for name, change := range map[string]func(*march){
		"bent": func(*march) {}, "heavy": func(m *march) { m.weight = 0.3 }, "strong wind": func(m *march) { m.drag = 0.5 }, "sheared": func(m *march) { m.twice = 0.8 },
		"nearly straight": func(m *march) { m.drag, m.weight, m.angle = 1e-4, 1e-4, 0.01 }, "straight": func(m *march) { m.drag, m.weight, m.angle = 0, 0, 0 }, "light pull": func(m *march) { m.tension = 9 },
	} {
		for _, longest := range []float64{math.Inf(1), 4, 1.3} {
			m := anyMarch()
			change(m)
			want := controlled(m, longest)
			var got []point
			if _, ok := m.descend(longest, func(p point) { got = append(got, p) }); !ok {
				t.Fatalf("%s: no march", name)
			}
			if len(got) != len(want) {
				t.Errorf("%s, at most %v: %d steps, want %d", name, longest, len(got), len(want))
				continue
			}
			for i, p := range got {
				for n, value := range []float64{p.angle, p.drop, p.drift} {
					if math.Abs(value-want[i][n]) > 1e-6 {
						t.Errorf("%s, at most %v: step %d ends at %v, want %v", name, longest, i, p, want[i])
					}
				}
			}
		}
	}
}
