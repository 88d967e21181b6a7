package tether

import (
	"errors"
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// bearing is the straight rig without weight in a gust whose drag goes by the volume to the power of two thirds.
func bearing() Bearing {
	s := straight()
	return Bearing{Rig: s.Rig, Gust: 3, LiftPerVolume: 1, Largest: 7, Envelope: 0.6, Hung: 0.4}
}

func under(load unit.Force) func(Solution) float64 {
	return func(s Solution) float64 { return 1 - s.TensionTop.SI()/load.SI() }
}

// By hand: a neck lift N in kg of 1 kg/m3 makes a sphere of N + 0.6 m3, or of 7 m3 at the most, whose drag is ½ 1.25 · 9 · 0.7 · π/4 (6 V/π)^(2/3), and
// pulls up with (N − 0.4) g; both together are the working load.
func TestMostNeckLiftOfAStraightLine(t *testing.T) {
	for _, neck := range []float64{0.5, 2, 7} {
		volume := math.Min(7, neck+0.6)
		drag := 0.5 * 1.25 * 9 * 0.7 * math.Pi / 4 * math.Pow(6*volume/math.Pi, 2./3)
		load := math.Hypot(drag, (neck-0.4)*9.80665)
		got, err := bearing().NeckLiftMost(under(unit.Force(load)))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "neck lift", got.SI(), neck, 1e-4)
		if got.SI() > neck*(1+1e-9) {
			t.Errorf("%v kg are more than the %v kg that are borne", got.SI(), neck)
		}
	}
}

func TestMostNeckLiftNone(t *testing.T) {
	calm := bearing()
	calm.Gust = 0
	if got, err := calm.NeckLiftMost(under(0)); !errors.Is(err, ErrNone) || got != 0 {
		t.Errorf("a line that bears nothing: got %v (%v)", got, err)
	}
	if got, err := calm.NeckLiftMost(under(1e12)); !errors.Is(err, ErrNone) || got != 0 {
		t.Errorf("a line that bears everything: got %v (%v)", got, err)
	}
	if got, err := bearing().NeckLiftMost(func(Solution) float64 { return math.NaN() }); !errors.Is(err, ErrNone) || got != 0 {
		t.Errorf("what bears nobody knows what: got %v (%v)", got, err)
	}
	for name, spoil := range map[string]func(*Bearing){
		"lift per volume": func(b *Bearing) { b.LiftPerVolume = 0 }, "envelope": func(b *Bearing) { b.Envelope = -1 },
		"hung": func(b *Bearing) { b.Hung = unit.Mass(math.NaN()) }, "gust": func(b *Bearing) { b.Gust = unit.Speed(math.Inf(1)) }, "largest": func(b *Bearing) { b.Largest = -1 },
	} {
		b := bearing()
		spoil(&b)
		if got, err := b.NeckLiftMost(under(100)); !errors.Is(err, ErrInput) || got != 0 {
			t.Errorf("%s: got %v (%v), want unusable input", name, got, err)
		}
	}
}
