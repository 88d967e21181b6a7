package lift

import "hoistbook/kits/unit"

// A Basis says how a mass is known.
type Basis string

// The bases, from the least sure to the surest.
const (
	Estimated  Basis = "estimated"
	Calculated Basis = "calculated"
	Weighed    Basis = "weighed"
)

// Allowance is the share that the worst mass adds for growth; false for a basis that is none of the constants.
// Source: mass-growth (the three figures are the kits' own policy after that practice).
func (b Basis) Allowance() (unit.Ratio, bool) {
	switch b {
	case Estimated:
		return 0.20, true
	case Calculated:
		return 0.10, true
	case Weighed:
		return 0.02, true
	}
	return 0, false
}

// A Load is a number of equal things aloft.
type Load struct {
	Quantity  unit.Count
	Mass      unit.Mass // of one
	Allowance unit.Ratio
}

// Nominal is quantity × mass.
func (l Load) Nominal() unit.Mass { return unit.Mass(l.Quantity.SI() * l.Mass.SI()) }

// Worst is quantity × mass × (1 + allowance).
func (l Load) Worst() unit.Mass { return unit.Mass(l.Nominal().SI() * (1 + l.Allowance.SI())) }

// Line is the load of a line: its mass is linear mass × length paid out.
func Line(linear unit.LinearMass, length unit.Length, allowance unit.Ratio) Load {
	return Load{Quantity: 1, Mass: unit.Mass(linear.SI() * length.SI()), Allowance: allowance}
}

// Aloft adds loads up, as stated and at their worst.
func Aloft(loads []Load) (nominal, worst unit.Mass) {
	for _, l := range loads {
		nominal += l.Nominal()
		worst += l.Worst()
	}
	return nominal, worst
}
