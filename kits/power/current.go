package power

import "hoistbook/kits/unit"

// inputCurrent is what a converter draws from its source [ohm].
//
//	linear:      I_in = I_out + I_q
//	buck, boost: I_in = V_out·I_out / (η·V_in) + I_q
//
// A boost converter whose source is above its output passes the source through: V_out is then the source. Efficiency is
// taken as constant; in truth it falls at small currents, which the quiescent current stands for.
func inputCurrent(k Converter, out unit.Current, source unit.Voltage) unit.Current {
	output := k.Output
	switch k.Kind {
	case Linear:
		return out + k.Quiescent
	case Boost:
		output = max(output, source)
	case Buck:
	default:
		return unknown[unit.Current]()
	}
	if k.Efficiency <= 0 || k.Efficiency > 1 || source <= 0 {
		return unknown[unit.Current]()
	}
	return known(unit.Current(float64(output)*float64(out)/(float64(k.Efficiency)*float64(source))) + k.Quiescent)
}

// current is what is drawn from a rail in each duty state, with every source at its nominal voltage.
func (c *circuit) current(id string) Currents {
	r := c.rails[id]
	if r.nominal == nil {
		sum := Currents{}
		for _, i := range r.loads {
			for s, each := range c.Loads[i].Current {
				sum[s] += c.Loads[i].count() * each
			}
		}
		for _, i := range r.drains {
			k := c.Converters[i]
			for s, out := range c.currentThrough(k) {
				sum[s] += inputCurrent(k, out, c.voltage(id).nominal)
			}
		}
		r.nominal = &sum
	}
	return *r.nominal
}

// greatest is the most that can be drawn from a rail: every load at its greatest current in whatever state, all at the
// same time, every source at its lowest voltage. Loads rarely peak together; the sum is never too small.
func (c *circuit) greatest(id string) unit.Current {
	r := c.rails[id]
	if r.greatest == nil {
		var sum unit.Current
		for _, i := range r.loads {
			sum += c.Loads[i].count() * c.Loads[i].greatest()
		}
		for _, i := range r.drains {
			k := c.Converters[i]
			sum += inputCurrent(k, c.greatestThrough(k), c.voltage(id).lowest)
		}
		r.greatest = &sum
	}
	return *r.greatest
}

// currentThrough is what a converter delivers in each duty state; it is unknown when its rail is not its alone.
func (c *circuit) currentThrough(k Converter) Currents {
	if !c.rails[k.To].sound {
		u := unknown[unit.Current]()
		return Currents{u, u, u}
	}
	return c.current(k.To)
}

// greatestThrough is the most that a converter delivers, under the same condition.
func (c *circuit) greatestThrough(k Converter) unit.Current {
	if !c.rails[k.To].sound {
		return unknown[unit.Current]()
	}
	return c.greatest(k.To)
}

// greatest is one load's current in the state in which it takes most.
func (l Load) greatest() unit.Current {
	most := l.Current[0]
	for _, each := range l.Current {
		most = max(most, each) // the built-in max of a NaN is NaN
	}
	return most
}

func (l Load) count() unit.Current {
	if l.Quantity < 1 {
		return unknown[unit.Current]()
	}
	return unit.Current(l.Quantity)
}
