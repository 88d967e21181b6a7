package kits

import (
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
)

// A Standing is how the kit stands in one wind at the end of the station time, for a drawing.
type Standing struct {
	tether.Solution
	Wind   unit.Speed     // as measured
	Line   []tether.Point // from the anchor to the balloon
	Reason string         // why nothing of it is known, or empty
}

// linePieces is how finely a line is drawn.
const linePieces = 40

// Stand is how the kit stands in a wind.
func (f *Facts) Stand(wind unit.Speed) Standing {
	c := &frame{run: newRun(f.Manifest)}
	r := rig.of(c)
	s := Standing{Wind: wind}
	s.Solution = solve(c, func() (tether.Solution, error) { return r.In(wind) })
	s.Line = solve(c, func() ([]tether.Point, error) { return r.Shape(wind, linePieces) })
	s.Reason = c.why()
	return s
}
