package kits_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// shaken draws a demonstration kit whose numbers that matter to flight are a third off, either way.
func shaken(t *rapid.T) *manifest.Manifest {
	m := demoKits()[rapid.SampledFrom(kits.Demos()).Draw(t, "kit")]
	for _, pointer := range []string{
		"/parts/ENV1/envelope/fill_volume", "/parts/ENV1/mass", "/parts/BAT1/mass", "/parts/TET1/tether/linear_mass", "/parts/TET1/tether/diameter",
		"/station/tether_out", "/station/duration", "/station/wind/speed", "/station/wind/measured_at",
	} {
		m = times(t, m, pointer, rapid.Float64Range(2./3, 4./3).Draw(t, pointer))
	}
	return m
}

// demoKits are the demonstration kits, read once.
var demoKits = onlyOnce()

func onlyOnce() func() map[string]*manifest.Manifest {
	all := map[string]*manifest.Manifest{}
	return func() map[string]*manifest.Manifest {
		for _, id := range kits.Demos() {
			if all[id] != nil {
				continue
			}
			source, _ := kits.Demo(id)
			m, err := manifest.Load(source)
			if err != nil {
				panic(err)
			}
			all[id] = m
		}
		return all
	}
}

type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// times is the manifest with one number multiplied.
func times(t fataler, m *manifest.Manifest, pointer string, factor float64) *manifest.Manifest {
	t.Helper()
	n, ok := m.Number(pointer)
	if !ok {
		t.Fatalf("nobody says %s", pointer)
	}
	return to(t, m, pointer, n.Value.SI*factor)
}

// to is the manifest with another number.
func to(t fataler, m *manifest.Manifest, pointer string, held float64) *manifest.Manifest {
	t.Helper()
	n, _ := m.Number(pointer)
	varied, err := m.With(n, held)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return varied
}

// value is a fact, or NaN where there is none.
func value(m *manifest.Manifest, id string) float64 {
	v, ok := kits.Look(m).Lookup(id)
	if !ok || !v.Known() {
		return math.NaN()
	}
	return v.Quantity.SI
}

// never fails when b is greater than a by more than a search may be out by; where one of the two is not known, nothing is said.
func never(t *rapid.T, what string, a, b, within float64) {
	t.Helper()
	if b > a+within {
		t.Fatalf("%s: %.9g before, %.9g after", what, a, b)
	}
}

func TestMoreWindNeverGivesMoreHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := shaken(t)
		windier := times(t, m, "/station/wind/speed", rapid.Float64Range(1, 2).Draw(t, "more wind"))
		never(t, "height", value(m, "tether.height_m"), value(windier, "tether.height_m"), 1e-4)
		never(t, "greatest wind", value(m, "wind.greatest_m_s"), value(windier, "wind.greatest_m_s"), 0)
		never(t, "coverage at the lowest height", value(m, "radio.coverage_km"), value(windier, "radio.coverage_km"), 0)
	})
}

// More lift from the same volume, and more lift from a fuller and so a larger balloon.
func TestMoreLiftNeverLeansMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := shaken(t)
		m = to(t, m, "/parts/ENV1/envelope/purity", rapid.Float64Range(0.9, 0.97).Draw(t, "purity"))
		more := rapid.Float64Range(1, 1.03).Draw(t, "more")
		for _, pointer := range []string{"/parts/ENV1/envelope/purity", "/parts/ENV1/envelope/fill_volume"} {
			fuller := times(t, m, pointer, more)
			never(t, "lean with more "+pointer, value(m, "tether.lean_deg"), value(fuller, "tether.lean_deg"), 1e-6)
			never(t, "lift gone with more "+pointer, -value(m, "lift.free_kg"), -value(fuller, "lift.free_kg"), 0)
		}
	})
}

// Heavier never bears more wind, as far as height and lean go. A line that is the weakest link is another matter: a heavier kit
// pulls less on it. The line is made strong here.
func TestHeavierNeverBearsMoreWind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := times(t, shaken(t), "/parts/TET1/tether/breaking_strength", 50)
		part := rapid.SampledFrom([]string{"/parts/BOX1/mass", "/parts/BAT1/mass", "/parts/ENV1/mass", "/parts/TET1/tether/linear_mass"}).Draw(t, "part")
		heavier := times(t, m, part, rapid.Float64Range(1, 2).Draw(t, "heavier"))
		never(t, "greatest wind", value(m, "wind.greatest_m_s"), value(heavier, "wind.greatest_m_s"), 2e-4)
		never(t, "height", value(m, "tether.height_m"), value(heavier, "tether.height_m"), 1e-4)
	})
}

