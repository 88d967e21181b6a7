package kits

import (
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
)

// A Trial is a small departure from the design: what the crew can vary in the field. Zero values leave things as designed.
type Trial struct {
	Out       unit.Length // tether paid out
	Neck      unit.Mass   // neck lift at launch, read from the scale
	AnyHeight bool        // the balloon may sink as low as its lean lets it: on the way down, not at work
}

// GreatestWind is the greatest measured wind that the kit bears in a trial, and what binds it. It is unknown for the reason
// given: an input is missing, or not even calm holds.
func (f *Facts) GreatestWind(t Trial) (limit tether.WindLimit, reason string) {
	c := &frame{run: newRun(f.Manifest)}
	s := post.of(c)
	gross, end, envelope := liftGross.of(c), liftGrossEnd.of(c), massEnvelopeWorst.of(c)
	if t.Out > 0 {
		s.Line.Length = t.Out
	}
	if t.Neck > 0 {
		// The lift of a fill follows its volume: everything that the gas carries grows alike.
		more := (t.Neck + envelope).SI() / gross.SI()
		s.Balloon.Fill = unit.Volume(s.Balloon.Fill.SI() * more)
		s.InitialLift += unit.Mass(gross.SI() * (more - 1))
		s.Lift += unit.Mass(end.SI() * (more - 1))
	}
	if t.AnyHeight {
		s.LowestHeight = 0
	}
	limit = solve(c, s.GreatestWind)
	return limit, c.why()
}

// NeckLiftNeeded is the smallest neck lift with which the station stands in a measured wind, and what binds it.
func (f *Facts) NeckLiftNeeded(wind unit.Speed) (fill tether.Fill, reason string) {
	c := &frame{run: newRun(f.Manifest)}
	n := need.of(c)
	n.Wind = wind
	fill = solve(c, n.NeckLiftNeeded)
	return fill, c.why()
}
