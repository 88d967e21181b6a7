package kits

import (
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
)

// A Standing is how the kit stands in one wind at the end of the station time, for a drawing.
type Standing struct {
	Wind   unit.Speed     // as measured
	Line   []tether.Point // from the anchor to the balloon; empty when it is not known
	Reason string         // why it is not
}

// linePieces is how finely a line is drawn.
const linePieces = 40

// Stand draws the line in a wind.
func (f *Facts) Stand(wind unit.Speed) Standing {
	c := &frame{run: newRun(f.Manifest)}
	r := rig.of(c)
	line := solve(c, func() ([]tether.Point, error) { return r.Shape(wind, linePieces) })
	if !c.known() {
		return Standing{Wind: wind, Reason: c.why()}
	}
	return Standing{Wind: wind, Line: line}
}
