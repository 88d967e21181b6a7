package air

import (
	"math"
	"testing"

	"hoistbook/kits/unit"
	"pgregory.net/rapid"
)

// near fails the test when got is not within a relative tolerance of want.
func near(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got/want-1) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g within %g", name, got, want, tolerance)
	}
}

func state(hPa, celsius, humidity float64) State {
	return State{unit.Pressure(hPa * 100), unit.Celsius(celsius), unit.Ratio(humidity)}
}

func density(t *testing.T, s State) float64 {
	t.Helper()
	d, err := s.Density()
	if err != nil {
		t.Fatalf("density of %v: %v", s, err)
	}
	return d.SI()
}

// The equation with the coefficients of Picard et al., Metrologia 45 (2008) 149, worked independently in Python from the
// printed coefficients; five or six figures are kept.
func TestMoistAirAgainstTheEquationWorkedIndependently(t *testing.T) {
	s := state(1013.25, 20, 0.5)
	near(t, "saturation pressure", VapourPressure(s.Temperature).SI(), 2339.16, 3e-6)
	near(t, "vapour fraction", s.VapourFraction(), 0.011589, 5e-5)
	near(t, "compressibility", s.compressibility(s.VapourFraction()), 0.999615, 1e-6)
	near(t, "20 °C dry", density(t, state(1013.25, 20, 0)), 1.20456, 5e-6)
	near(t, "20 °C 50 %", density(t, s), 1.19931, 5e-6)
	near(t, "15 °C dry", density(t, state(1013.25, 15, 0)), 1.22552, 5e-6)
	near(t, "35 °C 80 %", density(t, state(1000, 35, 0.8)), 1.11162, 5e-6)
}

// OIML R 111-1:2004, E.3: ρ = [0.34848 p − 0.009 h exp(0.061 t)]/(273.15 + t), stated to 2e-4 for 900 to 1100 hPa,
// 10 to 30 °C and at most 80 % (from memory). It approximates the 1981/91 equation, from which that of 2007 differs by
// another 0.7e-4 (new argon fraction); at the corner of 1100 hPa and 10 °C the sum is 2.9e-4.
func TestMoistAirAgainstOIML(t *testing.T) {
	for _, p := range []float64{900, 1000, 1100} {
		for _, c := range []float64{10, 15, 20, 25, 30} {
			for _, h := range []float64{0, 0.4, 0.8} {
				want := (0.34848*p - 0.009*h*100*math.Exp(0.061*c)) / (273.15 + c)
				near(t, "OIML", density(t, state(p, c, h)), want, 3e-4)
			}
		}
	}
}

// Beyond the range that CIPM-2007 states, against the two-gas ideal law ρ = (p − e)/(287.05 T) + e/(461.495 T) with the
// vapour pressure of WMO-No. 8, annex 4.B (over water): what Caveat's comment promises.
func TestMoistAirBeyondTheStatedRange(t *testing.T) {
	for _, p := range []float64{700, 900, 1050} {
		for c := -20.0; c <= 45; c += 5 {
			for _, h := range []float64{0, 0.5, 1} {
				e := h * 611.2 * math.Exp(17.62*c/(243.12+c))
				want := (p*100-e)/(287.05*(273.15+c)) + e/(461.495*(273.15+c))
				near(t, "two gases", density(t, state(p, c, h)), want, 1e-3)
			}
		}
	}
}

// US Standard Atmosphere 1976, table I, by geometric altitude.
func TestStandardPressure(t *testing.T) {
	for _, row := range []struct{ z, pa float64 }{
		{0, 101325}, {150, 99536}, {500, 95461.3}, {1000, 89876.3}, {1500, 84559.7}, {2000, 79501.4}, {3000, 70121.2}, {5000, 54048.3},
	} {
		p, err := StandardPressure(unit.Length(row.z))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "pressure", p.SI(), row.pa, 2e-6)
	}
	for _, z := range []float64{-501, 11001, math.NaN(), math.Inf(1)} {
		if p, err := StandardPressure(unit.Length(z)); err == nil {
			t.Errorf("elevation %v: got %v, want an error", z, p)
		}
	}
}

