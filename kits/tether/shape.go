package tether

import (
	"slices"

	"hoistbook/kits/unit"
)

// A Point of the line, from the anchor.
type Point struct {
	Drift  unit.Length // downwind
	Height unit.Length
}

// Shape is the line from the anchor to the balloon in pieces no longer than its length/pieces, for a drawing.
func (r Rig) Shape(measured unit.Speed, pieces int) ([]Point, error) {
	s, m, err := r.stand(measured)
	if err != nil {
		return nil, err
	}
	points := []Point{{s.Drift, s.Height}}
	longest := m.length / float64(max(pieces, 1))
	_, ok := m.descend(longest, func(p point) {
		points = append(points, Point{s.Drift - unit.Length(p.drift), s.Height - unit.Length(p.drop)})
	})
	if !ok {
		return nil, ErrNotConverge
	}
	points[len(points)-1] = Point{}
	slices.Reverse(points)
	return points, nil
}
