package kits

import (
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
)

// payingOut is the line paid out, its linear mass with the growth allowance.
var payingOut = shared(func(c *frame) tether.Line {
	t := tetherPart(c)
	out := given(c, "/station/tether_out", station(c).TetherOut)
	return tether.Line{
		Length:          out,
		LinearMass:      unit.LinearMass(massTetherWorst.of(c).SI() / out.SI()),
		Diameter:        given(c, t.pointer+"/diameter", t.f.Diameter),
		DragCoefficient: tetherDrag(c),
	}
})

// rig is the kit on its line, with the lift that is left at the end of the station time.
var rig = shared(func(c *frame) tether.Rig {
	return tether.Rig{
		Line: payingOut.of(c),
		Balloon: tether.Balloon{
			Fill:            gasFill.of(c),
			DragCoefficient: balloonDrag(c),
		},
		Lift:    liftGrossEnd.of(c) - (massAloftWorst.of(c) - massTetherWorst.of(c)),
		Air:     airCold.of(c),
		Profile: tether.Profile{MeasuredAt: given(c, "/station/wind/measured_at", wind(c).MeasuredAt), Exponent: windExponent.of(c).SI()},
	}
})

// post is the rig with all that the station demands of it.
var post = shared(func(c *frame) tether.Station {
	r := rig.of(c)
	return tether.Station{
		Rig:         r,
		Demand:      tether.Demand{LowestHeight: stationLowest.of(c), GreatestLean: stationLean.of(c)},
		InitialLift: greatestNet(c),
		GustFactor:  gustFactor(c),
		WorkingLoad: tetherWorking.of(c),
	}
})

// designWind is how the kit stands in the design wind at the end of the station time.
var designWind = shared(func(c *frame) tether.Solution {
	r, speed := rig.of(c), stationWind.of(c)
	return solve(c, func() (tether.Solution, error) { return r.In(speed) })
})

// designGust is how the kit pulls in the gust at launch, on the coldest day.
var designGust = shared(func(c *frame) tether.Solution {
	r, speed := rig.of(c), stationWind.of(c)
	r.Lift = greatestNet(c)
	gust := unit.Speed(speed.SI() * gustFactor(c))
	return solve(c, func() (tether.Solution, error) { return r.In(gust) })
})

// greatestWind is the most wind that the station bears, and what binds it.
var greatestWind = shared(func(c *frame) tether.WindLimit {
	p := post.of(c)
	return solve(c, p.GreatestWind)
})

// solve runs a search whose inputs are all known; with an unknown input there is nothing to search for.
func solve[T any](c *frame, search func() (T, error)) T {
	if !c.known() {
		var none T
		return none
	}
	return try(search()).in(c)
}

// need is what the balloon must be filled for.
var need = shared(func(c *frame) tether.Need {
	gross, end := liftGross.of(c), liftGrossEnd.of(c)
	return tether.Need{
		Rig:           rig.of(c),
		Demand:        tether.Demand{LowestHeight: stationLowest.of(c), GreatestLean: stationLean.of(c)},
		Wind:          stationWind.of(c),
		LiftPerVolume: unit.Density(gross.SI() / gasFill.of(c).SI()),
		Envelope:      massEnvelopeWorst.of(c),
		Hung:          massPayloadWorst.of(c),
		Kept:          unit.Ratio(end.SI() / gross.SI()),
		LeastFreeLift: leastFreeLift(c),
	}
})

// fillNeeded is how full the balloon must be for the design wind.
var fillNeeded = shared(func(c *frame) tether.Fill {
	n := need.of(c)
	return solve(c, n.NeckLiftNeeded)
})

func tetherDrag(c *frame) float64 {
	t := tetherPart(c)
	return countOr(c, t.pointer+"/drag_coefficient", t.f.DragCoefficient, 1.1, "drag coefficient of the line when nobody says")
}

func balloonDrag(c *frame) float64 {
	e := envelope(c)
	return countOr(c, e.pointer+"/drag_coefficient", e.f.DragCoefficient, 0.7, "drag coefficient of the balloon when nobody says: a tethered sphere sways")
}
