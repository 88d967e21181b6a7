package tether

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// scipy.optimize.brentq of scipy 1.10.1 needs so many evaluations of these functions for an absolute tolerance of 1e-10 and
// of 1e-4. The method is the same, its guards differ a little.
func TestBrentIsAsQuickAsAnothersBrent(t *testing.T) {
	for _, c := range []struct {
		name        string
		f           func(float64) float64
		lo, hi      float64
		root        float64
		fine, rough int
	}{
		{"Wallis", func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 2.0945514815423265, 8, 6},
		{"cosine", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607, 8, 6},
		{"exponential", func(x float64) float64 { return math.Exp(x) - 2 }, 0, 5, math.Ln2, 10, 9},
		{"steep", func(x float64) float64 { return math.Atan(50 * (x - 0.3)) }, 0, 10, 0.3, 13, 11},
		{"pole", func(x float64) float64 { return 1/(x+0.01) - 3 }, 0, 10, 1.0/3 - 0.01, 14, 12},
		{"root", func(x float64) float64 { return math.Sqrt(x) - 1.2 }, 0, 50, 1.44, 6, 6},
		{"ninth", func(x float64) float64 { return math.Pow(x, 9) - 0.5 }, 0, 3, math.Pow(0.5, 1.0/9), 16, 14},
		{"logarithm", func(x float64) float64 { return math.Log(x) - 3 }, 1e-3, 100, math.Exp(3), 11, 10},
	} {
		for tolerance, calls := range map[float64]int{1e-10: c.fine, 1e-4: c.rough} {
			for _, ends := range [][2]float64{{c.lo, c.hi}, {c.hi, c.lo}} {
				for _, sign := range []float64{1, -1} {
					count := 0
					found, err := zero(func(x float64) (float64, error) {
						count++
						return sign * c.f(x), nil
					}, ends[0], ends[1], tolerance)
					if err != nil {
						t.Fatalf("%s: %v", c.name, err)
					}
					if !(math.Abs(found.best.x-c.root) <= tolerance) || math.Abs(found.best.y) > math.Abs(found.other.y) {
						t.Errorf("%s within %v: got %v and %v, the root is %v", c.name, tolerance, found.best, found.other, c.root)
					}
					if low, high := min(found.best.x, found.other.x), max(found.best.x, found.other.x); low > c.root+1e-15*high || high < c.root-1e-15*high || found.best.y != 0 && high-low > 1.0001*tolerance+1e-14*high {
						t.Errorf("%s within %v: the bracket from %v to %v, the root is %v", c.name, tolerance, low, high, c.root)
					}
					if sign*c.f(found.notNegative()) < 0 {
						t.Errorf("%s: the end that is not negative is", c.name)
					}
					if count > calls+2 {
						t.Errorf("%s within %v from %v: %d evaluations, scipy needs %d", c.name, tolerance, ends, count, calls)
					}
				}
			}
		}
	}
}

// A line through two samples is zero where it crosses, a sideways parabola x = r + k y + l y² through three at x = r.
func TestProposals(t *testing.T) {
	b, c := sample{2, 3}, sample{5, -6}
	near(t, "line", b.x+propose(c, b, c), 3, 1e-12)
	const root, k, l = 0.7, -0.4, 0.13
	at := func(y float64) sample { return sample{root + k*y + l*y*y, y} }
	for _, y := range [][3]float64{{2, 0.5, -1}, {-3, 0.4, -0.7}, {1.5, -0.2, 0.9}, {-2, -0.5, 1}, {4, 3, -5}} {
		a, b, c := at(y[0]), at(y[1]), at(y[2])
		near(t, "parabola", b.x+propose(a, b, c), root, 1e-12)
	}
}

// A bracket that shrinks by halves only, for as long as it may, and one that never ends.
func TestZeroGivesUp(t *testing.T) {
	count := 0
	_, err := zero(func(x float64) (float64, error) { // each answer is as unhelpful as can be
		count++
		return math.Copysign(1, x-0.3) * math.Exp(-float64(count)/1000), nil
	}, 0, 1e30, 1e-30)
	if !errors.Is(err, ErrNotConverge) || count != mostIterations+2 {
		t.Errorf("got %v after %d evaluations", err, count)
	}
	if found, err := zero(func(x float64) (float64, error) { return math.Copysign(1, x-0.3), nil }, 0, 1, 1e-10); err != nil || math.Abs(found.best.x-0.3) > 1e-10 {
		t.Errorf("a step is found at %v (%v)", found.best.x, err)
	}
}

