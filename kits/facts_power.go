package kits

import (
	"math"

	"hoistbook/kits/manifest"
	"hoistbook/kits/power"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var powerFacts = []*Entry{
	railLowest.Entry, railHighest.Entry, railGreatest.Entry,
	loadLowest.Entry, loadHighest.Entry, loadRatedLow.Entry, loadRatedHigh.Entry, loadDamaged.Entry,
	converterKind, converterSourceLow.Entry, converterSourceHigh.Entry, converterInputLow.Entry, converterInputHigh.Entry,
	converterGreatest.Entry, converterAllowed.Entry, converterDissipation.Entry, converterDissipationAllowed.Entry,
	fuseNeeded.Entry, fuseRating.Entry,
}

var (
	rails = &family{"power.rails", func(c *frame) []string {
		var ids []string
		for _, r := range powerAnalysis.of(c).Rails {
			ids = append(ids, r.ID)
		}
		return ids
	}}
	loads      = &family{"power.loads", refsOf(func(p manifest.Part) bool { return p.Load != nil })}
	converters = &family{"power.converters", refsOf(func(p manifest.Part) bool { return p.Converter != nil })}
	fuses      = &family{"power.fuses", refsOf(func(p manifest.Part) bool { return p.Fuse != nil })}
	batteries  = &family{"power.batteries", refsOf(func(p manifest.Part) bool { return p.Battery != nil })}
)

var (
	ohm   = []source.Ref{source.At("ohm", "")}
	cells = []source.Ref{source.At("cell-data", "cutoff and full voltage"), source.At("ohm", "")}
	wires = []source.Ref{source.At("astm-b258", ""), source.At("iacs", ""), source.At("ohm", "")}
)

var railLowest = member(rails, "power.rails.*.lowest_v", "V", "Lowest voltage of the rail",
	"battery: cells × cutoff; linear and buck: output × (1 − tolerance), or source − headroom where that is less; boost: output × (1 − tolerance)", cells,
	func(c *frame, id string) unit.Voltage {
		c.citeFeeders(manifest.Ref(id))
		return known(c, rail(c, id).Lowest)
	})

var railHighest = member(rails, "power.rails.*.highest_v", "V", "Highest voltage of the rail",
	"battery: cells × full; converters: output × (1 + tolerance); a boost passes a higher source through", cells,
	func(c *frame, id string) unit.Voltage {
		c.citeFeeders(manifest.Ref(id))
		return known(c, rail(c, id).Highest)
	})

var railGreatest = member(rails, "power.rails.*.greatest_a", "A", "Greatest current of the rail",
	"greatest currents of its loads and, carried back at the lowest source voltage, of its converters, all at once", ohm,
	func(c *frame, id string) unit.Current {
		c.citeTakers(manifest.Ref(id))
		return known(c, rail(c, id).Greatest)
	})

var loadLowest = member(loads, "power.loads.*.lowest_v", "V", "Lowest voltage at the module",
	"lowest voltage of its rail − greatest current × resistance of its wires, there and back", wires,
	func(c *frame, ref string) unit.Voltage {
		c.seeRail(part(c, ref).Load.Rail, railLowest.Entry)
		c.citeLoad(manifest.Ref(ref))
		c.cite(at("parts", ref, "load", "wire", "gauge"), at("parts", ref, "load", "wire", "length"))
		return known(c, loadResult(c, ref).Lowest)
	})

var loadHighest = member(loads, "power.loads.*.highest_v", "V", "Highest voltage at the module",
	"highest voltage of its rail: a module that takes no current sees all of it", wires,
	func(c *frame, ref string) unit.Voltage {
		c.seeRail(part(c, ref).Load.Rail, railHighest.Entry)
		return known(c, loadResult(c, ref).Highest)
	})

var loadRatedLow = member(loads, "power.loads.*.rated_lowest_v", "V", "Lowest voltage at which the module works", asSaid, policy,
	func(c *frame, ref string) unit.Voltage { return rated(c, ref).Low })

var loadRatedHigh = member(loads, "power.loads.*.rated_highest_v", "V", "Highest voltage at which the module works", asSaid, policy,
	func(c *frame, ref string) unit.Voltage { return rated(c, ref).High })

var loadDamaged = member(loads, "power.loads.*.damaged_above_v", "V", "Voltage above which the module is damaged", asSaid, policy,
	func(c *frame, ref string) unit.Voltage {
		return given(c, at("parts", ref, "load", "damaged_above"), part(c, ref).Load.DamagedAbove)
	})

var converterKind = word(converters, "power.converters.*.kind", "How the converter converts", asSaid,
	[]string{string(manifest.Linear), string(manifest.Buck), string(manifest.Boost)}, policy,
	func(c *frame, ref string) string {
		return text(c, at("parts", ref, "converter", "kind"), string(part(c, ref).Converter.Kind))
	})

var converterSourceLow = member(converters, "power.converters.*.source_lowest_v", "V", "Lowest voltage that the converter is fed", "lowest voltage of its source rail", ohm,
	func(c *frame, ref string) unit.Voltage {
		return railLowest.at(c, string(part(c, ref).Converter.From))
	})

var converterSourceHigh = member(converters, "power.converters.*.source_highest_v", "V", "Highest voltage that the converter is fed", "highest voltage of its source rail", ohm,
	func(c *frame, ref string) unit.Voltage {
		return railHighest.at(c, string(part(c, ref).Converter.From))
	})

var converterInputLow = member(converters, "power.converters.*.input_lowest_v", "V", "Lowest input voltage of the converter", asSaid, policy,
	func(c *frame, ref string) unit.Voltage { return inputRange(c, ref).Low })

var converterInputHigh = member(converters, "power.converters.*.input_highest_v", "V", "Highest input voltage of the converter", asSaid, policy,
	func(c *frame, ref string) unit.Voltage { return inputRange(c, ref).High })

var converterGreatest = member(converters, "power.converters.*.greatest_a", "A", "Greatest output current of the converter", "greatest current of the rail it feeds", ohm,
	func(c *frame, ref string) unit.Current {
		c.seeRail(part(c, ref).Converter.To, railGreatest.Entry)
		return known(c, converterResult(c, ref).Greatest)
	})

var converterAllowed = member(converters, "power.converters.*.allowed_a", "A", "Output current that the converter may give", asSaid, policy,
	func(c *frame, ref string) unit.Current {
		return given(c, at("parts", ref, "converter", "greatest_current"), part(c, ref).Converter.GreatestCurrent)
	})

var converterDissipation = member(converters, "power.converters.*.dissipation_w", "W", "Heat in the converter",
	"linear: (highest source − output) × greatest current; switching: input power − output power", ohm,
	func(c *frame, ref string) unit.Power {
		c.see(converterGreatest.Entry, ref)
		c.seeRail(part(c, ref).Converter.From, railLowest.Entry, railHighest.Entry)
		c.citeOf(manifest.Ref(ref), "converter", "kind", "output", "efficiency", "quiescent")
		return known(c, converterResult(c, ref).Dissipation)
	})

var converterDissipationAllowed = member(converters, "power.converters.*.allowed_w", "W", "Heat that the converter may give off", asSaid, policy,
	func(c *frame, ref string) unit.Power {
		return given(c, at("parts", ref, "converter", "greatest_dissipation"), part(c, ref).Converter.GreatestDissipation)
	})

var fuseNeeded = member(fuses, "power.fuses.*.needed_a", "A", "Least rating that the fuse needs", "1.25 × greatest current of its rail",
	[]source.Ref{source.At("nfpa-70", "")},
	func(c *frame, ref string) unit.Current {
		c.seeRail(part(c, ref).Fuse.Rail, railGreatest.Entry)
		return known(c, fuseResult(c, ref).Needed)
	})

var fuseRating = member(fuses, "power.fuses.*.rating_a", "A", "Rating of the fuse", asSaid, policy,
	func(c *frame, ref string) unit.Current {
		return given(c, at("parts", ref, "fuse", "rating"), part(c, ref).Fuse.Rating)
	})

func part(c *frame, ref string) manifest.Part { return c.run.manifest.Parts[manifest.Ref(ref)] }

func rated(c *frame, ref string) unit.Range[unit.Voltage] {
	return givenRange(c, at("parts", ref, "load", "rated"), part(c, ref).Load.Rated)
}

func inputRange(c *frame, ref string) unit.Range[unit.Voltage] {
	return givenRange(c, at("parts", ref, "converter", "input"), part(c, ref).Converter.Input)
}

// refsOf lists the references of the parts of a kind, in order.
func refsOf(want func(manifest.Part) bool) func(*frame) []string {
	return func(c *frame) []string {
		var refs []string
		for ref, p := range manifest.Sorted(c.run.manifest.Parts) {
			if want(p) {
				refs = append(refs, string(ref))
			}
		}
		return refs
	}
}

// known hands out a result of the power analysis; where it is NaN, the fact is unknown for what the manifest does not say.
func known[T ~float64](c *frame, value T) T {
	if math.IsNaN(float64(value)) {
		for _, fault := range powerAnalysis.of(c).faults() {
			c.missing("%s", fault)
		}
	}
	return value
}

func rail(c *frame, id string) power.RailResult {
	found, ok := powerAnalysis.of(c).Rail(id)
	if !ok {
		c.missing("there is no rail %q", id)
	}
	return found
}

func loadResult(c *frame, ref string) power.LoadResult {
	for _, r := range powerAnalysis.of(c).Loads {
		if r.Ref == ref {
			return r
		}
	}
	c.missing("the power analysis has no load %q", ref)
	return power.LoadResult{}
}

func converterResult(c *frame, ref string) power.ConverterResult {
	for _, r := range powerAnalysis.of(c).Converters {
		if r.Ref == ref {
			return r
		}
	}
	c.missing("the power analysis has no converter %q", ref)
	return power.ConverterResult{}
}

func fuseResult(c *frame, ref string) power.FuseResult {
	for _, r := range powerAnalysis.of(c).Fuses {
		if r.Ref == ref {
			return r
		}
	}
	c.missing("the power analysis has no fuse %q", ref)
	return power.FuseResult{}
}
