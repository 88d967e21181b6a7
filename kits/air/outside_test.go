package air

import (
	"testing"

	"hoistbook/kits/internal/outside"
	"hoistbook/kits/unit"
)

func must[T ~float64](v T, err error) float64 {
	if err != nil {
		panic(err)
	}
	return float64(v)
}

func TestPublishedValues(t *testing.T) {
	const sea = 101325
	at := func(celsius, humidity float64) State { return State{sea, unit.Celsius(celsius), unit.Ratio(humidity)} }
	standard := func(z unit.Length) float64 { return must(StandardPressure(z)) }
	const pounds = 1000 * 0.028316846592 / 0.45359237 // kg/m³ in pounds in 1000 cubic feet
	airship := State{unit.Pressure(29.92 * 3386.389), unit.Kelvin((60 + 459.67) * 5 / 9), 0}
	gas := func(g Gas, s State) float64 { return must(g.Density(s, 1)) }
	const ideal = "the ideal law is 0.05 % above the real gas"
	outside.Table(t, "kits/air", "Air and gas", []outside.Check{
		{What: "density of dry air, 0 °C, 101 325 Pa", Source: "handbooks of physics and chemistry", Published: "1.293", Unit: "kg/m³", Ours: must(at(0, 0).Density())},
		{What: "density of moist air, 20 °C, 101 325 Pa, 50 %", Source: "OIML R 111-1:2004, E.3 (from memory)", Published: "1.1993", Unit: "kg/m³", Ours: must(at(20, 0.5).Density()), Within: 3e-4, Why: "an approximation that is stated to 2e-4"},
		{What: "vapour pressure over water, 20 °C", Source: "wmo-8", At: "annex 4.B (Magnus)", Published: "23.326", Unit: "hPa", Ours: VapourPressure(unit.Celsius(20)).SI() / 100, Within: 0.08, Why: "an approximation, and without the enhancement factor"},
		{What: "pressure at 150 m", Source: "iso-2533", At: "table by geometric altitude", Published: "99536.0", Unit: "Pa", Ours: standard(150), Within: 0.1, Why: "one unit of the table's last digit"},
		{What: "pressure at 1000 m", Source: "iso-2533", At: "table by geometric altitude", Published: "89876.3", Unit: "Pa", Ours: standard(1000), Within: 0.1, Why: "one unit of the table's last digit"},
		{What: "pressure at 3000 m", Source: "iso-2533", At: "table by geometric altitude", Published: "70121.2", Unit: "Pa", Ours: standard(3000), Within: 0.1, Why: "one unit of the table's last digit"},
		{What: "pressure at 5000 m", Source: "iso-2533", At: "table by geometric altitude", Published: "54048.3", Unit: "Pa", Ours: standard(5000), Within: 0.1, Why: "one unit of the table's last digit"},
		{What: "density of helium, 0 °C, 101 325 Pa", Source: "handbooks of physics and chemistry", Published: "0.1786", Unit: "kg/m³", Ours: gas(Helium, at(0, 0))},
		{What: "density of hydrogen, 0 °C, 101 325 Pa", Source: "handbooks of physics and chemistry", Published: "0.08988", Unit: "kg/m³", Ours: gas(Hydrogen, at(0, 0)), Within: 7e-5, Why: ideal},
		{What: "mass of 1000 ft³ of air, 60 °F, 29.92 inHg", Source: "airship practice", Published: "76.36", Unit: "lb", Ours: must(airship.Density()) * pounds, Within: 0.01, Why: "one unit of the last digit"},
		{What: "net lift of 1000 ft³ of helium, 60 °F, 29.92 inHg", Source: "airship practice", Published: "65.82", Unit: "lb", Ours: (must(airship.Density()) - gas(Helium, airship)) * pounds, Within: 0.02, Why: ideal},
		{What: "net lift of 1000 ft³ of hydrogen, 60 °F, 29.92 inHg", Source: "airship practice", Published: "71.05", Unit: "lb", Ours: (must(airship.Density()) - gas(Hydrogen, airship)) * pounds, Within: 0.02, Why: ideal},
	})
}

// scipy's constants, and the standard atmosphere of the fluids library.
func TestAgainstFormulasWorkedIndependently(t *testing.T) {
	state := func(r *outside.Row) State {
		return State{unit.Pressure(r.Number()), unit.Kelvin(r.Number()), unit.Ratio(r.Number())}
	}
	outside.Rows(t, "air.csv", 1e-9, map[string]func(*outside.Row) float64{
		"density":         func(r *outside.Row) float64 { return must(state(r).Density()) },
		"vapour_fraction": func(r *outside.Row) float64 { return state(r).VapourFraction() },
		"compressibility": func(r *outside.Row) float64 {
			s := state(r)
			return s.compressibility(s.VapourFraction())
		},
		"gas_density": func(r *outside.Row) float64 {
			gas := Gas(r.Text())
			s := state(r)
			return must(gas.Density(s, unit.Ratio(r.Number())))
		},
		"standard_pressure": func(r *outside.Row) float64 { return must(StandardPressure(unit.Length(r.Number()))) },
		"density_ratio": func(r *outside.Row) float64 {
			return must(DensityRatio(unit.Length(r.Number()), unit.Kelvin(r.Number())))
		},
	})
}

