package air

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// Constants of the standard atmosphere's troposphere, exact there. Its gas constant is that of 1962 and its mean molar
// mass 28.9644 g/mol; they enter only through the exponent g₀ M/(R* β).
const (
	standardGravity = 9.80665
	isaPressure     = 101325.0 // Pa at sea level
	isaTemperature  = 288.15   // K at sea level
	isaLapse        = 0.0065   // K per geopotential metre
	isaExponent     = standardGravity * 0.0289644 / (8.31432 * isaLapse)
	isaRadius       = 6356766.0 // m, for geopotential height
)

// StandardPressure is what a barometer reads at a geometric elevation z over sea level in the standard atmosphere:
// p = 101325 Pa · (1 − 0.0065 H/288.15)^5.25588 with the geopotential height H = r z/(r + z). It holds in the
// troposphere, to 11 km, and is an average: the weather's own pressure differs by up to 5 %. Below −500 m and above
// 11 km it fails.
//
// Source: iso-2533, troposphere.
func StandardPressure(elevation unit.Length) (unit.Pressure, error) {
	z := elevation.SI()
	if !(z >= -500 && z <= 11000) {
		return 0, fmt.Errorf("air: elevation %v is outside the standard troposphere; it must lie between −500 m and 11 km", elevation)
	}
	geopotential := isaRadius * z / (isaRadius + z)
	return unit.Pressure(isaPressure * math.Pow(1-isaLapse*geopotential/isaTemperature, isaExponent)), nil
}

// molarAir is the mean molar mass of dry air in the standard atmosphere, kg/mol.
const molarAir = 28.9647e-3

// DensityRatio is the air's density at a height over the ground to that on the ground, exp(−g₀ M h/(R T)): hydrostatic
// equilibrium at constant temperature. The standard atmosphere, which cools with height, thins 0.2 % less in each 100 m, so
// this errs to less lift. It applies to an envelope of fixed volume, which vents as it rises; an elastic one grows instead
// and keeps its lift.
//
// Source: iso-2533, hydrostatic equation at constant temperature.
func DensityRatio(height unit.Length, at unit.Temperature) (unit.Ratio, error) {
	h, t := height.SI(), at.Kelvin()
	if !(h >= 0 && h <= 1000) || !(t >= 200 && t <= 340) {
		return 0, fmt.Errorf("air: no density ratio for height %v at %v; it holds to 1000 m over the ground and from −73 °C to 67 °C", height, at)
	}
	return unit.Ratio(math.Exp(-standardGravity * molarAir * h / (gasConstant * t))), nil
}