// Densities at 0 °C and 101 325 Pa as handbooks print them: helium 0.1786, hydrogen 0.08988, air 1.293 kg/m³. Real helium
// is 0.17848 (second virial coefficient), so the ideal law may be 0.06 % high.
func TestGasDensity(t *testing.T) {
	freezing := state(1013.25, 0, 0)
	for gas, want := range map[Gas]float64{Helium: 0.1786, Hydrogen: 0.08988} {
		d, err := gas.Density(freezing, 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, string(gas), d.SI(), want, 7e-4)
	}
	near(t, "air", density(t, freezing), 1.293, 1e-3)
}

// Airship practice, 60 °F and 29.92 inHg, pounds in 1000 ft³: air 76.36, helium 10.54, hydrogen 5.31, net lift 65.82 and
// 71.05.
func TestPublishedLift(t *testing.T) {
	const pounds = 1000 * 0.028316846592 / 0.45359237
	s := State{unit.Pressure(29.92 * 3386.389), unit.Kelvin((60 + 459.67) * 5 / 9), 0}
	air := density(t, s) * pounds
	near(t, "air", air, 76.36, 2e-4)
	for _, row := range []struct {
		gas       Gas
		mass, net float64
	}{{Helium, 10.54, 65.82}, {Hydrogen, 5.31, 71.05}} {
		d, err := row.gas.Density(s, 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, string(row.gas), d.SI()*pounds, row.mass, 1.1e-3)
		near(t, string(row.gas)+" lift", air-d.SI()*pounds, row.net, 2e-4)
	}
}

// Impurity counted as air takes its share from the lift: at sea level in the standard atmosphere helium of 100, 97.5, 95
// and 92 % lifts 1.0558, 1.0294, 1.0030 and 0.9713 kg/m³ (lift = y (ρ_air − ρ_He) with ρ_air = 1.2250).
func TestPurity(t *testing.T) {
	s := state(1013.25, 15, 0)
	for _, row := range []struct{ purity, lift float64 }{{1, 1.0558}, {0.975, 1.0294}, {0.95, 1.0030}, {0.92, 0.9713}} {
		d, err := Helium.Density(s, unit.Ratio(row.purity))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "lift", density(t, s)-d.SI(), row.lift, 7e-4) // CIPM air is 0.04 % denser than the standard atmosphere's
	}
}

// A site at 300 m: 970.743 hPa, 20 °C, 50 % and helium of 97.5 %, worked independently in Python from the same equations:
// air 1.14876, helium 0.15941 kg/m³; the mixture is 0.975 × 0.15941 + 0.025 × 1.14876 = 0.18414.
func TestWorkedExample(t *testing.T) {
	s := state(970.743, 20, 0.5)
	near(t, "air", density(t, s), 1.14876, 5e-6)
	for purity, want := range map[unit.Ratio]float64{1: 0.15941, 0.975: 0.18414} {
		d, err := Helium.Density(s, purity)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "gas", d.SI(), want, 5e-5)
	}
}

// The density ratio against the standard atmosphere's densities by geometric altitude: 1.22500 on the ground, 1.20746 at
// 150 m. Constant temperature thins 0.2 % more in 100 m, never less.
func TestDensityRatio(t *testing.T) {
	ratio, err := DensityRatio(150, unit.Kelvin(288.15))
	if err != nil {
		t.Fatal(err)
	}
	standard := 1.20746 / 1.22500
	if r := ratio.SI(); r > standard || r < standard*(1-0.0035) {
		t.Errorf("150 m: got %v, want at most 0.35 %% below %v", r, standard)
	}
	if ratio, _ := DensityRatio(0, unit.Celsius(20)); ratio != 1 {
		t.Errorf("on the ground: got %v, want 1", ratio)
	}
}

