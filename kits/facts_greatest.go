package kits

import (
	"hoistbook/kits/lift"
	"hoistbook/kits/manifest"
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
)

// The same fill lifts more in cold air. What more lift makes worse is computed with the greatest lift in the stated range of air,
// and with the masses as they are stated: the pull on the line and on the anchor, the working load's side of the greatest wind, the
// force at the neck. What more lift makes better keeps the lift on the hottest day and the worst masses: height, lean, free lift,
// the neck lift needed.
var greatestFacts = []*Entry{
	liftGrossGreatest.Entry, liftNeckGreatest.Entry, liftFreeGreatest.Entry, liftNeckMost.Entry, liftNeckMostBinds,
}

var liftGrossGreatest = quantity("lift.gross_greatest_kg", "kg", "Greatest gross lift",
	"fill volume × (air density − gas density), both on the coldest day and on the ground: the same fill lifts the most there", buoyancy,
	func(c *frame) unit.Mass { return lift.Gross(gasFill.of(c), airCold.of(c), gasCold.of(c)) })

var liftNeckGreatest = quantity("lift.neck_greatest_kg", "kg", "Greatest neck lift of the fill: what a scale reads on the coldest day",
	"greatest gross lift − mass of the envelope, without its growth allowance", buoyancy,
	func(c *frame) unit.Mass { return lift.Neck(liftGrossGreatest.of(c), massEnvelope.of(c)) })

var liftFreeGreatest = quantity("lift.free_greatest_kg", "kg", "Greatest free lift: what pulls at the anchor in calm",
	"greatest gross lift − mass aloft, without growth allowances", buoyancy,
	func(c *frame) unit.Mass { return lift.Free(liftGrossGreatest.of(c), massAloft.of(c)) })

// greatestNet is the greatest lift less everything aloft but the line. The rig's line weighs its worst; what it may turn out
// lighter is lift.
func greatestNet(c *frame) unit.Mass { return liftFreeGreatest.of(c) + massTetherWorst.of(c) }

// The criteria of the most neck lift.
const (
	byAnchor = "anchor"
	byVolume = "largest volume"
)

// mostNeck is the most that a scale at the neck may read, and what would not bear more.
type mostNeck struct {
	lift  unit.Mass
	binds string
}

var neckMost = shared(func(c *frame) mostNeck {
	b := bearing.of(c)
	working := tetherWorking.of(c)
	most := mostNeck{solve(c, func() (unit.Mass, error) {
		return b.NeckLiftMost(func(s tether.Solution) float64 { return 1 - s.TensionTop.SI()/working.SI() })
	}), string(tether.WithinLoad)}
	holds := holding(c)
	if held := solve(c, func() (unit.Mass, error) { return b.NeckLiftMost(holds) }); held < most.lift {
		most = mostNeck{held, byAnchor}
	}
	if room := roomiest(c, b); c.known() && room < most.lift {
		most = mostNeck{room, byVolume}
	}
	return most
})

// roomiest is the neck lift with which the gas fills the envelope: on the hottest day where the envelope stretches and holds its gas; in
// the coldest air where it does not, as that is when it lifts the most and is full of gas.
func roomiest(c *frame, b tether.Bearing) unit.Mass {
	perVolume := b.LiftPerVolume
	if e := envelope(c); text(c, e.pointer+"/kind", e.f.Kind) == manifest.Fixed {
		perVolume = airCold.of(c) - gasCold.of(c)
	}
	return unit.Mass(b.Largest.SI()*perVolume.SI()) - b.Envelope
}

// bearing is the kit in the gust with a lift that a scale at the neck tells. The balloon is as large as that lift is on the hottest
// day, and is dragged by air as dense as on the coldest.
var bearing = shared(func(c *frame) tether.Bearing {
	return tether.Bearing{
		Rig:           rig.of(c),
		Gust:          stationGust.of(c),
		LiftPerVolume: airHot.of(c) - gasHot.of(c),
		Largest:       gasLargest.of(c),
		Envelope:      massEnvelopeWorst.of(c),
		Hung:          massAloft.of(c) - massEnvelope.of(c) - massTetherWorst.of(c),
	}
})

// holding is by how much the anchor holds a pull, in parts of one.
func holding(c *frame) func(tether.Solution) float64 {
	a := anchor(c)
	factor := anchorFactor(c, a)
	if text(c, a.pointer+"/kind", a.f.Kind) == manifest.FixedAnchor {
		held := anchorHolding.of(c)
		return func(s tether.Solution) float64 { return 1 - factor*s.TensionGround.SI()/held.SI() }
	}
	weight := anchorMass.of(c)
	needs := tether.Anchor{Friction: count(c, a.pointer+"/friction", a.f.Friction), DesignFactor: factor}
	return func(s tether.Solution) float64 {
		needed, err := needs.MassNeeded(s.PullUp, s.PullAcross)
		if err != nil {
			return nan
		}
		return 1 - needed.SI()/weight.SI()
	}
}

var liftNeckMost = quantity("lift.neck_most_kg", "kg", "Most neck lift: the most that the scale may read",
	"the largest neck lift with which, in the gust of the design wind, the line keeps within its working load and the anchor holds, and the gas stays within the largest volume of the envelope; the drag follows the fill", statics,
	func(c *frame) unit.Mass { return neckMost.of(c).lift })

var liftNeckMostBinds = word(nil, "lift.neck_most_binds", "What binds the most neck lift", "what would not bear more lift",
	[]string{string(tether.WithinLoad), byAnchor, byVolume}, statics,
	func(c *frame, _ string) string { return neckMost.of(c).binds })
