package air

import (
	"fmt"

	"hoistbook/kits/unit"
)

// gasConstant is R in J/(mol K), exact since 2019. Source: codata-2018.
const gasConstant = 8.314462618

// A Gas is a lifting gas.
type Gas string

// The lifting gases.
const (
	Helium   Gas = "helium"
	Hydrogen Gas = "hydrogen"
)

// MolarMass is in kilograms per mole; false for a gas that is none of the constants. Source: ciaaw.
func (g Gas) MolarMass() (float64, bool) {
	switch g {
	case Helium:
		return 4.002602e-3, true
	case Hydrogen:
		return 2.01588e-3, true
	}
	return 0, false
}

// Density is that of the gas at the pressure and temperature of the air around it, with its impurity counted as that air:
// ρ = y p M/(R T) + (1 − y) ρ_air. The ideal law is 0.05 % above real helium and 0.06 % above real hydrogen at 1 bar, which
// takes less than 0.01 % from the lift. The purity y is a share of volume.
//
// Source: ideal-gas.
func (g Gas) Density(in State, purity unit.Ratio) (unit.Density, error) {
	molar, ok := g.MolarMass()
	if !ok {
		return 0, fmt.Errorf("air: no lifting gas %q; write %q or %q", string(g), Helium, Hydrogen)
	}
	y := purity.SI()
	if !(y > 0 && y <= 1) {
		return 0, fmt.Errorf("air: purity %v of %s is no share; it must lie above 0 %% and at most at 100 %%", purity, g)
	}
	air, err := in.Density()
	if err != nil {
		return 0, err
	}
	pure := in.Pressure.SI() * molar / (gasConstant * in.Temperature.Kelvin())
	return unit.Density(y*pure + (1-y)*air.SI()), nil
}
