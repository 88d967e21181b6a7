package tether

import (
	"errors"
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// Why there is no answer. Each comes wrapped with the values that led to it.
var (
	ErrInput       = errors.New("tether: unusable input")
	ErrNoLift      = errors.New("tether: the balloon does not lift its line")
	ErrOnGround    = errors.New("tether: the line would lie on the ground")
	ErrNotConverge = errors.New("tether: did not converge")
	ErrNone        = errors.New("tether: there is no answer")
)

// none says in a whole sentence why a search has no answer. It is an ErrNone.
func none(format string, args ...any) error { return noAnswer(fmt.Sprintf("tether: "+format, args...)) }

type noAnswer string

func (n noAnswer) Error() string   { return string(n) }
func (noAnswer) Is(err error) bool { return err == ErrNone }

// A Line is the tether as paid out.
type Line struct {
	Length          unit.Length
	LinearMass      unit.LinearMass
	Diameter        unit.Length
	DragCoefficient float64 // across the line
}

// Mass of the whole line.
func (l Line) Mass() unit.Mass { return unit.Mass(l.LinearMass.SI() * l.Length.SI()) }

// A Balloon is dragged like a sphere of its initial fill.
type Balloon struct {
	Fill            unit.Volume
	DragCoefficient float64
}

// Drag is ½ ρ U² C_d A with A the disc of a sphere of the fill volume. A tethered sphere sways, which about doubles the
// drag of one held still: C_d = 0.7 is for that, and the low drag beyond the critical Reynolds number is never counted on.
//
// Source: hoerner (the relation); govardhan (the coefficient).
func (b Balloon) Drag(air unit.Density, wind unit.Speed) unit.Force {
	return unit.Force(0.5 * air.SI() * wind.SI() * wind.SI() * b.DragCoefficient * b.Fill.Diameter().Disc().SI())
}

// A Rig is a balloon on its line at a place.
type Rig struct {
	Line    Line
	Balloon Balloon
	Lift    unit.Mass    // gross lift less everything aloft but the line
	Air     unit.Density // at its densest, which drags the most
	Profile Profile
}

// infinite reports whether a number is beyond all others; what is none at all, comparisons refuse.
func infinite[T ~float64](n T) bool { return math.IsInf(float64(n), 0) }

// check refuses what is not finite or makes no rig.
func (r Rig) check(measured unit.Speed) error {
	for _, q := range []struct {
		name  string
		value float64
		least float64
	}{
		{"line length", r.Line.Length.SI(), 1e-3}, {"linear mass of the line", r.Line.LinearMass.SI(), 0},
		{"diameter of the line", r.Line.Diameter.SI(), 0}, {"drag coefficient of the line", r.Line.DragCoefficient, 0},
		{"fill of the balloon", r.Balloon.Fill.SI(), 0}, {"drag coefficient of the balloon", r.Balloon.DragCoefficient, 0},
		{"density of the air", r.Air.SI(), 0}, {"wind", measured.SI(), 0},
	} {
		if !(q.value >= q.least) || infinite(q.value) {
			return fmt.Errorf("%w: %s of %v; it must be finite and at least %v", ErrInput, q.name, q.value, q.least)
		}
	}
	if err := r.Profile.check(); err != nil {
		return err
	}
	if math.IsNaN(r.Lift.SI()) || infinite(r.Lift) {
		return fmt.Errorf("%w: lift of %v; it must be finite", ErrInput, r.Lift.SI())
	}
	if r.Lift <= r.Line.Mass() {
		return fmt.Errorf("%w: it lifts %v and %v of line weighs %v", ErrNoLift, r.Lift, r.Line.Length, r.Line.Mass())
	}
	return nil
}
