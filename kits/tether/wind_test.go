package tether

import (
	"testing"

	"hoistbook/kits/unit"
)

// 10 m/s at 10 m by the power law, worked by hand for exponents of 1/7, 0.2 and 0.4.
func TestProfile(t *testing.T) {
	for _, c := range []struct{ exponent, height, want float64 }{
		{1. / 7, 15, 10.60}, {1. / 7, 50, 12.59}, {1. / 7, 100, 13.90}, {1. / 7, 150, 14.72},
		{0.2, 15, 10.85}, {0.2, 50, 13.80}, {0.2, 100, 15.85}, {0.2, 150, 17.19}, {0.4, 100, 25.12}, {0.3, 10, 10}, {0, 77, 10},
	} {
		got := Profile{10, c.exponent}.At(unit.Length(c.height), 10)
		near(t, "wind", got.SI(), c.want, 6e-3)
	}
	for _, height := range []unit.Length{0, -1} {
		if got := (Profile{10, 0.15}).At(height, 10); got != 0 {
			t.Errorf("at %v: got %v, want no wind", height, got)
		}
	}
}

// Patel, Wind and Solar Power Systems, Table 4-3.
func TestTerrain(t *testing.T) {
	for terrain, want := range map[Terrain]float64{Water: 0.10, Open: 0.15, Rough: 0.20, Wooded: 0.25, Town: 0.30, City: 0.40} {
		if got, ok := terrain.Exponent(); !ok || got != want {
			t.Errorf("%s: got %v, %v, want %v", terrain, got, ok, want)
		}
	}
	if got, ok := Terrain("moon").Exponent(); ok {
		t.Errorf("moon: got %v, want none", got)
	}
}
