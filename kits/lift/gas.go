package lift

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// gasConstant is R in J/(mol K), exact since 2019. Source: codata-2018.
const gasConstant = 8.314462618

// Moles is the amount of a substance in moles.
type Moles float64

// FillMoles is the gas in a balloon at the pressure and temperature of the air around it, n = p V/(R T). A cold morning's
// fill of the same volume takes the most gas. The ideal law overstates the amount by 0.05 % at 1 bar.
//
// Source: ideal-gas.
func FillMoles(fill unit.Volume, pressure unit.Pressure, at unit.Temperature) (Moles, error) {
	if !(fill >= 0) || math.IsInf(fill.SI(), 0) {
		return 0, fmt.Errorf("lift: a fill of %v; it must be finite and not negative", fill)
	}
	if err := checkState(pressure, at, 20e5); err != nil {
		return 0, err
	}
	return Moles(pressure.SI() * fill.SI() / (gasConstant * at.Kelvin())), nil
}

// Volume is the room that the gas takes at the pressure and temperature of the air, V = n R T/p.
//
// Source: ideal-gas.
func (n Moles) Volume(pressure unit.Pressure, at unit.Temperature) (unit.Volume, error) {
	if !(n >= 0) || math.IsInf(float64(n), 0) {
		return 0, fmt.Errorf("lift: an amount of %v mol; it must be finite and not negative", float64(n))
	}
	if err := checkState(pressure, at, 20e5); err != nil {
		return 0, err
	}
	return unit.Volume(float64(n) * gasConstant * at.Kelvin() / pressure.SI()), nil
}

// A Cylinder is a bottle of compressed gas as it comes from the supplier.
type Cylinder struct {
	WaterVolume unit.Volume
	Pressure    unit.Pressure // absolute
	FilledAt    unit.Temperature
	Virial      float64 // second virial coefficient of the gas in m³/mol: Helium or Hydrogen below
}

// Second virial coefficients near 15 °C, m³/mol.
const (
	VirialHelium   = 11.8e-6
	VirialHydrogen = 14.1e-6
)

// Compressibility is Z = 1 + B p/(R T). Against the published table for helium at 15 °C it is within 0.05 % to 100 bar and
// 0.2 % at 200 bar, on the side of less gas; above 300 bar it fails.
//
// Source: ideal-gas.
func (c Cylinder) Compressibility() (float64, error) {
	if err := checkState(c.Pressure, c.FilledAt, 300e5); err != nil {
		return 0, err
	}
	if !(c.Virial >= 0 && c.Virial < 1e-4) {
		return 0, fmt.Errorf("lift: second virial coefficient %v m3/mol; helium has 11.8e-6 and hydrogen 14.1e-6", c.Virial)
	}
	return 1 + c.Virial*c.Pressure.SI()/(gasConstant*c.FilledAt.Kelvin()), nil
}

// Moles is what the cylinder holds, n = p V/(Z R T). What stays in an emptied cylinder at the pressure of the air (half a
// percent of 200 bar) is not taken off.
//
// Source: ideal-gas.
func (c Cylinder) Moles() (Moles, error) {
	z, err := c.Compressibility()
	if err != nil {
		return 0, err
	}
	if !(c.WaterVolume > 0) || math.IsInf(c.WaterVolume.SI(), 0) {
		return 0, fmt.Errorf("lift: a cylinder of %v; its water volume must be finite and above zero", c.WaterVolume)
	}
	return Moles(c.Pressure.SI() * c.WaterVolume.SI() / (z * gasConstant * c.FilledAt.Kelvin())), nil
}

// Holding is the absolute pressure at which the cylinder holds an amount of gas at the temperature of its filling:
// p = n R T/(V − n B), which is n = p V/(Z R T) with Z = 1 + B p/(R T) turned around.
//
// Source: ideal-gas.
func (c Cylinder) Holding(n Moles) (unit.Pressure, error) {
	most, err := c.Moles()
	if err != nil {
		return 0, err
	}
	if !(n >= 0 && n <= most*(1+1e-9)) {
		return 0, fmt.Errorf("lift: %v mol in a cylinder that holds %v mol", float64(n), float64(most))
	}
	return unit.Pressure(float64(n) * gasConstant * c.FilledAt.Kelvin() / (c.WaterVolume.SI() - float64(n)*c.Virial)), nil
}

// Cylinders is how many whole cylinders a fill takes, ⌈fill/each⌉. It fails for an amount that is not finite.
func Cylinders(fill, each Moles) (unit.Count, error) {
	n := math.Ceil(float64(fill / each))
	if !(fill >= 0 && each > 0) || math.IsNaN(n) || math.IsInf(n, 0) {
		return 0, fmt.Errorf("lift: no count of cylinders for %v mol from cylinders of %v mol", float64(fill), float64(each))
	}
	return unit.Count(n), nil
}

// Warmed is the volume that a fill grows to when the air around it changes and no gas is lost or vented,
// V · (T_after/T_before) · (p_before/p_after): the size that an elastic envelope filled on a cold morning must bear in the
// heat of the day.
//
// Source: ideal-gas.
func Warmed(fill unit.Volume, before, after unit.Temperature, pressureBefore, pressureAfter unit.Pressure) (unit.Volume, error) {
	if !(fill >= 0) || math.IsInf(fill.SI(), 0) {
		return 0, fmt.Errorf("lift: a fill of %v; it must be finite and not negative", fill)
	}
	if err := checkState(pressureBefore, before, 20e5); err != nil {
		return 0, err
	}
	if err := checkState(pressureAfter, after, 20e5); err != nil {
		return 0, err
	}
	return unit.Volume(fill.SI() * after.Kelvin() / before.Kelvin() * pressureBefore.SI() / pressureAfter.SI()), nil
}

// checkState refuses a gas state that is not finite or outside what the gas laws here were compared with.
func checkState(p unit.Pressure, t unit.Temperature, most unit.Pressure) error {
	if !(p > 0 && p <= most) {
		return fmt.Errorf("lift: a gas at %v; its pressure must lie above 0 and at most at %v", p, most)
	}
	if !(t.Kelvin() >= 200 && t.Kelvin() <= 340) {
		return fmt.Errorf("lift: a gas at %v; its temperature must lie between −73 °C and 67 °C", t)
	}
	return nil
}
