package tether

import (
	"math"

	"hoistbook/kits/unit"
)

// staysUp proves that no wind up to a measured one brings the line down to the ground, without solving anything:
// T_z(ground) = T_z(top) − w L − ∫ q cos²θ sin θ ds, where cos²θ sin θ is at most 2/√27 and q at most its value at the full
// length of the line.
func (r Rig) staysUp(measured unit.Speed) bool {
	wind := r.Profile.At(r.Line.Length, measured).SI()
	q := 0.5 * r.Air.SI() * r.Line.DragCoefficient * r.Line.Diameter.SI() * wind * wind
	return (r.Lift - r.Line.Mass()).Weight().SI() > 2/math.Sqrt(27)*q*r.Line.Length.SI()
}

// Winds that are looked at below a limit, the closer the weaker they are: a dip in the clearance of the line is broad, about
// a factor of two in wind.
const (
	lookedAt = 24
	narrowed = 20
)

func lookAt(i int, limit unit.Speed) unit.Speed {
	part := unit.Speed(i) / lookedAt
	return limit * part * part
}

// grounds finds a wind below the limit in which the line lies on the ground although it does not in the limit itself, or
// returns the limit. A line that is heavy for its balloon does that: moderate wind presses it down while the balloon still
// pulls little, strong wind pulls it straight. Strong wind flattens it too, so that every dip is followed down, not only the
// deepest of those that are looked at.
func (s Station) grounds(limit unit.Speed) (unit.Speed, error) {
	if s.Rig.staysUp(s.gust(limit)) {
		return limit, nil
	}
	var clear [lookedAt + 1]float64
	for i := range clear {
		var err error
		if clear[i], err = s.clearance(lookAt(i, limit)); err != nil {
			return 0, err
		}
		if clear[i] < 0 {
			return lookAt(i, limit), nil
		}
	}
	for i := 1; i <= lookedAt; i++ {
		next := min(i+1, lookedAt)
		if clear[i] > clear[i-1] || clear[i] > clear[next] {
			continue
		}
		if grounded, err := s.deepest(lookAt(i-1, limit), lookAt(next, limit), limit); err != nil || grounded != limit {
			return grounded, err
		}
	}
	return limit, nil
}

// deepest narrows a dip down by golden sections, until it finds the line on the ground or nothing.
func (s Station) deepest(lo, hi, limit unit.Speed) (unit.Speed, error) {
	const golden = 0.6180339887498949
	for range narrowed {
		left, right := hi-golden*(hi-lo), lo+golden*(hi-lo)
		l, err := s.clearance(left)
		if err != nil {
			return 0, err
		}
		r, err := s.clearance(right)
		if err != nil {
			return 0, err
		}
		switch {
		case l < 0:
			return left, nil
		case l < r:
			hi = right
		default:
			lo = left // what was right is then left, and is looked at again
		}
	}
	return limit, nil
}

// clearance is the smaller of that in the mean wind and that in the gust.
func (s Station) clearance(measured unit.Speed) (float64, error) {
	_, m, foot, err := s.settle(measured)
	if err != nil {
		return 0, err
	}
	mean := m.clearance(foot)
	if _, m, foot, err = s.settle(s.gust(measured)); err != nil {
		return 0, err
	}
	return min(mean, m.clearance(foot)), nil
}