// A zero at an end, whatever its sign, is found without looking further.
func TestZeroAtAnEnd(t *testing.T) {
	for _, f := range []func(float64) float64{func(x float64) float64 { return x }, func(x float64) float64 { return -x }, func(x float64) float64 { return math.Copysign(0, -1) + x }} {
		for _, ends := range [][2]float64{{0, 1}, {1, 0}, {-1, 0}, {0, -1}} {
			count := 0
			found, err := zero(func(x float64) (float64, error) { count++; return f(x), nil }, ends[0], ends[1], 1e-10)
			if err != nil || found.best.x != 0 || count > 3 {
				t.Errorf("between %v: got %v (%v) after %d evaluations", ends, found.best, err, count)
			}
		}
	}
}

// published is the procedure zero of Brent's book, chapter 4, in its own letters and with p/q kept apart (from memory). It
// returns the places that it looks at.
func published(f func(float64) float64, a, b, t float64) []float64 {
	const macheps = 0x1p-52
	seen := []float64{a, b}
	fa, fb := f(a), f(b)
	c, fc := a, fa
	d := b - a
	e := d
	for len(seen) < 200 {
		if (fb > 0) == (fc > 0) && fb != 0 {
			c, fc = a, fa
			d = b - a
			e = d
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		tol := 2*macheps*math.Abs(b) + t/2
		m := 0.5 * (c - b)
		if math.Abs(m) <= tol || fb == 0 {
			return seen
		}
		if math.Abs(e) < tol || math.Abs(fa) <= math.Abs(fb) {
			d = m
			e = m
		} else {
			var p, q float64
			s := fb / fa
			if a == c {
				p, q = 2*m*s, 1-s
			} else {
				qq, r := fa/fc, fb/fc
				p, q = s*(2*m*qq*(qq-r)-(b-a)*(r-1)), (qq-1)*(r-1)*(s-1)
			}
			if p > 0 {
				q = -q
			} else {
				p = -p
			}
			s, e = e, d
			if 2*p < 3*m*q-math.Abs(tol*q) && p < math.Abs(0.5*s*q) {
				d = p / q
			} else {
				d = m
				e = m
			}
		}
		a, fa = b, fb
		switch {
		case math.Abs(d) > tol:
			b += d
		case m > 0:
			b += tol
		default:
			b -= tol
		}
		fb = f(b)
		seen = append(seen, b)
	}
	return seen
}

// On smooth functions, on steps, poles and flat places, ours looks where the published procedure looks.
func TestZeroLooksWhereThePublishedProcedureLooks(t *testing.T) {
	noise := func(x float64) float64 {
		return math.Sin(12.9898*x)*43758.5453 - math.Floor(math.Sin(12.9898*x)*43758.5453)
	}
	functions := map[string]func(float64) float64{
		"Wallis": func(x float64) float64 { return x*x*x - 2*x - 5 }, "cube": func(x float64) float64 { return math.Pow(x-1, 3) },
		"step": func(x float64) float64 { return math.Copysign(1, x-0.3) }, "uneven step": func(x float64) float64 {
			if x < 1.7 {
				return -1e-3
			}
			return 5
		},
		"pole": func(x float64) float64 { return 1 / (x - 0.123) }, "steep": func(x float64) float64 { return math.Atan(1e4 * (x - 2.2)) }, "ninth": func(x float64) float64 { return math.Pow(x, 9) - 0.5 },
		"corner": func(x float64) float64 { return math.Max(x-2, 0.01*(x-2)) }, "rough": func(x float64) float64 { return x - 0.77 + 0.3*(noise(x)-0.5) },
		"flat": func(x float64) float64 { return math.Copysign(math.Exp(-1/math.Abs(x-1.1)), x-1.1) }, "even": func(x float64) float64 { return x*x - 2 },
	}
	for name, f := range functions {
		for _, ends := range [][2]float64{{-0.6, 5}, {5, -0.6}, {-3, 2.5}, {0.01, 2.3}} {
			if f(ends[0])*f(ends[1]) > 0 {
				continue
			}
			for _, tolerance := range []float64{1e-10, 1e-6, 1e-2} {
				for _, scale := range []float64{1, -1, 1e-9} {
					scaled := func(x float64) float64 { return scale * f(x) }
					want := published(scaled, ends[0], ends[1], tolerance)
					var got []float64
					_, err := zero(func(x float64) (float64, error) {
						got = append(got, x)
						return scaled(x), nil
					}, ends[0], ends[1], tolerance)
					if err != nil && len(want) < mostIterations {
						t.Errorf("%s: %v", name, err)
						continue
					}
					for i := range min(len(got), len(want)) {
						// They round differently, which is amplified where a function is flat.
						if math.Abs(got[i]-want[i]) > 1e-7+tolerance/100 {
							t.Errorf("%s between %v within %v: place %d is %v, the published procedure looks at %v", name, ends, tolerance, i, got[i], want[i])
							break
						}
					}
					if len(want) < mostIterations && len(got) != len(want) {
						t.Errorf("%s between %v within %v: %d places, the published procedure looks at %d", name, ends, tolerance, len(got), len(want))
					}
				}
			}
		}
	}
}

// The same on brackets that are wide, narrow or just as wide as the tolerance, where it is the tolerance that decides about steps: random
// polynomials, steps and broken lines.
func TestZeroLooksWhereThePublishedProcedureLooksWithinRoughTolerances(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	hold := func(what string, f func(float64) float64, hi, tolerance float64) {
		t.Helper()
		want := published(f, 0, hi, tolerance)
		var got []float64
		if _, err := zero(func(x float64) (float64, error) {
			got = append(got, x)
			return f(x), nil
		}, 0, hi, tolerance); err != nil {
			t.Fatal(err)
		}
		same := len(got) == len(want)
		for i := 0; same && i < len(got); i++ {
			same = math.Abs(got[i]-want[i]) <= 1e-11
		}
		if !same {
			t.Errorf("%s to %v within %v: looks at %v, the published procedure at %v", what, hi, tolerance, got, want)
		}
	}
	for range 20_000 {
		root, bend, curl, jump := random.Float64(), 4*random.Float64(), 9*random.Float64(), random.Float64()-0.7
		hold(fmt.Sprintf("root %v, %v, %v, %v", root, bend, curl, jump), func(x float64) float64 {
			d := x - root
			return d + bend*d*math.Abs(d) + curl*d*d*d + max(jump, 0)*math.Copysign(1, d)
		}, 1, math.Pow(10, -4*random.Float64()))

		xs, ys := []float64{0}, []float64{-math.Pow(10, -3*random.Float64())}
		for len(xs) < 3+random.IntN(5) || ys[len(ys)-1] <= 0 {
			xs, ys = append(xs, xs[len(xs)-1]+math.Pow(10, -2*random.Float64())), append(ys, ys[len(ys)-1]+math.Pow(10, -3*random.Float64()))
		}
		hold(fmt.Sprintf("lines through %v, %v", xs, ys), func(x float64) float64 {
			i := 1
			for i < len(xs)-1 && x > xs[i] {
				i++
			}
			return ys[i-1] + (ys[i]-ys[i-1])*(x-xs[i-1])/(xs[i]-xs[i-1])
		}, xs[len(xs)-1], xs[len(xs)-1]*math.Pow(10, -3*random.Float64()))
	}
	// From 0, the better end, to 1 is as far as a tolerance of 1 allows: half of it is the least step.
	count := 0
	if found, err := zero(func(x float64) (float64, error) { count++; return x - 0.1, nil }, 0, 1, 1); err != nil || found.best.x != 0 || count != len(published(func(x float64) float64 { return x - 0.1 }, 0, 1, 1)) || count != 2 {
		t.Errorf("got %v (%v) after %d evaluations, want the better end after 2", found, err, count)
	}
}
