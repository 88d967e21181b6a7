package kits

import (
	"slices"

	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
)

var tetherFacts = []*Entry{
	windExponent.Entry, windAtBalloon.Entry, windDrag.Entry, windGreatest.Entry, windGreatestGust.Entry, windBinds, windRead.Entry,
	tetherHeight.Entry, tetherDrift.Entry, tetherDriftGreatest.Entry, tetherLean.Entry, tetherExplained.Entry, tetherTop.Entry, tetherGround.Entry, tetherPeak.Entry, tetherWorking.Entry,
	tetherLength.Entry, anchorNeeded.Entry, anchorMass.Entry,
	liftNeckNeeded.Entry, liftNeckBinds, liftFillNeeded.Entry,
}

var statics = []source.Ref{source.At("berteaux", "statics of a line in a stream"), source.At("hoerner", "cross-flow principle")}

var windExponent = quantity("wind.exponent", "", "Exponent of the terrain in the power law of the wind",
	"water 0.10, open grass 0.15, rough with crops and hedges 0.20, wooded 0.25, small town 0.30, city 0.40; for level ground",
	[]source.Ref{source.At("patel", "")},
	func(c *frame) unit.Count {
		exponent, ok := tether.Terrain(text(c, "/station/wind/terrain", wind(c).Terrain)).Exponent()
		if !ok {
			c.missing("no wind exponent is known for the terrain %q", wind(c).Terrain)
		}
		return unit.Count(exponent)
	})

var windAtBalloon = quantity("wind.at_balloon_m_s", "m/s", "Wind at the balloon in the design wind",
	"design wind × (height ÷ height of measurement)^(exponent of the terrain)",
	[]source.Ref{source.At("patel", "")},
	func(c *frame) unit.Speed {
		_, _ = tetherHeight.of(c), windExponent.of(c)
		return designWind.of(c).WindAtBalloon
	})

var windDrag = quantity("wind.balloon_drag_n", "N", "Drag of the balloon in the design wind",
	"½ × air density on the coldest day × wind at the balloon² × drag coefficient × area of a sphere of the fill volume",
	[]source.Ref{source.At("hoerner", ""), source.At("govardhan", "tethered spheres")},
	func(c *frame) unit.Force { return designWind.of(c).BalloonDrag })

var tetherHeight = quantity("tether.height_m", "m", "Height of the balloon in the design wind",
	"the height whose line, marched down from the balloon, just reaches the ground; lift of the end of the station time", statics,
	func(c *frame) unit.Length { return designWind.of(c).Height })

var tetherDrift = quantity("tether.drift_m", "m", "Drift of the balloon in the design wind",
	"how far downwind of the anchor the same line ends", statics,
	func(c *frame) unit.Length { return designWind.of(c).Drift })

var tetherDriftGreatest = quantity("tether.drift_greatest_m", "m", "Farthest that the balloon hangs downwind",
	"how far downwind of the anchor the line ends in a gust of the greatest wind, with the lift of the end of the station time", statics,
	func(c *frame) unit.Length {
		r, gust := rig.of(c), windGreatestGust.of(c)
		return solve(c, func() (tether.Solution, error) { return r.In(gust) }).Drift
	})

var tetherLean = quantity("tether.lean_deg", "deg", "Lean of the line in the design wind",
	"angle from the vertical of the straight line from anchor to balloon", statics,
	func(c *frame) unit.Angle { return designWind.of(c).Lean })

// windRead is what a crew reads the mean wind in place of: less than planned does not make the design calmer, but tells how the line
// should lean now.
var windRead = quantity("wind.read_m_s", "m/s", "Mean wind before the launch, as read; until then the planned one", "design wind", policy,
	func(c *frame) unit.Speed { return stationWind.of(c) })

// A lean that somebody watches for a minute and sights along a protractor with a plumb line follows the strongest minute of the ten
// over which the wind was meant, and may be misread.
const (
	minuteFactor = 1.21
	byEye        = "5 deg"
)

var tetherExplained = quantity("tether.lean_explained_deg", "deg", "Lean of the line that the wind explains",
	"lean in 1.21 × the mean wind that was read, the strongest minute of ten over open country, with the lift of the end of the station time, and 5° for reading by eye",
	slices.Concat(statics, []source.Ref{source.At("wmo-1555", "table 1.1, in-land"), source.At("practice", "protractor with a plumb line, read by eye to 5°")}),
	func(c *frame) unit.Angle {
		r, wind := rig.of(c), windRead.of(c)
		stands := solve(c, func() (tether.Solution, error) { return r.In(unit.Speed(minuteFactor * wind.SI())) })
		return stands.Lean + unit.Must[unit.Angle](byEye)
	})

var tetherTop = quantity("tether.tension_top_n", "N", "Tension at the balloon in the design wind",
	"√(drag² + net lift²)", statics,
	func(c *frame) unit.Force { return designWind.of(c).TensionTop })

var tetherGround = quantity("tether.tension_ground_n", "N", "Tension at the ground in the design wind",
	"what is left of the tension at the foot of the line", statics,
	func(c *frame) unit.Force { return designWind.of(c).TensionGround })

