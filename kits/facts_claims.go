package kits

import (
	"math"

	"hoistbook/kits/manifest"
	"hoistbook/kits/power"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

// claimFacts are what a manifest claims in its own favour, and what nature allows it to claim: rules hold one against the
// other, so that no kit is GO by a number that nothing can have.
var claimFacts = []*Entry{
	claimGust.Entry, claimLoss.Entry, claimFreeLift.Entry, claimTransmit.Entry, claimBalloonDrag.Entry, claimSkin.Entry,
	claimTetherFactor.Entry, claimKnot.Entry, claimTetherDrag.Entry, claimTetherDensity.Entry, claimBreaking.Entry, claimFibre.Entry,
	claimFriction.Entry, claimAnchorFactor.Entry, claimGrowth.Entry, claimCellEnergy.Entry, claimSupply.Entry, claimSeparation.Entry,
}

var claimGust = quantity("station.gust_factor", "", "Gust over the mean wind", asSaid, policy,
	func(c *frame) unit.Count { return unit.Count(gustFactor(c)) })

var claimFreeLift = quantity("station.least_free_lift_share", "%", "Least free lift, of the worst mass aloft", asSaid, policy, leastFreeLift)

var claimLoss = quantity("gas.daily_loss_share", "%", "Share of the lift that is lost in a day", asSaid, policy,
	func(c *frame) unit.Ratio { return unit.Ratio(gasLoss(c).SI()) })

var claimTransmit = quantity("station.transmit_share", "%", "Share of the station time in which the relay transmits", asSaid, policy,
	func(c *frame) unit.Ratio {
		share, said := station(c).Duty[manifest.Transmit]
		if !said {
			return given[unit.Ratio](c, "/station/duty/transmit", nil)
		}
		return must(c, "/station/duty/transmit", share)
	})

var claimBalloonDrag = quantity("balloon.drag_coefficient", "", "Drag coefficient of the balloon", asSaid, policy,
	func(c *frame) unit.Count { return unit.Count(balloonDrag(c)) })

// thinnestSkin is the mass of a square metre of the thinnest skin there is, in kg: sounding balloons when they burst.
const thinnestSkin = 0.005

var claimSkin = quantity("mass.skin_least_kg", "kg", "Least mass that a skin of the largest volume can have",
	"5 g/m² × area of a sphere of the largest volume: sounding balloons are so thin when they burst", []source.Ref{source.At("practice", "")},
	func(c *frame) unit.Mass {
		d := gasLargest.of(c).Diameter().SI()
		return unit.Mass(thinnestSkin * math.Pi * d * d)
	})

var claimTetherFactor = quantity("tether.design_factor", "", "Design factor of the tether", asSaid, policy,
	func(c *frame) unit.Count { return unit.Count(tetherFactor(c)) })

var claimKnot = quantity("tether.knot_share", "%", "Share of the strength that knots and splices leave", asSaid, policy, knotEfficiency)

var claimTetherDrag = quantity("tether.drag_coefficient", "", "Drag coefficient of the line", asSaid, policy,
	func(c *frame) unit.Count { return unit.Count(tetherDrag(c)) })

var claimTetherDensity = quantity("tether.density_kg_m3", "kg/m3", "Mass of the line over the volume that its diameter gives",
	"linear mass ÷ (π ÷ 4 × diameter²)", policy,
	func(c *frame) unit.Density {
		t := tetherPart(c)
		return unit.Density(given(c, t.pointer+"/linear_mass", t.f.LinearMass).SI() / tetherSection(c))
	})

var claimBreaking = quantity("tether.breaking_n", "N", "Breaking strength of the line", asSaid, policy,
	func(c *frame) unit.Force {
		t := tetherPart(c)
		return given(c, t.pointer+"/breaking_strength", t.f.BreakingStrength)
	})

// strongestFibre is the tensile strength of the strongest fibres that lines are made of, in Pa.
const strongestFibre = 3.6e9

var claimFibre = quantity("tether.strongest_n", "N", "Breaking strength of a rod of the strongest fibre as thick as the line",
	"3.6 GPa × π ÷ 4 × diameter²", []source.Ref{source.At("fibres", "high-modulus polyethylene, to 3.6 GPa")},
	func(c *frame) unit.Force { return unit.Force(strongestFibre * tetherSection(c)) })

// tetherSection is the area of the line's section in m².
func tetherSection(c *frame) float64 {
	t := tetherPart(c)
	d := given(c, t.pointer+"/diameter", t.f.Diameter).SI()
	return math.Pi / 4 * d * d
}

var claimFriction = quantity("anchor.friction", "", "Friction of the anchor on the ground", asSaid, policy,
	func(c *frame) unit.Count {
		a := anchor(c)
		return unit.Count(count(c, a.pointer+"/friction", a.f.Friction))
	})

var claimAnchorFactor = quantity("anchor.design_factor", "", "Design factor of the anchor", asSaid, policy,
	func(c *frame) unit.Count { return unit.Count(anchorFactor(c, anchor(c))) })

var claimGrowth = quantity("mass.growth_share", "%", "By how much the worst mass aloft exceeds the mass aloft",
	"worst mass aloft ÷ mass aloft − 1", growth,
	func(c *frame) unit.Ratio { return unit.Ratio(massAloftWorst.of(c).SI()/massAloft.of(c).SI() - 1) })

var claimCellEnergy = member(batteries, "power.batteries.*.energy_possible_wh", "Wh", "Energy that the best cells of this mass hold",
	"mass of the pack × specific energy of the best cells: lithium-ion and lithium polymer 300, lithium iron phosphate 200, nickel-metal hydride 120, lead 50, alkaline 200 Wh/kg",
	[]source.Ref{source.At("specific-energy", "")},
	func(c *frame, ref string) unit.Energy {
		p := part(c, ref)
		mass := given(c, at("parts", ref, "mass"), p.Mass)
		best := power.MostEnergy(power.Chemistry(text(c, at("parts", ref, "battery", "chemistry"), p.Battery.Chemistry)))
		return unit.Energy(mass.SI() * best * 3600)
	})

var claimSupply = member(transmitters, "radio.transmitters.*.supply_w", "W", "Power that the transmitter takes while it transmits",
	"current in the state of transmitting × highest voltage at the module", []source.Ref{source.At("ohm", "")},
	func(c *frame, ref string) unit.Power {
		load := part(c, ref).Load
		if load == nil {
			c.missing("the supply of %s is not described (%s)", ref, at("parts", ref, "load"))
			return unit.Power(nan)
		}
		amps, said := load.Current[manifest.Transmit]
		if !said {
			return unit.Power(given[unit.Current](c, at("parts", ref, "load", "current", "transmit"), nil))
		}
		return unit.Power(must(c, at("parts", ref, "load", "current", "transmit"), amps).SI() * loadHighest.at(c, ref).SI())
	})

var claimSeparation = quantity("radio.antenna_separation_m", "m", "Distance between the relay's antennas", asSaid, policy,
	func(c *frame) unit.Length {
		a := c.run.manifest.Antennas
		if a == nil {
			a = &manifest.Antennas{}
		}
		return given(c, "/antennas/separation", a.Separation)
	})
