package tether

import (
	"errors"
	"math"
	"testing"
)

// Roots with many known digits: Wallis's cubic x³ − 2x − 5 (1685), the fixed point of the cosine, and one with a flat
// inflection, on which secants alone creep.
func TestZero(t *testing.T) {
	for _, c := range []struct {
		name   string
		f      func(float64) float64
		lo, hi float64
		want   float64
	}{
		{"Wallis", func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 2.0945514815423265},
		{"cosine", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607},
		{"falling", func(x float64) float64 { return x - math.Cos(x) }, 1, 0, 0.7390851332151607},
		{"cube", func(x float64) float64 { return (x - 1) * (x - 1) * (x - 1) }, -3, 7.1, 1},
		{"at an end", func(x float64) float64 { return x }, 0, 1, 0},
		{"at the other end", func(x float64) float64 { return x - 1 }, 0, 1, 1},
		{"a step", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, 0.3},
	} {
		found, err := zero(func(x float64) (float64, error) { return c.f(x), nil }, c.lo, c.hi, 1e-10)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		near(t, c.name, found.best.x, c.want, 2e-10)
		if y := c.f(found.notNegative()); y < 0 {
			t.Errorf("%s: got %v at the end that should not be negative", c.name, y)
		}
	}
}

func TestZeroRefuses(t *testing.T) {
	nan := func(x float64) float64 {
		if x > 0.2 && x < 0.8 {
			return math.NaN()
		}
		return x - 0.5
	}
	for name, f := range map[string]func(float64) float64{
		"no change of sign": func(x float64) float64 { return 1 + x },
		"no number at all":  func(float64) float64 { return math.NaN() },
		"no number inside":  nan,
	} {
		found, err := zero(func(x float64) (float64, error) { return f(x), nil }, 0, 1, 1e-10)
		if !errors.Is(err, ErrNotConverge) {
			t.Errorf("%s: got %v (%v), want an error", name, found, err)
		}
	}
	broken := errors.New("broken")
	for _, at := range []float64{0, 1, 0.5} {
		_, err := zero(func(x float64) (float64, error) {
			if x == at || at == 0.5 && x > 0 && x < 1 {
				return 0, broken
			}
			return x - 0.5, nil
		}, 0, 1, 1e-10)
		if !errors.Is(err, broken) {
			t.Errorf("broken at %v: got %v", at, err)
		}
	}
}
