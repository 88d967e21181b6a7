package kits

import (
	"hoistbook/kits/air"
	"hoistbook/kits/lift"
	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var liftFacts = []*Entry{
	gasFill.Entry, gasDiameter.Entry, gasVolumeHot.Entry, gasLargest.Entry, gasCylinders.Entry, gasCylindersCarried.Entry, gasCylinderAfter.Entry,
	liftGross.Entry, liftGrossEnd.Entry, liftNeck.Entry, liftFree.Entry, liftFreeEnd.Entry, liftFreeNeeded.Entry,
}

var buoyancy = []source.Ref{source.At("archimedes", "")}

var gasFill = quantity("gas.fill_m3", "m3", "Volume of gas filled in",
	"as the manifest says", policy,
	func(c *frame) unit.Volume {
		e := envelope(c)
		return given(c, e.pointer+"/fill_volume", e.f.FillVolume)
	})

var gasDiameter = quantity("gas.diameter_m", "m", "Diameter of the filled balloon",
	"that of a sphere of the fill volume: (6 V / π)^(1/3)", policy,
	func(c *frame) unit.Length { return gasFill.of(c).Diameter() })

var gasVolumeHot = quantity("gas.volume_hot_m3", "m3", "Volume of the gas on the hottest day",
	"elastic: fill volume × hottest ÷ coldest temperature (filled in the morning, warmed by noon); fixed: the fill volume, the rest is vented",
	[]source.Ref{source.At("ideal-gas", "")},
	func(c *frame) unit.Volume {
		e := envelope(c)
		if text(c, e.pointer+"/kind", e.f.Kind) == manifest.Fixed {
			return gasFill.of(c)
		}
		p := airPressure.of(c)
		return try(lift.Warmed(gasFill.of(c), cold(c), hot(c), p, p)).in(c)
	})

var gasLargest = quantity("gas.largest_m3", "m3", "Greatest volume that the envelope may have",
	"as its maker says", policy,
	func(c *frame) unit.Volume {
		e := envelope(c)
		return given(c, e.pointer+"/largest_volume", e.f.LargestVolume)
	})

var realGas = []source.Ref{source.At("ideal-gas", "Z = 1 + B p / (R T)"), source.At("codata-2018", "molar gas constant")}

var gasCylinders = quantity("gas.cylinders", "", "Cylinders of gas for one fill",
	"moles of the fill on the coldest morning ÷ moles in a cylinder, p V / (Z R T), rounded up", realGas,
	func(c *frame) unit.Count {
		each := cylinderMoles(c)
		fill := try(lift.FillMoles(gasFill.of(c), airPressure.of(c), cold(c))).in(c)
		return try(lift.Cylinders(fill, each)).in(c)
	})

// cylinderMoles is what one cylinder holds.
func cylinderMoles(c *frame) lift.Moles { return try(fullCylinder(c).Moles()).in(c) }

func fullCylinder(c *frame) lift.Cylinder {
	k, e := cylinder(c), envelope(c)
	virial := lift.VirialHelium
	if text(c, e.pointer+"/gas", e.f.Gas) == manifest.Hydrogen {
		virial = lift.VirialHydrogen
	}
	return lift.Cylinder{
		WaterVolume: given(c, k.pointer+"/water_volume", k.f.WaterVolume),
		Pressure:    given(c, k.pointer+"/pressure", k.f.Pressure),
		FilledAt:    given(c, k.pointer+"/filled_at", k.f.FilledAt),
		Virial:      virial,
	}
}

var gasCylinderAfter = quantity("gas.cylinder_after_pa", "Pa", "Gauge of the cylinders after the fill on the coldest morning",
	"what is left in the cylinders needed, all open together: moles left × R T ÷ (volume − moles left × B), at the temperature of filling, less the pressure of the air", realGas,
	func(c *frame) unit.Pressure {
		full := fullCylinder(c)
		n := gasCylinders.of(c).SI()
		fill := try(lift.FillMoles(gasFill.of(c), airPressure.of(c), cold(c))).in(c)
		left := try(full.Moles()).in(c) - lift.Moles(float64(fill)/n)
		return max(0, try(full.Holding(left)).in(c)-airPressure.of(c))
	})

var gasCylindersCarried = quantity("gas.cylinders_carried", "", "Cylinders of gas in the kit",
	"quantity of the cylinder part", policy,
	func(c *frame) unit.Count {
		k := cylinder(c)
		return unit.Count(countOr(c, at("parts", k.ref, "quantity"), k.part.Quantity, 1, ""))
	})

var liftGross = quantity("lift.gross_kg", "kg", "Gross lift",
	"fill volume × (air density − gas density), both on the hottest day; a fixed envelope's at the height of the tether paid out", buoyancy,
	func(c *frame) unit.Mass {
		gross := lift.Gross(gasFill.of(c), airHot.of(c), gasHot.of(c))
		e := envelope(c)
		if text(c, e.pointer+"/kind", e.f.Kind) == manifest.Fixed {
			thin := try(air.DensityRatio(given(c, "/station/tether_out", station(c).TetherOut), hot(c))).in(c)
			gross = unit.Mass(gross.SI() * thin.SI())
		}
		return gross
	})

var liftGrossEnd = quantity("lift.gross_end_kg", "kg", "Gross lift at the end of the station time",
	"gross lift × (1 − loss per day)^(days on station)", buoyancy,
	func(c *frame) unit.Mass {
		return try(lift.AtEnd(liftGross.of(c), gasLoss(c), given(c, "/station/duration", station(c).Duration))).in(c)
	})

var liftNeck = quantity("lift.neck_kg", "kg", "Neck lift: what a scale at the filled neck reads",
	"gross lift − worst mass of the envelope", buoyancy,
	func(c *frame) unit.Mass { return lift.Neck(liftGross.of(c), massEnvelopeWorst.of(c)) })

var liftFree = quantity("lift.free_kg", "kg", "Free lift at launch",
	"gross lift − worst mass aloft", buoyancy,
	func(c *frame) unit.Mass { return lift.Free(liftGross.of(c), massAloftWorst.of(c)) })

var liftFreeEnd = quantity("lift.free_end_kg", "kg", "Free lift at the end of the station time",
	"gross lift at the end − worst mass aloft", buoyancy,
	func(c *frame) unit.Mass { return lift.Free(liftGrossEnd.of(c), massAloftWorst.of(c)) })

var liftFreeNeeded = quantity("lift.free_needed_kg", "kg", "Least free lift",
	"least free lift as a share × worst mass aloft", policy,
	func(c *frame) unit.Mass {
		return unit.Mass(leastFreeLift(c).SI() * massAloftWorst.of(c).SI())
	})

func leastFreeLift(c *frame) unit.Ratio {
	return otherwise(c, "/station/least_free_lift", station(c).LeastFreeLift, unit.Ratio(0.2), "least free lift, of the worst mass aloft, when nobody says")
}

func cylinder(c *frame) facet[manifest.Cylinder] {
	return only(c, "cylinder", "the gas cylinder", func(p manifest.Part) *manifest.Cylinder { return p.Cylinder })
}
