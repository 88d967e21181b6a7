package power

import (
	"math"

	"hoistbook/kits/unit"
)

var nan = math.NaN()

// Care says how cells are kept between deployments and charged [practice].
type Care struct {
	Store        unit.Range[unit.Ratio]       // state of charge to put away in
	StoreVoltage unit.Voltage                 // of one resting cell in that state; NaN where a voltmeter does not tell
	Charge       unit.Range[unit.Temperature] // of the cells while charging; NaN for cells that are not charged
	ChargeFactor unit.Ratio                   // charge put in over charge got out, with the taper at the end; NaN for cells that are not charged
}

// lithium: stored about half full, and never charged below freezing, which plates metal and ends in fire.
func lithium(stored unit.Voltage) Care {
	return Care{
		Store:        unit.Range[unit.Ratio]{Low: 0.4, High: 0.6},
		StoreVoltage: stored,
		Charge:       unit.Range[unit.Temperature]{Low: unit.Celsius(0), High: unit.Celsius(45)},
		ChargeFactor: 1.3,
	}
}

// Rested is the voltage of a cell that was charged and has rested for an hour: less says that it was not full, or is old
// [practice]. It is NaN for a chemistry that is not known.
func Rested(c Chemistry) unit.Voltage {
	switch c {
	case LiIon, LiPo:
		return 4.07
	case LiFePO4:
		return 3.32
	case NiMH:
		return 1.30
	case LeadAcid:
		return 2.10
	case Alkaline:
		return 1.50
	}
	return unknown[unit.Voltage]()
}

// CareOf returns how a chemistry is kept and charged; everything is NaN for a chemistry that is not known.
func CareOf(c Chemistry) Care {
	for _, r := range rows {
		if r.chemistry == c {
			return r.care
		}
	}
	return Care{
		Store:        unit.Range[unit.Ratio]{Low: unknown[unit.Ratio](), High: unknown[unit.Ratio]()},
		StoreVoltage: unknown[unit.Voltage](),
		Charge:       unit.Range[unit.Temperature]{Low: unit.Kelvin(nan), High: unit.Kelvin(nan)},
		ChargeFactor: unknown[unit.Ratio](),
	}
}

// ChargeTime is how long a charger needs to fill an empty battery.
//
//	t = F · C / I
//
// with C the capacity, I the charger's current and F the chemistry's charge factor: 1.6 for nickel-metal hydride
// (IEC 61951-2 charges for 16 h at a tenth of the capacity, from memory) [iec-61951], and for the others what the constant-voltage
// end of the charge adds in common practice. It is good to a quarter or so; a charger's own figure is better. Cells that
// are not charged, and chemistries that are not known, give NaN.
func ChargeTime(c Chemistry, capacity unit.Charge, charger unit.Current) unit.Duration {
	if charger <= 0 {
		return unknown[unit.Duration]()
	}
	return known(unit.Duration(float64(CareOf(c).ChargeFactor) * float64(capacity) / float64(charger)))
}