// Each limit is the last value that passes; the next float beyond it is refused, and a refusal has no number in it.
func TestTheEdgesOfWhatIsComputed(t *testing.T) {
	ok := state(1013, 20, 0.5)
	density := func(change func(*State)) error {
		s := ok
		change(&s)
		d, err := s.Density()
		if err != nil && d != 0 {
			t.Errorf("%v: a density of %v beside %v", s, d, err)
		}
		return err
	}
	ratio := func(h unit.Length, kelvin float64) error {
		r, err := DensityRatio(h, unit.Kelvin(kelvin))
		if err != nil && r != 0 {
			t.Errorf("%v, %v K: a ratio of %v beside %v", h, kelvin, r, err)
		}
		return err
	}
	elevation := func(z float64) error {
		p, err := StandardPressure(unit.Length(z))
		if err != nil && p != 0 {
			t.Errorf("%v m: a pressure of %v beside %v", z, p, err)
		}
		return err
	}
	purity := func(y float64) error {
		d, err := Helium.Density(ok, unit.Ratio(y))
		if err != nil && d != 0 {
			t.Errorf("purity %v: a density of %v beside %v", y, d, err)
		}
		return err
	}
	wind := func(v float64) error {
		force, err := Beaufort(unit.Speed(v))
		if err != nil && force != 0 {
			t.Errorf("%v m/s: force %d beside %v", v, force, err)
		}
		return err
	}
	for _, c := range []struct {
		name       string
		try        func(float64) error
		in, beyond float64
	}{
		{"least pressure", func(p float64) error { return density(func(s *State) { s.Pressure = unit.Pressure(p) }) }, 200e2, 199.9e2},
		{"greatest pressure", func(p float64) error { return density(func(s *State) { s.Pressure = unit.Pressure(p) }) }, 1200e2, 1200.1e2},
		{"coldest", func(c float64) error { return density(func(s *State) { s.Temperature = unit.Celsius(c) }) }, -60, -60.1},
		{"hottest", func(c float64) error { return density(func(s *State) { s.Temperature = unit.Celsius(c) }) }, 60, 60.1},
		{"driest", func(h float64) error { return density(func(s *State) { s.Humidity = unit.Ratio(h) }) }, 0, -1e-9},
		{"dampest", func(h float64) error { return density(func(s *State) { s.Humidity = unit.Ratio(h) }) }, 1, 1.0001},
		{"lowest elevation", elevation, -500, -500.1},
		{"highest elevation", elevation, 11000, 11000.1},
		{"on the ground", func(h float64) error { return ratio(unit.Length(h), 288) }, 0, -1e-9},
		{"highest over the ground", func(h float64) error { return ratio(unit.Length(h), 288) }, 1000, 1000.1},
		{"coldest at a height", func(k float64) error { return ratio(100, k) }, 200, 199.9},
		{"hottest at a height", func(k float64) error { return ratio(100, k) }, 340, 340.1},
		{"purest", purity, 1, 1.0001},
		{"least pure", purity, 1e-9, 0},
		{"calm", wind, 0, -1e-9},
		{"strongest", wind, 149.9, 150},
	} {
		if err := c.try(c.in); err != nil {
			t.Errorf("%s: %v is refused: %v", c.name, c.in, err)
		}
		if c.try(c.beyond) == nil {
			t.Errorf("%s: %v passes", c.name, c.beyond)
		}
	}
	if d, err := Gas("neon").Density(ok, 1); err == nil || d != 0 {
		t.Errorf("neon: got %v, %v", d, err)
	}
	if d, err := Helium.Density(state(0, 20, 0), 1); err == nil || d != 0 {
		t.Errorf("no pressure: got %v, %v", d, err)
	}
	if molar, known := Gas("neon").MolarMass(); known || molar != 0 {
		t.Errorf("neon has %v, %v", molar, known)
	}
}

// CIPM-2007 states its uncertainty for 600 to 1100 hPa and 15 to 27 °C, the ends included.
func TestCaveatBeginsBeyondTheStatedRange(t *testing.T) {
	for _, c := range []struct {
		s       State
		outside bool
	}{
		{state(600, 20, 0), false}, {state(1100, 20, 0), false}, {state(599.9, 20, 0), true}, {state(1100.1, 20, 0), true},
		{state(1000, 15, 0), false}, {state(1000, 27, 0), false}, {state(1000, 14.9, 0), true}, {state(1000, 27.1, 0), true},
	} {
		if got := c.s.Caveat() != ""; got != c.outside {
			t.Errorf("%v: a caveat: %v, want %v", c.s, got, c.outside)
		}
	}
}
