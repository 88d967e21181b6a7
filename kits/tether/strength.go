package tether

import (
	"fmt"

	"hoistbook/kits/unit"
)

// WorkingLoad is what a line may be pulled with, breaking strength × knot efficiency / design factor. The breaking strength
// is that of new line in a laboratory; the design factor of 5 to 12 covers wear, wet, shocks and people under the load.
//
// Source: ci-1401, design factor.
func WorkingLoad(breaking unit.Force, knot unit.Ratio, designFactor float64) (unit.Force, error) {
	switch {
	case !(breaking > 0) || infinite(breaking):
		return 0, fmt.Errorf("%w: breaking strength of %v; it must be finite and above zero", ErrInput, breaking)
	case !(knot > 0 && knot <= 1):
		return 0, fmt.Errorf("%w: knot efficiency of %v; it must lie above 0 %% and at most at 100 %%", ErrInput, knot)
	case !(designFactor >= 1) || infinite(designFactor):
		return 0, fmt.Errorf("%w: design factor of %v; it must be finite and at least 1", ErrInput, designFactor)
	}
	return unit.Force(breaking.SI() * knot.SI() / designFactor), nil
}

// An Anchor is a weight that lies on the ground.
type Anchor struct {
	Mass         unit.Mass
	Friction     float64 // between the weight and the ground
	DesignFactor float64
}

// MassNeeded is the least mass that neither lifts nor slides under a pull upwards T_z and across T_x:
// m g₀ ≥ n T_z and μ (m g₀ − n T_z) ≥ n T_x, so m = n (T_z + T_x/μ)/g₀ with the design factor n. The Mass is not used.
//
// Source: statics.
func (a Anchor) MassNeeded(up, across unit.Force) (unit.Mass, error) {
	switch {
	case !(a.Friction > 0) || infinite(a.Friction):
		return 0, fmt.Errorf("%w: friction of %v; it must be finite and above zero", ErrInput, a.Friction)
	case !(a.DesignFactor >= 1) || infinite(a.DesignFactor):
		return 0, fmt.Errorf("%w: design factor of %v; it must be finite and at least 1", ErrInput, a.DesignFactor)
	case !(up >= 0 && across >= 0) || infinite(up) || infinite(across):
		return 0, fmt.Errorf("%w: a pull of %v up and %v across; both must be finite and not negative", ErrInput, up, across)
	}
	return unit.Force(a.DesignFactor * (up.SI() + across.SI()/a.Friction)).Mass(), nil
}

// Holding is the greatest pull across that the anchor holds under a pull upwards, μ (m g₀ − n T_z)/n; below zero it is
// lifted.
//
// Source: statics.
func (a Anchor) Holding(up unit.Force) (unit.Force, error) {
	if _, err := a.MassNeeded(up, 0); err != nil {
		return 0, err
	}
	if !(a.Mass >= 0) || infinite(a.Mass) {
		return 0, fmt.Errorf("%w: anchor of %v; its mass must be finite and not negative", ErrInput, a.Mass)
	}
	return unit.Force(a.Friction * (a.Mass.Weight().SI() - a.DesignFactor*up.SI()) / a.DesignFactor), nil
}
