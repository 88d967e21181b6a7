package kits

import (
	"math"

	"hoistbook/kits/manifest"
	"hoistbook/kits/power"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var batteryFacts = []*Entry{
	batteryChemistry, batteryFull.Entry, batteryFresh.Entry, batteryCutoff.Entry, batteryEnergy.Entry, batteryGreatest.Entry, batteryAllowed.Entry, batteryFuse.Entry, batteryStorage.Entry,
	powerAverage.Entry, powerUsable.Entry, powerEndurance.Entry, powerChanges.Entry, powerRotation.Entry, powerSpareSets.Entry,
}

var batteryChemistry = word(batteries, "power.batteries.*.chemistry", "Chemistry of the cells", asSaid,
	[]string{string(manifest.LiIon), string(manifest.LiPo), string(manifest.LiFePO4), string(manifest.NiMH), string(manifest.LeadAcid), string(manifest.Alkaline)}, policy,
	func(c *frame, ref string) string {
		return text(c, at("parts", ref, "battery", "chemistry"), string(part(c, ref).Battery.Chemistry))
	})

var cellData = []source.Ref{source.At("cell-data", "cutoff, nominal and full voltage by chemistry")}

var batteryFull = member(batteries, "power.batteries.*.full_v", "V", "Voltage of the fully charged battery", "cells in series × full voltage of the chemistry", cellData,
	func(c *frame, ref string) unit.Voltage {
		cell, series := cellOf(c, ref)
		return unit.Voltage(series * float64(cell.Full))
	})

var batteryFresh = member(batteries, "power.batteries.*.fresh_v", "V", "Least voltage of a battery that was charged and has rested", "cells in series × resting voltage of the chemistry",
	[]source.Ref{source.At("practice", "")},
	func(c *frame, ref string) unit.Voltage {
		_, series := cellOf(c, ref)
		return unit.Voltage(series * float64(power.Rested(power.Chemistry(part(c, ref).Battery.Chemistry))))
	})

var batteryCutoff = member(batteries, "power.batteries.*.cutoff_v", "V", "Voltage at which the battery is changed", "cells in series × cutoff voltage of the chemistry", cellData,
	func(c *frame, ref string) unit.Voltage {
		cell, series := cellOf(c, ref)
		return unit.Voltage(series * float64(cell.Cutoff))
	})

var batteryEnergy = member(batteries, "power.batteries.*.energy_wh", "Wh", "Energy of one battery, as carriers count it", "nominal voltage × capacity", cellData,
	func(c *frame, ref string) unit.Energy {
		cell, series := cellOf(c, ref)
		capacity := given(c, at("parts", ref, "battery", "capacity"), part(c, ref).Battery.Capacity)
		return unit.Energy(series * float64(cell.Nominal) * capacity.SI())
	})

var batteryGreatest = member(batteries, "power.batteries.*.greatest_a", "A", "Greatest current drawn from the battery",
	"greatest current of its rail", []source.Ref{source.At("ohm", "")},
	func(c *frame, ref string) unit.Current {
		c.seeRail(part(c, ref).Battery.Rail, railGreatest.Entry)
		return known(c, batteryResult(c, ref).Greatest)
	})

var batteryAllowed = member(batteries, "power.batteries.*.allowed_a", "A", "Current that the battery may give",
	"greatest current of one × those in parallel", policy,
	func(c *frame, ref string) unit.Current {
		c.cite(at("parts", ref, "battery", "greatest_current"), at("parts", ref, "quantity"))
		return known(c, batteryResult(c, ref).Allowed)
	})

var batteryFuse = member(batteries, "power.batteries.*.fuse_a", "A", "Rating of the fuse on the battery's rail", "the greatest of the fuses on the rail that the battery feeds", policy,
	func(c *frame, ref string) unit.Current {
		greatest := unit.Current(0)
		for _, f := range every(c, "fuse", func(p manifest.Part) *manifest.Fuse { return p.Fuse }) {
			if f.f.Rail == part(c, ref).Battery.Rail {
				greatest = max(greatest, given(c, f.pointer+"/rating", f.f.Rating))
			}
		}
		if greatest == 0 && c.known() {
			c.missing("no fuse stands on the rail of %s", ref)
		}
		return greatest
	})

var batteryStorage = member(batteries, "power.batteries.*.storage_charge", "%", "Charge at which the battery is put away", asSaid, policy,
	func(c *frame, ref string) unit.Ratio {
		return given(c, at("parts", ref, "battery", "storage_charge"), part(c, ref).Battery.StorageCharge)
	})

var powerAverage = quantity("power.average_w", "W", "Average power taken from the battery",
	"rail currents of each duty state carried back to the battery at nominal voltage (linear: output + quiescent current; switching: output power ÷ efficiency ÷ input voltage + quiescent current), weighted by the duty", []source.Ref{source.At("ohm", "")},
	func(c *frame) unit.Power {
		c.cite("/station/duty/transmit", "/station/duty/receive", "/station/duty/standby")
		for ref, p := range manifest.Sorted(c.run.manifest.Parts) {
			if p.Load != nil {
				c.citeLoad(ref)
			}
			if p.Converter != nil {
				c.citeOf(ref, "converter", "kind", "output", "efficiency", "quiescent")
			}
			if p.Battery != nil {
				c.citeOf(ref, "battery", "chemistry", "cells_in_series")
			}
		}
		return known(c, powerAnalysis.of(c).Average)
	})

var powerUsable = quantity("power.usable_wh", "Wh", "Usable energy of the batteries aloft, in the cold",
	"nominal voltage × capacity × usable share × share left in the cold × batteries in parallel", cellData,
	func(c *frame) unit.Energy {
		for ref := range manifest.Sorted(c.run.manifest.Parts) {
			for _, key := range []string{"cells_in_series", "capacity", "usable", "cold_capacity"} {
				c.cite(at("parts", ref, "battery", key))
			}
		}
		return known(c, powerAnalysis.of(c).Usable)
	})

var powerEndurance = quantity("power.endurance_h", "h", "Endurance of one set of batteries",
	"usable energy ÷ average power", []source.Ref{source.At("ohm", "")},
	func(c *frame) unit.Duration {
		_, _ = powerUsable.of(c), powerAverage.of(c)
		return known(c, powerAnalysis.of(c).Endurance)
	})

var powerChanges = quantity("power.battery_changes", "", "Battery changes in the station time",
	"station time ÷ endurance, rounded up, less one", policy,
	func(c *frame) unit.Count {
		sets := math.Ceil(given(c, "/station/duration", station(c).Duration).SI() / powerEndurance.of(c).SI())
		return unit.Count(max(sets-1, 0))
	})

var powerRotation = quantity("power.sets_in_rotation", "", "Sets of batteries in the kit",
	"the fewest sets of any battery: in rotation, one when nobody says", policy,
	func(c *frame) unit.Count {
		fewest := nan
		for _, ref := range c.members(batteries) {
			sets := countOr(c, at("parts", ref, "battery", "in_rotation"), part(c, ref).Battery.InRotation, 1, "sets of batteries when nobody says")
			if math.IsNaN(fewest) || sets < fewest {
				fewest = sets
			}
		}
		if math.IsNaN(fewest) {
			c.missing("no part is a battery")
		}
		return unit.Count(fewest)
	})

var powerSpareSets = quantity("power.spare_sets", "", "Sets of batteries besides the one aloft",
	"sets in rotation − 1", policy,
	func(c *frame) unit.Count { return powerRotation.of(c) - 1 })

func cellOf(c *frame, ref string) (cell power.Cell, series float64) {
	b := part(c, ref).Battery
	chemistry := text(c, at("parts", ref, "battery", "chemistry"), b.Chemistry)
	return power.CellOf(power.Chemistry(chemistry)), count(c, at("parts", ref, "battery", "cells_in_series"), b.CellsInSeries)
}

func batteryResult(c *frame, ref string) power.BatteryResult {
	for _, r := range powerAnalysis.of(c).Batteries {
		if r.Ref == ref {
			return r
		}
	}
	c.missing("the power analysis has no battery %q", ref)
	return power.BatteryResult{}
}
