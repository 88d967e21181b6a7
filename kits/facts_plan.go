package kits

import (
	"math"

	"hoistbook/kits/lift"
	"hoistbook/kits/plan"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var planFacts = []*Entry{planChanges.Entry, planFirstChange.Entry, planSets.Entry, planChargers.Entry, planInTime, planOffAir.Entry, planTopUps.Entry, planIdentifications.Entry, gasTopUpAfter.Entry}

var planChanges = quantity("plan.battery_changes", "", "Battery changes in the plan of the station",
	"station time ÷ (endurance × (1 − reserve)), rounded up, less one", policy,
	func(c *frame) unit.Count { return planned(c, timetable.of(c).Changes) })

var planFirstChange = quantity("plan.first_change_h", "h", "Time of the first change of battery in the plan of the station",
	"endurance × (1 − reserve), after the start", policy,
	func(c *frame) unit.Duration {
		for _, e := range timetable.of(c).Events {
			if e.Kind == plan.Change || e.Kind == plan.Short {
				return e.At
			}
		}
		if planChanges.of(c) == 0 {
			c.missing("no battery is changed in the station time")
		}
		return planned(c, unit.Duration(nan))
	})

var planSets = quantity("plan.sets_needed", "", "Sets of batteries that the plan needs",
	"with the chargers that are in the kit; changes + 1 without", policy,
	func(c *frame) unit.Count { return planned(c, timetable.of(c).Rotation) })

var planChargers = quantity("plan.chargers_needed", "", "Chargers that the plan needs",
	"with the sets that are in the kit; each charger takes one set at a time, first come first served", policy,
	func(c *frame) unit.Count { return planned(c, timetable.of(c).Chargers) })

var planInTime = yesNo(nil, "power.recharge_in_time", "Whether a charged set is there at every change of battery",
	"the plan of the station, change by change: spare sets first, then those that the chargers have filled again", policy,
	func(c *frame, _ string) bool {
		p := timetable.of(c)
		if p.Outcome == plan.NotKnown {
			c.missing("%s", p.Reason)
		}
		return p.Outcome == plan.Enough || p.Outcome == plan.Recharged
	})

var planOffAir = quantity("plan.off_air_min", "min", "Time off the air",
	"changes of battery and top-ups of gas × their time; what is done at once counts once", policy,
	func(c *frame) unit.Duration { return planned(c, timetable.of(c).OffAir) })

var planTopUps = quantity("plan.gas_top_ups", "", "Top-ups of gas in the station time",
	"whenever the gas is down to the share at which it is topped up, or at the change of battery before", policy,
	func(c *frame) unit.Count { return planned(c, timetable.of(c).TopUps) })

var planIdentifications = quantity("plan.identifications", "", "Identifications in the station time, at the least",
	"station time ÷ identification interval, rounded up", policy,
	func(c *frame) unit.Count { return planned(c, timetable.of(c).Identifications) })

var gasTopUpAfter = quantity("gas.top_up_after_h", "h", "Time after which the gas no longer suffices for the design wind",
	"time in which the gross lift sinks to that of the neck lift needed with nothing more lost: log(needed ÷ gross) ÷ log(1 − loss per day)",
	[]source.Ref{source.At("archimedes", "")},
	func(c *frame) unit.Duration {
		gross, need := liftGross.of(c), grossStillNeeded(c)
		loss := gasLoss(c)
		return solve(c, func() (unit.Duration, error) { return lift.TopUpAfter(gross, need, loss) })
	})

// planned hands out a value of the plan; where it is NaN, the fact is unknown for the plan's gaps.
func planned[T ~float64](c *frame, value T) T {
	if !math.IsNaN(float64(value)) {
		return value
	}
	gaps := timetable.of(c).Gaps
	if len(gaps) == 0 {
		gaps = []string{"the plan of the station has no number for it"}
	}
	for _, g := range gaps {
		c.missing("%s", g)
	}
	return value
}
