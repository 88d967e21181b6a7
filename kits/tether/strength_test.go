package tether

import (
	"errors"
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// Cordage Institute CI 1401: working load = breaking strength/design factor; with a knot of 70 % 1000 N of new line may be
// pulled with 140, 58.3 and 46.7 N at design factors of 5, 12 and 15.
func TestWorkingLoad(t *testing.T) {
	for _, c := range []struct{ knot, factor, want float64 }{{0.7, 5, 140}, {0.7, 12, 58.3}, {0.7, 15, 46.7}, {0.5, 12, 41.7}, {0.5, 5, 100}} {
		got, err := WorkingLoad(1000, unit.Ratio(c.knot), c.factor)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "working load", got.SI(), c.want, 0.05)
	}
	nan := math.NaN()
	for _, bad := range [][3]float64{{0, 0.5, 5}, {nan, 0.5, 5}, {1e3, 0, 5}, {1e3, 1.1, 5}, {1e3, nan, 5}, {1e3, 0.5, 0.9}, {1e3, 0.5, nan}, {1e3, 0.5, math.Inf(1)}} {
		if got, err := WorkingLoad(unit.Force(bad[0]), unit.Ratio(bad[1]), bad[2]); !errors.Is(err, ErrInput) {
			t.Errorf("%v: got %v (%v), want an error", bad, got, err)
		}
	}
}

// Worked by hand: 50 N at 30° from the vertical on friction 0.4 with a factor of 1.5 need a weight of 158.7 N, of which
// uplift alone takes 65.0 N; and 500 N under 60 N of uplift hold 0.4 (500 − 90)/1.5 = 109.3 N across.
func TestDeadweight(t *testing.T) {
	a := Anchor{Friction: 0.4, DesignFactor: 1.5}
	up, across := unit.Force(50*math.Cos(30*degree)), unit.Force(50*math.Sin(30*degree))
	mass, err := a.MassNeeded(up, across)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "weight", mass.Weight().SI(), 158.7, 0.05)
	lifted, _ := a.MassNeeded(up, 0)
	near(t, "against uplift", lifted.Weight().SI(), 65.0, 0.05)
	a.Mass = unit.Force(500).Mass()
	holds, err := a.Holding(60)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "holding", holds.SI(), 109.333, 1e-3)
	// The mass needed just holds.
	a.Mass = mass
	holds, _ = a.Holding(up)
	near(t, "just holding", holds.SI(), across.SI(), 1e-9)
}

func TestDeadweightRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct{ friction, factor, up, across float64 }{
		{0, 2, 1, 1}, {nan, 2, 1, 1}, {0.4, 0.5, 1, 1}, {0.4, nan, 1, 1}, {0.4, 2, -1, 1}, {0.4, 2, nan, 1}, {0.4, 2, 1, nan}, {0.4, 2, 1, math.Inf(1)},
	} {
		a := Anchor{Friction: c.friction, DesignFactor: c.factor}
		if got, err := a.MassNeeded(unit.Force(c.up), unit.Force(c.across)); !errors.Is(err, ErrInput) {
			t.Errorf("%v: got %v (%v), want an error", c, got, err)
		}
	}
	for _, mass := range []float64{-1, nan, math.Inf(1)} {
		if got, err := (Anchor{unit.Mass(mass), 0.4, 2}).Holding(10); !errors.Is(err, ErrInput) {
			t.Errorf("%v kg: got %v (%v), want an error", mass, got, err)
		}
	}
}
