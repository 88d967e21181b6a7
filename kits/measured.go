package kits

import (
	"hoistbook/kits/fact"
	"hoistbook/kits/lift"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// atSite is the note of a fact that was measured.
const atSite = "measured at the launch site"

// measure puts measured facts in the place of computed ones, so that every fact that reads them follows. The lift at the
// neck is at the end of its chain, and nothing reads it: what follows from it is how full the balloon is.
func (r *run) measure(readings Readings) {
	for id, q := range readings.Facts {
		if id == liftNeck.ID {
			r.measureNeck(id, q, readings)
			continue
		}
		for _, e := range catalogue {
			if subject, ok := fact.Match(e.ID, id); ok && e.Kind == fact.Number && e.Dim == q.Dim {
				r.facts[id] = Fact{ID: id, Subject: subject, Value: fact.Of(q), Notes: []string{atSite}, Entry: e}
			}
		}
	}
}

// measureNeck puts a reading of the scale at the neck in the place of all that the planned fill says of the lift: neither the
// hottest nor the coldest day knows better. The warmest volume of an elastic envelope is the one that this lift has on the
// hottest day.
func (r *run) measureNeck(id string, q unit.Quantity, readings Readings) {
	c := &frame{run: newRun(r.manifest)} // apart: the facts it computes are those of the fill that was planned
	fill := r.fillFor(c, unit.Mass(q.SI), readings)
	r.give(gasFill.Entry, id, q, fill)
	if e := envelope(c); e.f.Kind == manifest.Elastic {
		r.give(gasVolumeHot.Entry, id, q, fill)
	}
	r.give(liftGrossGreatest.Entry, id, q, c.of((unit.Mass(q.SI) + massEnvelope.of(c)).Quantity()))
}

func (r *run) give(e *Entry, from string, reading unit.Quantity, value fact.Value) {
	r.facts[e.ID] = Fact{
		ID: e.ID, Value: value, Entry: e, Notes: []string{"from the reading of " + from + ", " + atSite},
		Inputs: []Input{{Name: from, Value: fact.Of(reading), Symbol: liftNeck.Unit}},
	}
}

// fillFor is the volume of gas with which a scale at the neck reads this, in the terms of the manifest:
//
//	V = (neck lift + worst envelope mass) / (lift per volume)
//
// An elastic envelope is as warm as the air and holds its gas, so its lift does not change with the day: with the volume that
// this gas has on the hottest day, the lift computed for that day is the one measured. A fixed one is full in the air it is
// weighed in, on the ground; where nobody read the temperature, the coldest air gives the least volume and is taken.
func (r *run) fillFor(c *frame, neck unit.Mass, readings Readings) fact.Value {
	e := envelope(c)
	fill := gasFill.of(c)
	gross := liftGross.of(c)
	if text(c, e.pointer+"/kind", e.f.Kind) == manifest.Fixed {
		now := cold(c)
		for _, pointer := range []string{"/station/site/coldest", "/station/site/hottest"} {
			if q, ok := readings.Values[pointer]; ok {
				now = unit.Kelvin(q.SI)
			}
		}
		gross = lift.Gross(fill, density(c, now), gasDensity(c, now))
	}
	volume := unit.Volume(fill.SI() * (neck.SI() + massEnvelopeWorst.of(c).SI()) / gross.SI())
	if c.known() && !(volume > 0 && gross > 0) {
		c.missing("a scale at the neck cannot read %s with this envelope", neck)
	}
	return c.of(volume.Quantity())
}
