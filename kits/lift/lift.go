package lift

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// Gross is the gross lift, the displaced air's mass less the gas's: V (ρ_air − ρ_gas). For an elastic envelope V is the
// fill at launch and the lift stays as it rises, because the same gas displaces the same mass of air; for a fixed one both
// densities are those at the balloon's height.
//
// Source: archimedes.
func Gross(fill unit.Volume, air, gas unit.Density) unit.Mass {
	return unit.Mass(fill.SI() * (air.SI() - gas.SI()))
}

// AtEnd is what is left of a gross lift after a time of leaking, m (1 − loss)^days: each day takes its share of what the
// day before left. It fails for a loss outside 0 to 100 % a day and for a time that is not finite.
//
// Source: policy (a film or rubber of constant permeability leaks in proportion to its gas).
func AtEnd(gross unit.Mass, loss unit.Loss, after unit.Duration) (unit.Mass, error) {
	kept, err := Kept(loss, after)
	return unit.Mass(gross.SI() * kept.SI()), err
}

// Kept is the share of the gross lift that a time of leaking leaves, (1 − loss)^days; see AtEnd.
func Kept(loss unit.Loss, after unit.Duration) (unit.Ratio, error) {
	if !(loss >= 0 && loss < 1) {
		return 0, fmt.Errorf("lift: loss of %v; it must lie between 0 %% and 100 %% a day", loss)
	}
	if !(after >= 0) || math.IsInf(after.SI(), 0) {
		return 0, fmt.Errorf("lift: no lift after %v; the time must be finite and not negative", after)
	}
	return unit.Ratio(math.Pow(1-loss.SI(), after.Days())), nil
}

// TopUpAfter is how long a gross lift takes to leak down to a lift that is still needed, ln(needed/gross)/ln(1 − loss)
// days. It fails when the lift is too small from the start, and when nothing leaks: then no time is too long.
//
// Source: the inverse of AtEnd.
func TopUpAfter(gross, needed unit.Mass, loss unit.Loss) (unit.Duration, error) {
	switch {
	case !(loss > 0 && loss < 1):
		return 0, fmt.Errorf("lift: no time to a top-up with a loss of %v; it must lie above 0 %% and below 100 %% a day", loss)
	case !(needed > 0 && gross >= needed) || math.IsInf(gross.SI(), 0):
		return 0, fmt.Errorf("lift: a lift of %v is below the %v needed from the start", gross, needed)
	}
	days := math.Log(needed.SI()/gross.SI()) / math.Log1p(-loss.SI())
	return unit.Duration(days * 86400), nil
}

// Free is the free lift: the gross lift less everything aloft, the line included. Below zero it does not fly.
// Source: wmo-8, balloon techniques.
func Free(gross, aloft unit.Mass) unit.Mass { return gross - aloft }

// Neck is what a scale at the filled balloon's neck reads before anything is hung on: the gross lift less the envelope.
// Source: wmo-8, balloon techniques (there "nozzle lift").
func Neck(gross, envelope unit.Mass) unit.Mass { return gross - envelope }
