package power

import "hoistbook/kits/unit"

// volts is the voltage range of a rail.
type volts struct{ lowest, nominal, highest unit.Voltage }

func unknownVolts() volts {
	return volts{unknown[unit.Voltage](), unknown[unit.Voltage](), unknown[unit.Voltage]()}
}

// voltage of a rail: that of its batteries, or what its converter makes of the source rail. The relations are Ohm's and
// Kirchhoff's laws and the data sheets' limits [ohm] [cell-data].
func (c *circuit) voltage(id string) volts {
	r := c.rails[id]
	if r.volts == nil {
		v := unknownVolts()
		switch {
		case !r.sound:
		case len(r.batteries) > 0:
			v = batteryVolts(c.Batteries[r.batteries[0]])
		default:
			v = converterVolts(c.Converters[r.feeders[0]], c.voltage(c.Converters[r.feeders[0]].From))
		}
		r.volts = &v
	}
	return *r.volts
}

// batteryVolts: cells in series × (cutoff … full).
func batteryVolts(b Battery) volts {
	if b.CellsInSeries < 1 {
		return unknownVolts()
	}
	cell, n := CellOf(b.Chemistry), unit.Voltage(b.CellsInSeries)
	return volts{n * cell.Cutoff, n * cell.Nominal, n * cell.Full}
}

// converterVolts is the range at a converter's output, with V the set output, t its tolerance and h its headroom.
//
//	linear, buck: lowest  V·(1−t), or what the lowest source leaves, source − h, where that is less
//	              highest V·(1+t)
//	boost:        lowest  V·(1−t)
//	              highest V·(1+t), or the highest source when that is above: a boost converter passes it through
//
// A converter that fails short passes its source through as well; that is a fault, and left out.
func converterVolts(k Converter, source volts) volts {
	if k.Tolerance < 0 || k.Tolerance >= 1 || k.Output <= 0 {
		return unknownVolts()
	}
	v := volts{k.Output * unit.Voltage(1-k.Tolerance), k.Output, k.Output * unit.Voltage(1+k.Tolerance)}
	switch k.Kind {
	case Linear, Buck:
		v.lowest = min(v.lowest, max(source.lowest-k.Headroom, 0)) // the built-in min and max of a NaN are NaN
	case Boost:
		v.nominal = max(k.Output, source.nominal)
		v.highest = max(v.highest, source.highest)
	default:
		return unknownVolts()
	}
	return v
}
