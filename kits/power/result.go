package power

import "hoistbook/kits/unit"

// A Result is what Analyse found, everything in the order of the System. What is not known is NaN.
type Result struct {
	Rails      []RailResult
	Loads      []LoadResult
	Converters []ConverterResult
	Fuses      []FuseResult
	Batteries  []BatteryResult

	Average   unit.Power    // duty-weighted, at the batteries, at nominal voltage
	Usable    unit.Energy   // of the batteries aloft, in the cold
	Endurance unit.Duration // until the first battery rail is empty, in the cold
	Warm      unit.Duration // the same without the loss of capacity in the cold

	Faults []string // sentences about what is wired so that it cannot be calculated; what depends on it is NaN
}

// A RailResult is the state of one rail.
type RailResult struct {
	ID                       string
	Feeder                   string // battery or converter; empty when there is none
	Lowest, Nominal, Highest unit.Voltage
	Greatest                 unit.Current // every load at its greatest at the same time, the source at its lowest
	State                    Currents     // in each duty state, at nominal voltage
}

// A LoadResult is what reaches one load's terminals.
type LoadResult struct {
	Ref             string
	Rail            string
	Lowest, Highest unit.Voltage
	Greatest        unit.Current // of one
	Drop            unit.Voltage // in its wire at that current
}

// A ConverterResult is the stress of one converter.
type ConverterResult struct {
	Ref          string
	Source       unit.Range[unit.Voltage] // what its source rail offers
	Greatest     unit.Current             // at its output
	InputCurrent unit.Current             // then, at the lowest source voltage
	Dissipation  unit.Power               // turned into heat, at most
}

// A FuseResult is what a fuse must carry.
type FuseResult struct {
	Ref    string
	Rail   string
	Needed unit.Current // the least rating that does not blow
	Rating unit.Current
}

// A BatteryResult is the stress of one battery reference.
type BatteryResult struct {
	Ref      string
	Greatest unit.Current // of all on its rail together
	Allowed  unit.Current // all on its rail together
	Usable   unit.Energy  // of all with this reference, in the cold
}

// Rail finds a rail by its id.
func (r Result) Rail(id string) (RailResult, bool) {
	for _, rail := range r.Rails {
		if rail.ID == id {
			return rail, true
		}
	}
	return RailResult{}, false
}