// WMO bands of the Beaufort scale, m/s.
func TestBeaufort(t *testing.T) {
	for force, band := range [][2]unit.Speed{
		{0, 0.2}, {0.3, 1.5}, {1.6, 3.3}, {3.4, 5.4}, {5.5, 7.9}, {8, 10.7}, {10.8, 13.8}, {13.9, 17.1}, {17.2, 20.7},
		{20.8, 24.4}, {24.5, 28.4}, {28.5, 32.6}, {32.7, 50},
	} {
		for _, wind := range band {
			if got, err := Beaufort(wind); err != nil || got != force {
				t.Errorf("%v m/s: got force %d (%v), want %d", float64(wind), got, err, force)
			}
		}
	}
	for _, wind := range []float64{-0.1, math.NaN(), math.Inf(1)} {
		if got, err := Beaufort(unit.Speed(wind)); err == nil {
			t.Errorf("%v m/s: got force %d, want an error", wind, got)
		}
	}
}

func TestStatesThatNoWeatherHas(t *testing.T) {
	nan := math.NaN()
	for _, s := range []State{state(0, 20, 0.5), state(1013, 61, 0.5), state(1013, 20, 1.01), state(1013, 20, -0.1),
		state(nan, 20, 0), state(1013, nan, 0), state(1013, 20, nan), state(math.Inf(1), 20, 0)} {
		if d, err := s.Density(); err == nil {
			t.Errorf("%v: got %v, want an error", s, d)
		}
		if d, err := Helium.Density(s, 1); err == nil {
			t.Errorf("helium in %v: got %v, want an error", s, d)
		}
	}
	good := state(1013, 20, 0.5)
	for _, purity := range []float64{0, -1, 1.01, nan} {
		if d, err := Helium.Density(good, unit.Ratio(purity)); err == nil {
			t.Errorf("purity %v: got %v, want an error", purity, d)
		}
	}
	if d, err := Gas("neon").Density(good, 1); err == nil {
		t.Errorf("neon: got %v, want an error", d)
	}
}

func TestCaveat(t *testing.T) {
	if c := state(1013, 20, 0.5).Caveat(); c != "" {
		t.Errorf("20 °C: got %q, want none", c)
	}
	for _, s := range []State{state(1013, 14.9, 0), state(1013, 27.1, 0), state(599, 20, 0), state(1101, 20, 0)} {
		if s.Caveat() == "" {
			t.Errorf("%v: got no caveat, want one", s)
		}
	}
}

func TestWeatherProperties(t *testing.T) {
	weather := rapid.Custom(func(t *rapid.T) State {
		return state(rapid.Float64Range(600, 1080).Draw(t, "hPa"), rapid.Float64Range(-25, 44).Draw(t, "celsius"), rapid.Float64Range(0, 0.9).Draw(t, "humidity"))
	})
	rapid.Check(t, func(t *rapid.T) {
		s := weather.Draw(t, "state")
		warmer, moister, deeper := s, s, s
		warmer.Temperature = unit.Kelvin(s.Temperature.Kelvin() + 1)
		moister.Humidity += 0.05
		deeper.Pressure += 100
		of := func(s State) float64 {
			d, err := s.Density()
			if err != nil {
				t.Fatal(err)
			}
			return d.SI()
		}
		if of(warmer) >= of(s) {
			t.Error("warmer air is not thinner")
		}
		if of(moister) >= of(s) {
			t.Error("moister air is not thinner")
		}
		if of(deeper) <= of(s) {
			t.Error("air under more pressure is not denser")
		}
		he, _ := Helium.Density(s, 1)
		h2, _ := Hydrogen.Density(s, 1)
		tired, _ := Helium.Density(s, 0.9)
		if !(h2 < he && he < tired && tired.SI() < of(s)) {
			t.Errorf("hydrogen %v, helium %v, impure helium %v and air %v are not in this order", h2, he, tired, of(s))
		}
	})
}
