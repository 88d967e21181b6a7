package kits

import (
	"math"

	"hoistbook/kits/manifest"
	"hoistbook/kits/plan"
	"hoistbook/kits/unit"
)

// timetable is the plan of the station. What is not known of it is NaN, and said in its gaps.
var timetable = shared(func(c *frame) plan.Plan {
	inner := &frame{run: c.run} // a gap makes only some of the plan unknown
	up := manifest.Upkeep{}
	if u := station(inner).Upkeep; u != nil {
		up = *u
	}
	identify := unit.Duration(nan)
	if i := station(inner).IdentificationInterval; i != nil {
		identify = must(inner, "/station/identification_interval", *i)
	}
	sets := powerRotation.of(inner)
	if math.IsNaN(sets.SI()) {
		sets = 0
	}
	s := plan.Station{
		Duration:   stationDuration.of(inner),
		Endurance:  powerEndurance.of(inner),
		Sets:       int(sets),
		GasLoss:    gasLoss(inner),
		ChargeTime: chargeTime(inner),
		Chargers:   chargers(inner),
		Reserve:    otherwise(inner, "/station/upkeep/battery_reserve", up.BatteryReserve, unit.Ratio(0.1), "share of a battery's endurance left when it comes off, when nobody says"),
		ChangeTime: otherwise(inner, "/station/upkeep/change_time", up.ChangeTime, unit.Duration(20*60), "time off the air for a change of battery when nobody says"),
		TopUpAt:    topUpAt(inner, up),
		TopUpTime:  otherwise(inner, "/station/upkeep/top_up_time", up.TopUpTime, unit.Duration(30*60), "time off the air for topping up gas when nobody says"),
		Identify:   identify,
	}
	for _, in := range inner.inputs {
		c.read(in)
	}
	return plan.Make(s)
})

// topUpAt is the share of the first fill at which gas is topped up: as the manifest says, or when the lift is down to what the
// design wind needs. A fill that never had that is topped up at once, and lift.neck says so.
func topUpAt(c *frame, up manifest.Upkeep) unit.Ratio {
	if up.TopUpAt != nil {
		return must(c, "/station/upkeep/top_up_at", *up.TopUpAt)
	}
	share := grossStillNeeded(c).SI() / liftGross.of(c).SI()
	c.run.assume(Assumption{Pointer: "/station/upkeep/top_up_at", Text: "gas is topped up when its lift is down to what the design wind needs, when nobody says"})
	return unit.Ratio(min(1, share))
}

// grossStillNeeded is the gross lift that does in the design wind with nothing more lost.
func grossStillNeeded(c *frame) unit.Mass {
	return unit.Mass(fillNeeded.of(c).Gross.SI() * liftGrossEnd.of(c).SI() / liftGross.of(c).SI())
}

func gasLoss(c *frame) unit.Loss {
	e := envelope(c)
	return given(c, e.pointer+"/gas_loss", e.f.GasLoss)
}

// chargeTime is that of the slowest charger in the kit; without a charger nothing is known of it.
func chargeTime(c *frame) unit.Duration {
	slowest := unit.Duration(nan)
	for _, k := range allChargers(c) {
		t := unit.Duration(nan)
		if k.f.Time != nil {
			t = must(c, k.pointer+"/time", *k.f.Time)
		}
		if math.IsNaN(slowest.SI()) || t > slowest || math.IsNaN(t.SI()) {
			slowest = t
		}
		if math.IsNaN(t.SI()) {
			break
		}
	}
	return slowest
}

// chargers counts how many sets can be charged at once.
func chargers(c *frame) unit.Count {
	n := 0.0
	for _, k := range allChargers(c) {
		n += float64(pieces(k.part)) * countOr(c, k.pointer+"/count", k.f.Count, 1, "")
	}
	return unit.Count(n)
}

func allChargers(c *frame) []facet[manifest.Charger] {
	return every(c, "charger", func(p manifest.Part) *manifest.Charger { return p.Charger })
}

// Timetable is the plan of the station, hour by hour.
func (f *Facts) Timetable() plan.Plan {
	return timetable.of(&frame{run: newRun(f.Manifest)})
}
