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

// A Sweep tries departures from one design. It holds what all trials have in common, so that a trial costs its search and no more, however
// many parts the kit has. It is not changed by them: trials may run side by side.
type Sweep struct {
	run                  *run
	post                 tether.Station
	gross, end, envelope unit.Mass
	lightest             unit.Mass // what the neck lift carries besides the line, at its lightest; see greatestNet
	noPost               string    // why there is nothing to try, or empty
	need                 tether.Need
	noNeed               string
}

// Sweep prepares trials of the design.
func (f *Facts) Sweep() *Sweep {
	w := &Sweep{run: newRun(f.Manifest)}
	c := &frame{run: w.run}
	w.post = post.of(c)
	w.gross, w.end, w.envelope = liftGross.of(c), liftGrossEnd.of(c), massEnvelopeWorst.of(c)
	w.lightest = massAloft.of(c) - massEnvelope.of(c) - massTetherWorst.of(c)
	w.noPost = c.why()
	c = &frame{run: w.run}
	w.need = need.of(c)
	w.noNeed = c.why()
	return w
}

// GreatestWind is the greatest measured wind that the kit bears in a trial, and what binds it. It is unknown for the reason
// given: an input is missing, or not even calm holds.
func (w *Sweep) GreatestWind(t Trial) (limit tether.WindLimit, reason string) {
	if w.noPost != "" {
		return limit, w.noPost
	}
	s := w.post
	if t.Out > 0 {
		s.Line.Length = t.Out
	}
	if t.Neck > 0 {
		// The lift of a fill follows its volume: everything that the gas carries grows alike. What the scale read is also the most.
		more := (t.Neck + w.envelope).SI() / w.gross.SI()
		s.Balloon.Fill = unit.Volume(s.Balloon.Fill.SI() * more)
		s.Lift += unit.Mass(w.end.SI() * (more - 1))
		s.InitialLift = t.Neck - w.lightest
	}
	if t.AnyHeight {
		s.LowestHeight = 0
	}
	c := &frame{run: w.run}
	limit = solve(c, s.GreatestWind)
	return limit, c.why()
}

// NeckLiftNeeded is the smallest neck lift with which the station stands in a measured wind, and what binds it.
func (w *Sweep) NeckLiftNeeded(wind unit.Speed) (fill tether.Fill, reason string) {
	if w.noNeed != "" {
		return fill, w.noNeed
	}
	n := w.need
	n.Wind = wind
	c := &frame{run: w.run}
	fill = solve(c, n.NeckLiftNeeded)
	return fill, c.why()
}
