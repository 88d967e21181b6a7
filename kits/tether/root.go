package tether

import (
	"fmt"
	"math"
)

// A bracket is an interval at whose ends a continuous function has opposite signs: somewhere inside it is zero.
type bracket struct {
	x, fx float64 // the better end
	y, fy float64 // the other
}

// notNegative returns the end where the function is not negative.
func (b bracket) notNegative() float64 {
	if b.fx >= 0 {
		return b.x
	}
	return b.y
}

const mostIterations = 100

// zero narrows a bracket [lo, hi] of a continuous function to within a tolerance, by Brent's method: inverse quadratic
// interpolation and secants, bisection wherever they would not halve the interval. It evaluates both ends first and fails
// unless their signs differ; it fails for a value that is not a number.
//
// Source: brent.
func zero(f func(float64) (float64, error), lo, hi, tolerance float64) (bracket, error) {
	a, b := lo, hi
	fa, err := f(a)
	if err != nil {
		return bracket{}, err
	}
	fb, err := f(b)
	if err != nil {
		return bracket{}, err
	}
	if !(fa <= 0 && fb >= 0 || fa >= 0 && fb <= 0) {
		return bracket{}, fmt.Errorf("%w: no change of sign between %v and %v", ErrNotConverge, lo, hi)
	}
	c, fc := a, fa
	d := b - a
	e := d
	for range mostIterations {
		if (fb > 0) == (fc > 0) && fb != 0 {
			c, fc = a, fa
			d = b - a
			e = d
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		least := 2*0x1p-52*math.Abs(b) + tolerance/2
		half := (c - b) / 2
		if math.Abs(half) <= least || fb == 0 {
			return bracket{b, fb, c, fc}, nil
		}
		if math.Abs(e) >= least && math.Abs(fa) > math.Abs(fb) {
			d, e = interpolate(a, fa, b, fb, c, fc, half, d, e, least)
		} else {
			d, e = half, half
		}
		a, fa = b, fb
		if math.Abs(d) > least {
			b += d
		} else {
			b += math.Copysign(least, half)
		}
		if fb, err = f(b); err != nil {
			return bracket{}, err
		}
		if math.IsNaN(fb) {
			return bracket{}, fmt.Errorf("%w: no value at %v", ErrNotConverge, b)
		}
	}
	return bracket{}, fmt.Errorf("%w: %d iterations between %v and %v", ErrNotConverge, mostIterations, lo, hi)
}

// interpolate proposes a step from b, or bisects when the proposal leaves the bracket or shrinks too slowly.
func interpolate(a, fa, b, fb, c, fc, half, d, e, least float64) (step, last float64) {
	s := fb / fa
	var p, q float64
	if a == c { // secant
		p, q = 2*half*s, 1-s
	} else { // inverse quadratic
		q, r := fa/fc, fb/fc
		p = s * (2*half*q*(q-r) - (b-a)*(r-1))
		return accept(p, (q-1)*(r-1)*(s-1), half, d, e, least)
	}
	return accept(p, q, half, d, e, least)
}

func accept(p, q, half, d, e, least float64) (step, last float64) {
	if p > 0 {
		q = -q
	}
	p = math.Abs(p)
	if 2*p < math.Min(3*half*q-math.Abs(least*q), math.Abs(e*q)) {
		return p / q, d
	}
	return half, half
}
