// Package plan writes the timetable of a station: when the battery is changed, which set goes on, when a recharged set is
// back, when gas is topped up, and what the hours in between should look like.
//
// Every set is full when the station starts. A set is used from the moment the one before it comes off, time off the air
// included, so a plan never counts on rest. Chargers work side by side, one set each, first come first served; the walk to
// the charger is part of the charge time. Gas is lost at a steady share a day and topped up to the first fill.
//
// What is not known is NaN and named in Gaps; it must be shown as "not shown".
package plan

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// A Station is what the plan is made from.
type Station struct {
	Duration   unit.Duration // to be covered, changes included
	Endurance  unit.Duration // of one set
	Reserve    unit.Ratio    // share of the endurance that is left when a set comes off
	Sets       int           // in rotation
	ChangeTime unit.Duration // off the air for a change
	ChargeTime unit.Duration // of one set on one charger
	Chargers   unit.Count    // at the station
	GasLoss    unit.Loss
	TopUpAt    unit.Ratio    // share of the first fill at which gas is topped up
	TopUpTime  unit.Duration // off the air for topping up
	Identify   unit.Duration // longest time between two identifications of the station
}

// A Plan is the timetable with its totals.
type Plan struct {
	Events []Event // by time
	Hours  []Hour
	OffAir unit.Duration // altogether

	Changes  unit.Count // of battery
	Outcome  Outcome
	Reason   string     // the outcome in a sentence
	Sets     unit.Count // needed when nothing is recharged
	Rotation unit.Count // needed with the chargers there are, or Sets when nothing is known of them
	Chargers unit.Count // needed with the sets there are; NaN also when no number of chargers helps

	TopUps          unit.Count
	Identifications unit.Count // at the least

	Gaps []string // what is not known, in sentences
}

// An Outcome says whether the sets in rotation last.
type Outcome string

// The outcomes.
const (
	Enough    Outcome = "enough"     // without recharging
	Recharged Outcome = "recharged"  // recharging keeps up
	NotEnough Outcome = "not enough" // there comes a change without a charged set
	NotKnown  Outcome = "not known"
)

// A Kind is what happens at an event.
type Kind string

// The kinds of events.
const (
	Start  Kind = "start"
	Change Kind = "change"
	Back   Kind = "back"   // a recharged set
	Short  Kind = "short"  // a change is due and no set is charged
	TopUp  Kind = "top-up" // of gas
	End    Kind = "end"
)

// An Event is a line of the timetable.
type Event struct {
	At   unit.Duration // since the start
	Kind Kind
	Set  int  // that goes on or is back, counted from 1; 0 when none is
	Off  int  // set that comes off
	With bool // a top-up at a change of battery, while the balloon is down anyway
}

// Clock is the time of the event as h:mm, rounded to the safe side: a set is back a minute late rather than early,
// everything else is due a minute early rather than late.
func (e Event) Clock() string {
	minutes := float64(e.At) / 60
	if e.Kind == Back {
		minutes = math.Ceil(minutes - 1e-6)
	}
	whole := int(math.Floor(minutes + 1e-6))
	return fmt.Sprintf("%d:%02d", whole/60, whole%60)
}

// Text says what is done.
func (e Event) Text() string {
	switch e.Kind {
	case Start:
		return fmt.Sprintf("station on the air with battery set %d", e.Set)
	case Change:
		return fmt.Sprintf("change the battery: set %d off, set %d on", e.Off, e.Set)
	case Back:
		return fmt.Sprintf("battery set %d is charged again", e.Set)
	case Short:
		return fmt.Sprintf("battery set %d must come off and no set is charged: close the station", e.Off)
	case TopUp:
		if e.With {
			return "top up the gas while the battery is changed"
		}
		return "bring the balloon down and top up the gas"
	}
	return "end of the station"
}

// An Hour is what to expect at a full hour.
type Hour struct {
	At   unit.Duration
	Set  int        // in use; 0 when none or not known
	Left unit.Ratio // of that set's endurance
	Gas  unit.Ratio // of the first fill
}

func unknown[T ~float64]() T { return T(math.NaN()) }

// given reports whether a value is a number that can be used: known, finite and not negative.
func given[T ~float64](v T) bool { return float64(v) >= 0 && !math.IsInf(float64(v), 0) }
