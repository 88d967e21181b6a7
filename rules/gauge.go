package rules

import (
	"math"
	"strings"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// A Gauge is a reading for one kit: what is asked for, and what makes it good.
type Gauge struct {
	Name      string
	Dim       unit.Dimension
	Low, High unit.Quantity // an honest instrument shows nothing outside
	Least     fact.Value    // of Kind Number; unknown where there is no lower limit or it is not shown
	Most      fact.Value
	Expected  []Expected
	NotBelow  string   // id of the item whose reading this one cannot be below, or empty
	Limited   bool     // whether the reading must be held against Least or Most at all
	Replaces  string   // id of the fact that is measured, or empty
	Feeds     []string // JSON pointers of the values in the manifest that it takes the place of
}

// Expected is what a reading should be besides: one that is not is doubted.
type Expected struct {
	Side       unit.Side
	Limit      fact.Value
	Text, Hint string // what another reading is likely to mean, and what to do
}

// Doubt returns the first expectation that a reading does not keep to, and whether there is one. An expectation that is not known is
// not kept: nothing was shown.
func (g Gauge) Doubt(reading unit.Quantity) (Expected, bool) {
	for _, e := range g.Expected {
		if !e.Limit.Known() || !reading.Keeps(e.Side, e.Limit.Quantity) {
			return e, true
		}
	}
	return Expected{}, false
}

// Hopes prints what is expected of a reading, for paper, which can doubt nothing: empty where nothing is, or where a limit asks
// for as much.
func (g Gauge) Hopes(system unit.System) (least, most string) {
	for _, e := range g.Expected {
		switch {
		case !e.Limit.Known():
		case e.Side == unit.AtLeast && !(g.Least.Known() && g.Least.Quantity.Keeps(e.Side, e.Limit.Quantity)):
			least = e.Limit.Limit(e.Side, system)
		case e.Side == unit.AtMost && !(g.Most.Known() && g.Most.Quantity.Keeps(e.Side, e.Limit.Quantity)):
			most = e.Limit.Limit(e.Side, system)
		}
	}
	return least, most
}

// Asks says what was expected, in words.
func (e Expected) Asks(system unit.System) string {
	relation := AtLeast
	if e.Side == unit.AtMost {
		relation = AtMost
	}
	return string(relation) + " " + e.Limit.Limit(e.Side, system)
}

// named reports whether a text names the limit of the reading.
func (g Gauge) named(text string, system unit.System) bool {
	least, most := g.Bounds(system)
	return least != "" && strings.Contains(text, least) || most != "" && strings.Contains(text, most)
}

// noLimit marks the side on which a reading has none.
const noLimit = "there is no limit"

// Judge says what the reading is worth: not shown when it is implausible, when it is not finite, or when a limit is not known.
func (g Gauge) Judge(reading unit.Quantity) Outcome {
	if reading.Dim != g.Dim || math.IsNaN(reading.SI) || !g.Plausible(reading) {
		return NotShown
	}
	outcome := Met
	for _, limit := range []struct {
		value fact.Value
		side  unit.Side
	}{{g.Least, unit.AtLeast}, {g.Most, unit.AtMost}} {
		switch {
		case limit.value.Unknown == noLimit:
		case !limit.value.Known():
			outcome = min(outcome, NotShown)
		default:
			outcome = min(outcome, outcomeOf(reading.Keeps(limit.side, limit.value.Quantity)))
		}
	}
	return outcome
}

// Plausible reports whether an honest instrument could show this.
func (g Gauge) Plausible(reading unit.Quantity) bool {
	return reading.Keeps(unit.AtLeast, g.Low) && reading.Keeps(unit.AtMost, g.High)
}

// Bounds prints the limits of a reading, each as it is asked for wherever it is asked; one that there is not is empty. They are
// rounded to their safe sides: a reading of just the printed number is good.
func (g Gauge) Bounds(system unit.System) (least, most string) {
	if g.Least.Known() && g.Most.Known() && g.Least.In == "" && g.Most.In == "" {
		return unit.Limits(g.Least.Quantity, g.Most.Quantity, system)
	}
	print := func(v fact.Value, side unit.Side) string {
		if v.Unknown == noLimit {
			return ""
		}
		return v.Limit(side, system)
	}
	return print(g.Least, unit.AtLeast), print(g.Most, unit.AtMost)
}

// In is the unit to read in, as package unit knows it: that of a limit, so that the two can be compared at a glance.
func (g Gauge) In(system unit.System) string {
	for _, limit := range []fact.Value{g.Least, g.Most} {
		switch {
		case !limit.Known():
		case limit.In != "":
			return limit.In
		case limit.Quantity.SI != 0 || g.Dim == unit.DimTemperature:
			return limit.Quantity.Symbol(system)
		}
	}
	return g.High.Symbol(system)
}

// Asks says in words what makes a reading good: "at least 2 kg", "12.2 V to 12.9 V". It is empty where there is no limit, and
// says so where one is not shown.
func (g Gauge) Asks(system unit.System) string {
	least, most := g.Bounds(system)
	switch {
	case !g.Limited || least == "" && most == "":
		return ""
	case least != "" && !g.Least.Known() || most != "" && !g.Most.Known():
		return "its limit is not shown"
	case least != "" && least == most:
		return "exactly " + least
	case least != "" && most != "":
		return least + " to " + most
	case least != "":
		return string(AtLeast) + " " + least
	}
	return string(AtMost) + " " + most
}

// Shows prints a reading with as many figures as it takes for the printed number to be judged as the reading was: nobody is told
// that 12.2 V is less than 12.2 V.
func (g Gauge) Shows(reading unit.Quantity, system unit.System) string {
	return reading.TextAs(system, func(printed unit.Quantity) bool {
		_, doubted := g.Doubt(reading)
		_, also := g.Doubt(printed)
		return g.Judge(printed) == g.Judge(reading) && also == doubted
	})
}
