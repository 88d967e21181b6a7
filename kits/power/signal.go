package power

import "hoistbook/kits/unit"

// A Signal runs from an output to an input.
type Signal struct {
	Drives     unit.Range[unit.Voltage] // what the output puts out, low to high
	NeedsHigh  unit.Voltage             // from here up the input reads high
	Withstands unit.Voltage             // the input is damaged above
}

// HighMargin is by how much a high output exceeds what the input needs; below zero it is not read.
func (s Signal) HighMargin() unit.Voltage { return known(s.Drives.High - s.NeedsHigh) }

// DamageMargin is by how much a high output stays below what damages the input; below zero the input is at risk.
func (s Signal) DamageMargin() unit.Voltage { return known(s.Withstands - s.Drives.High) }
