package tether

import (
	"testing"

	"hoistbook/kits/internal/floor"
	"hoistbook/kits/unit"
)

// fen is a station of the size that a club flies: 4 m³ of helium on 45 m of 1.4 mm line.
func fen() Station {
	return Station{
		Rig: Rig{
			Line:    Line{Length: 45, LinearMass: 1.1e-3, Diameter: 1.4e-3, DragCoefficient: 1.1},
			Balloon: Balloon{Fill: 4, DragCoefficient: 0.7},
			Lift:    2.2, Air: 1.30, Profile: Profile{MeasuredAt: 2, Exponent: 0.15},
		},
		Demand:      Demand{LowestHeight: 32, GreatestLean: unit.Angle(40 * 3.141592653589793 / 180)},
		InitialLift: 2.3, GustFactor: 1.5, WorkingLoad: 95,
	}
}

// fenNeed is the same station, to be filled for a wind.
func fenNeed() Need {
	return Need{
		Rig: fen().Rig, Demand: fen().Demand, Wind: 2.5,
		LiftPerVolume: 1.0, Envelope: 0.36, Hung: 1.4, Kept: 0.97, LeastFreeLift: 0.2,
	}
}

func BenchmarkIn(b *testing.B) {
	for b.Loop() {
		if _, err := fen().In(2); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkGreatestWind(b *testing.B) {
	for b.Loop() {
		if _, err := fen().GreatestWind(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNeckLiftNeeded(b *testing.B) {
	for b.Loop() {
		if _, err := fenNeed().NeckLiftNeeded(); err != nil {
			b.Fatal(err)
		}
	}
}

// A hundred lines in a wind, beside scipy's integrator and root finder on one of them: go run ./cmd/dev bench
func BenchmarkBesideScipy(b *testing.B) {
	scipy := floor.Scipy(b, "stand")
	floor.Beside(b, func() {
		for range 100 {
			if _, err := fen().In(2); err != nil {
				b.Fatal(err)
			}
		}
	}, nil)
	b.ReportMetric(100*1e3*scipy.Seconds(), "ms-floor")
}