// rounding is what a sum of some kilograms may be off by, in kilograms.
const rounding = 1e-12

func TestAddingMassNeverRaisesFreeLift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := shaken(t)
		basis := rapid.SampledFrom([]manifest.MassBasis{manifest.Estimated, manifest.Calculated, manifest.Weighed}).Draw(t, "basis")
		grams := unit.Mass(rapid.Float64Range(0.001, 0.5).Draw(t, "mass"))
		loaded, err := m.Adding("MORE", manifest.Part{Name: "ballast", Place: manifest.Aloft, Mass: &grams, MassBasis: basis})
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range []string{"lift.free_kg", "lift.free_end_kg"} {
			before, after := value(m, id), value(loaded, id)
			if !(before-after >= grams.SI()*(1-1e-9)-rounding) {
				t.Fatalf("%s: %v before, %v after adding %v", id, before, after, grams)
			}
		}
		never(t, "neck lift needed falls", value(loaded, "lift.neck_needed_kg"), value(m, "lift.neck_needed_kg"), 1e-3)
	})
}

// A longer stay, a leakier envelope: never more lift at the end, never fewer battery changes.
func TestTimeTakesLift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := shaken(t)
		pointer := rapid.SampledFrom([]string{"/station/duration", "/parts/ENV1/envelope/gas_loss"}).Draw(t, "what grows")
		longer := times(t, m, pointer, rapid.Float64Range(1, 3).Draw(t, "more"))
		never(t, "lift at the end", value(m, "lift.gross_end_kg"), value(longer, "lift.gross_end_kg"), 0)
		never(t, "battery changes saved", -value(m, "power.battery_changes"), -value(longer, "power.battery_changes"), 0)
		if value(m, "lift.gross_kg") != value(longer, "lift.gross_kg") {
			t.Fatalf("the lift at launch depends on %s", pointer)
		}
	})
}

// In no air between the coldest and the hottest does the same fill pull harder, need more of an anchor or bear less wind than the facts
// say; the masses may turn out as they are stated or worse.
func TestNoAirOfTheRangePullsHarder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := shaken(t)
		for _, pointer := range []string{"/parts/ENV1/envelope/purity", "/station/site/humidity"} {
			if _, said := m.Number(pointer); said {
				m = to(t, m, pointer, rapid.Float64Range(0.8, 1).Draw(t, pointer))
			}
		}
		cold := rapid.Float64Range(-25, 20).Draw(t, "coldest")
		hot := cold + rapid.Float64Range(0, 30).Draw(t, "range")
		day := func(m *manifest.Manifest, coldest, hottest float64) *manifest.Manifest {
			m = to(t, m, "/station/site/coldest", unit.Celsius(coldest).SI())
			return to(t, m, "/station/site/hottest", unit.Celsius(hottest).SI())
		}
		whole := day(m, cold, hot)
		then := cold + (hot-cold)*rapid.Float64Range(0, 1).Draw(t, "then")
		one := day(m, then, then)
		for id, within := range map[string]float64{
			"tether.tension_peak_n": 1e-3, "anchor.pull_n": 2e-3, "anchor.mass_needed_kg": 1e-3, "lift.neck_greatest_kg": 1e-12, "lift.free_greatest_kg": 1e-12,
			"gas.volume_hot_m3": 1e-9,
		} {
			never(t, id+" on one day", value(whole, id), value(one, id), within)
		}
		for _, id := range []string{"wind.greatest_m_s", "tether.height_m", "lift.neck_kg", "lift.free_end_kg"} {
			never(t, id+" less on one day", -value(whole, id), -value(one, id), 3e-4)
		}
		never(t, "neck lift needed on one day", value(whole, "lift.neck_needed_kg"), value(one, "lift.neck_needed_kg"), 1e-3)
	})
}
