package tether

import (
	"errors"
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// A Demand is where the balloon must stand in the wind.
type Demand struct {
	LowestHeight unit.Length
	GreatestLean unit.Angle
}

// A Station is a rig and what is demanded of it. The rig's lift is what is left at the end of the station time.
type Station struct {
	Rig
	Demand
	InitialLift unit.Mass // the greatest lift before any loss: it pulls on the line and on the anchor
	GustFactor  float64
	WorkingLoad unit.Force
}

// Peak is how the rig stands in the gust with the initial lift: its TensionTop is the peak tension, its pulls are what the
// anchor must hold.
func (s Station) Peak(measured unit.Speed) (Solution, error) {
	return s.fresh().In(s.gust(measured))
}

func (s Station) fresh() Rig {
	r := s.Rig
	r.Lift = s.InitialLift
	return r
}

func (s Station) gust(measured unit.Speed) unit.Speed {
	return unit.Speed(measured.SI() * s.GustFactor)
}

// A Criterion is something that a station demands.
type Criterion string

// The criteria. OffGround is asked for by nobody and always needed.
const (
	LowestHeight Criterion = "lowest height"
	GreatestLean Criterion = "greatest lean"
	WithinLoad   Criterion = "working load"
	FreeLift     Criterion = "least free lift"
	OffGround    Criterion = "line off the ground"
)

// A margin is by how much the tightest criterion holds, in parts of one; below zero it does not. It is continuous in
// everything that a search varies.
type margin struct {
	by    float64
	tight Criterion
}

// with keeps the tighter of two.
func (m margin) with(by float64, criterion Criterion) margin {
	if by < m.by {
		return margin{by, criterion}
	}
	return m
}

// margin is that of the demand in a steady wind.
func (d Demand) margin(r Rig, measured unit.Speed) (margin, error) {
	s, m, foot, err := r.settle(measured)
	if errors.Is(err, ErrNoLift) {
		return margin{-1, OffGround}, nil
	}
	if err != nil {
		return margin{}, err
	}
	tight := margin{m.clearance(foot), OffGround}
	tight = tight.with((s.Height-d.LowestHeight).SI()/m.length, LowestHeight)
	return tight.with((d.GreatestLean - s.Lean).SI(), GreatestLean), nil
}

// clearance is how steeply the line meets the ground, cos θ, or less the share of the line that would lie on it.
func (m *march) clearance(foot footing) float64 {
	if foot.flat {
		return min(foot.along/m.length-1, -0x1p-52) // never zero: a flat line does not stand
	}
	return math.Cos(foot.angle)
}

func (d Demand) check() error {
	if !(d.LowestHeight >= 0) || infinite(d.LowestHeight) {
		return fmt.Errorf("%w: lowest height of %v; it must be finite and not negative", ErrInput, d.LowestHeight)
	}
	if !(d.GreatestLean >= 0 && d.GreatestLean.Degrees() <= 90) {
		return fmt.Errorf("%w: greatest lean of %v; it must lie between 0° and 90°", ErrInput, d.GreatestLean)
	}
	return nil
}