var tetherPeak = quantity("tether.tension_peak_n", "N", "Peak tension, in the gust with the greatest lift",
	"greatest tension anywhere on the line in design wind × gust factor, with the lift at launch on the coldest day", statics,
	func(c *frame) unit.Force { return designGust.of(c).TensionTop })

var tetherWorking = quantity("tether.working_load_n", "N", "Working load of the tether",
	"breaking strength × knot efficiency ÷ design factor",
	[]source.Ref{source.At("ci-1401", "design factor")},
	func(c *frame) unit.Force {
		t := tetherPart(c)
		breaking := given(c, t.pointer+"/breaking_strength", t.f.BreakingStrength)
		return try(tether.WorkingLoad(breaking, knotEfficiency(c), tetherFactor(c))).in(c)
	})

func knotEfficiency(c *frame) unit.Ratio {
	t := tetherPart(c)
	return otherwise(c, t.pointer+"/knot_efficiency", t.f.KnotEfficiency, unit.Ratio(0.5), "strength that a knot leaves when nobody says")
}

func tetherFactor(c *frame) float64 {
	t := tetherPart(c)
	return countOr(c, t.pointer+"/design_factor", t.f.DesignFactor, 10, "design factor of the tether when nobody says; CI 1401 gives 5 to 12, untrained crews take the high end")
}

var tetherLength = quantity("tether.length_m", "m", "Length of tether in the kit", asSaid, policy,
	func(c *frame) unit.Length {
		t := tetherPart(c)
		return given(c, t.pointer+"/length", t.f.Length)
	})

var windGreatest = quantity("wind.greatest_m_s", "m/s", "Greatest wind, as measured",
	"the largest measured wind in which lean and height (mean wind, lift at the end on the hottest day) and working load (gust, lift at launch on the coldest day) all hold", statics,
	func(c *frame) unit.Speed { return greatestWind.of(c).Wind })

var anchorNeeded = quantity("anchor.mass_needed_kg", "kg", "Mass that the anchor needs",
	"design factor × (upward pull + sideways pull ÷ friction) ÷ g, in the gust with the greatest lift",
	[]source.Ref{source.At("statics", "")},
	func(c *frame) unit.Mass {
		a := anchor(c)
		if text(c, a.pointer+"/kind", a.f.Kind) != manifest.DeadweightAnchor {
			c.missing("%s is not a deadweight: whoever set it answers for its holding", a.ref)
		}
		needs := tether.Anchor{
			Friction:     count(c, a.pointer+"/friction", a.f.Friction),
			DesignFactor: anchorFactor(c, a),
		}
		peak := designGust.of(c)
		return try(needs.MassNeeded(peak.PullUp, peak.PullAcross)).in(c)
	})

var anchorMass = quantity("anchor.mass_kg", "kg", "Mass of the anchor", asSaid, policy,
	func(c *frame) unit.Mass {
		a := anchor(c)
		return given(c, a.pointer+"/mass", a.f.Mass)
	})

func anchor(c *frame) facet[manifest.Anchor] {
	return only(c, "anchor", "the anchor", func(p manifest.Part) *manifest.Anchor { return p.Anchor })
}

func anchorFactor(c *frame, a facet[manifest.Anchor]) float64 {
	return countOr(c, a.pointer+"/design_factor", a.f.DesignFactor, 2, "design factor of the anchor when nobody says")
}

func wind(c *frame) *manifest.Wind {
	if w := station(c).Wind; w != nil {
		return w
	}
	return &manifest.Wind{}
}

func gustFactor(c *frame) float64 {
	return countOr(c, "/station/wind/gust_factor", wind(c).GustFactor, 1.5, "gust over mean wind when nobody says")
}

var windGreatestGust = quantity("wind.greatest_gust_m_s", "m/s", "Greatest gust, as measured",
	"greatest wind × gust factor", policy,
	func(c *frame) unit.Speed { return unit.Speed(windGreatest.of(c).SI() * gustFactor(c)) })

var windBinds = word(nil, "wind.binds", "What binds the greatest wind", "the criterion that more wind would break first", criteria, statics,
	func(c *frame, _ string) string { return string(greatestWind.of(c).Binds) })

var criteria = []string{string(tether.LowestHeight), string(tether.GreatestLean), string(tether.WithinLoad), string(tether.FreeLift), string(tether.OffGround)}

var liftNeckNeeded = quantity("lift.neck_needed_kg", "kg", "Neck lift needed: the least that the scale must read",
	"the smallest neck lift with which, at the end of the station time, least free lift, lowest height and greatest lean all hold in the design wind; the drag follows the fill", statics,
	func(c *frame) unit.Mass { return fillNeeded.of(c).NeckLift })

var liftFillNeeded = quantity("gas.fill_needed_m3", "m3", "Fill that gives the neck lift needed",
	"gross lift of the neck lift needed ÷ lift per volume", statics,
	func(c *frame) unit.Volume { return fillNeeded.of(c).Volume })

var liftNeckBinds = word(nil, "lift.neck_binds", "What binds the neck lift needed", "the criterion that a smaller fill would break first", criteria, statics,
	func(c *frame, _ string) string { return string(fillNeeded.of(c).Binds) })
