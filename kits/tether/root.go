package tether

import (
	"fmt"
	"math"
)

// A sample is a function's value at a place.
type sample struct{ x, y float64 }

// A bracket is an interval at whose ends a continuous function has opposite signs: somewhere inside it is zero. The best end
// is the one where the function is nearer to zero.
type bracket struct{ best, other sample }

// notNegative returns the end where the function is not negative.
func (b bracket) notNegative() float64 {
	if b.best.y >= 0 {
		return b.best.x
	}
	return b.other.x
}

const mostIterations = 100

// zero narrows a bracket [lo, hi] of a continuous function to within a tolerance, by Brent's method: inverse quadratic
// interpolation and secants, bisection wherever they would not shrink the interval fast enough. It evaluates both ends first
// and fails unless their signs differ; it fails for a value that is not a number.
//
// Source: brent.
func zero(f func(float64) (float64, error), lo, hi, tolerance float64) (bracket, error) {
	probe := func(x float64) (sample, error) {
		y, err := f(x)
		if err == nil && math.IsNaN(y) {
			err = fmt.Errorf("%w: no value at %v", ErrNotConverge, x)
		}
		return sample{x, y}, err
	}
	a, err := probe(lo)
	if err != nil {
		return bracket{}, err
	}
	b, err := probe(hi)
	if err != nil {
		return bracket{}, err
	}
	if a.y > 0 && b.y > 0 || a.y < 0 && b.y < 0 {
		return bracket{}, fmt.Errorf("%w: no change of sign between %v and %v", ErrNotConverge, lo, hi)
	}
	c := a // [b, c] is the bracket, a the best before b
	step := b.x - a.x
	last := step
	for range mostIterations {
		if b.y != 0 && (b.y > 0) == (c.y > 0) {
			c = a
			step = b.x - a.x
			last = step
		}
		if math.Abs(c.y) < math.Abs(b.y) {
			a, b, c = b, c, b
		}
		least := 0x1p-51*math.Abs(b.x) + tolerance/2
		half := (c.x - b.x) / 2
		if math.Abs(half) <= least || b.y == 0 {
			return bracket{b, c}, nil
		}
		proposed := propose(a, b, c)
		shrinks := 2*math.Abs(proposed) < math.Min(3*math.Abs(half)-least, math.Abs(last))
		if math.Abs(last) >= least && math.Abs(a.y) > math.Abs(b.y) && shrinks && proposed*half > 0 {
			last, step = step, proposed
		} else {
			last, step = half, half
		}
		a = b
		move := step
		if math.Abs(step) < least {
			move = math.Copysign(least, half)
		}
		if b, err = probe(b.x + move); err != nil {
			return bracket{}, err
		}
	}
	return bracket{}, fmt.Errorf("%w: %d iterations between %v and %v", ErrNotConverge, mostIterations, lo, hi)
}

// propose is the step from b to where a line through two samples, or a sideways parabola through three, is zero.
func propose(a, b, c sample) float64 {
	s := b.y / a.y
	if a.x == c.x {
		return (c.x - b.x) * s / (s - 1)
	}
	q, r := a.y/c.y, b.y/c.y
	return -s * ((c.x-b.x)*q*(q-r) - (b.x-a.x)*(r-1)) / ((q - 1) * (r - 1) * (s - 1))
}
