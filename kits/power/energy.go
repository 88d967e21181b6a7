package power

import (
	"math"

	"hoistbook/kits/unit"
)

// usable energy of a battery reference, in the cold:
//
//	nominal voltage × capacity × usable × cold capacity × quantity
//
// The capacity is that at a discharge of several hours; at large currents there is less (Peukert), most of all in
// lead-acid cells.
func (b Battery) usable() unit.Energy {
	return unit.Energy(float64(b.warm()) * float64(share(b.ColdCapacity)))
}

// warm is the usable energy without the loss in the cold.
func (b Battery) warm() unit.Energy {
	return unit.Energy(float64(batteryVolts(b).nominal) * float64(b.Capacity) * float64(share(b.Usable)) * float64(b.count()))
}

// share refuses what is no share.
func share(r unit.Ratio) unit.Ratio {
	if r < 0 || r > 1 {
		return unknown[unit.Ratio]()
	}
	return r
}

// energy adds up the average power at the battery rails and the usable energy, and finds the endurance of the rail that
// is empty first. A load that no battery reaches makes the average unknown, not smaller.
func (c *circuit) energy() (average unit.Power, usable unit.Energy, cold, warm unit.Duration) {
	cold, warm = unit.Duration(math.Inf(1)), unit.Duration(math.Inf(1))
	for _, id := range c.ids {
		r := c.rails[id]
		if len(r.batteries) == 0 {
			continue
		}
		power := unit.Power(c.voltage(id).nominal) * unit.Power(c.average(id))
		var inCold, inWarm unit.Energy
		for _, i := range r.batteries {
			inCold += c.Batteries[i].usable()
			inWarm += c.Batteries[i].warm()
		}
		average += power
		usable += inCold
		cold = min(cold, known(unit.Duration(float64(inCold)/float64(power))))
		warm = min(warm, known(unit.Duration(float64(inWarm)/float64(power))))
	}
	if len(c.Batteries) == 0 || !c.allFed() {
		return unknown[unit.Power](), usable, unknown[unit.Duration](), unknown[unit.Duration]()
	}
	return average, usable, known(cold), known(warm)
}

// average weighs a rail's currents with the duty. A state that never happens needs no current.
func (c *circuit) average(id string) unit.Current {
	var sum unit.Current
	for s, each := range c.current(id) {
		if c.Duty[s] != 0 {
			sum += unit.Current(c.Duty[s]) * each
		}
	}
	return sum
}

func (c *circuit) allFed() bool {
	for _, l := range c.Loads {
		if l.Rail == "" || !c.rails[l.Rail].sound {
			return false
		}
	}
	for _, b := range c.Batteries {
		if b.Rail == "" {
			return false
		}
	}
	return true
}

// Changes is how often the battery is changed while the station stands:
//
//	⌈duration / endurance⌉ − 1
//
// A quotient that exceeds a whole number only by the rounding of floating-point division counts as that number.
func Changes(station, endurance unit.Duration) unit.Count {
	if !(station >= 0) || !(endurance > 0) || math.IsInf(float64(station), 0) || math.IsInf(float64(endurance), 0) {
		return unknown[unit.Count]()
	}
	return unit.Count(max(math.Ceil(float64(station)/float64(endurance)*(1-1e-12))-1, 0))
}
