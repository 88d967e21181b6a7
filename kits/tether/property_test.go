package tether

import (
	"errors"
	"math"
	"testing"

	"hoistbook/kits/unit"
	"pgregory.net/rapid"
)

// between draws from a range with every order of magnitude alike.
func between(t *rapid.T, name string, lo, hi float64) float64 {
	return lo * math.Pow(hi/lo, rapid.Float64Range(0, 1).Draw(t, name))
}

func anyRig(t *rapid.T) Rig {
	line := Line{
		unit.Length(between(t, "length", 5, 300)), unit.LinearMass(between(t, "linear mass", 1e-4, 2e-2)),
		unit.Length(between(t, "diameter", 3e-4, 1e-2)), rapid.Float64Range(0, 1.5).Draw(t, "line drag"),
	}
	return Rig{
		Line: line, Lift: line.Mass() + unit.Mass(between(t, "spare lift", 1e-3, 30)),
		Balloon: Balloon{unit.Volume(between(t, "fill", 0.5, 100)), rapid.Float64Range(0.1, 1).Draw(t, "balloon drag")},
		Air:     unit.Density(rapid.Float64Range(0.8, 1.5).Draw(t, "air")),
		Profile: Profile{unit.Length(rapid.Float64Range(1, 12).Draw(t, "measured at")), rapid.Float64Range(0, 0.5).Draw(t, "exponent")},
	}
}

func anyWind(t *rapid.T) unit.Speed { return unit.Speed(between(t, "wind", 0.05, 40)) }

// stands solves, and skips the case when its line lies on the ground. Anything else is a failure.
func stands(t *rapid.T, r Rig, wind unit.Speed) Solution {
	s, err := r.In(wind)
	if errors.Is(err, ErrOnGround) {
		t.Skip("on the ground")
	}
	if err != nil {
		t.Fatalf("%+v in %v m/s: %v", r, float64(wind), err)
	}
	return s
}

// within is how far two solutions of the solver's accuracy may be apart the wrong way, in line lengths or radians.
const within = 2e-5

func TestMoreWindNeverRaisesTheBalloon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, wind := anyRig(t), anyWind(t)
		more := wind * unit.Speed(rapid.Float64Range(1, 2).Draw(t, "more"))
		a, b := stands(t, r, wind), stands(t, r, more)
		if float64(b.Height-a.Height) > within*r.Line.Length.SI() {
			t.Errorf("%v m/s: %v, %v m/s: %v", float64(wind), a, float64(more), b)
		}
		if float64(b.Lean-a.Lean) < -within {
			t.Errorf("lean fell from %v to %v", a.Lean, b.Lean)
		}
		if b.TensionTop < a.TensionTop*(1-within) {
			t.Errorf("tension fell from %v to %v", a.TensionTop, b.TensionTop)
		}
	})
}

func TestMoreLiftNeverLeansMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, wind := anyRig(t), anyWind(t)
		fuller := r
		fuller.Lift += unit.Mass(between(t, "more", 1e-3, 10))
		a, b := stands(t, r, wind), stands(t, fuller, wind)
		if float64(b.Lean-a.Lean) > within || float64(a.Height-b.Height) > within*r.Line.Length.SI() {
			t.Errorf("with %v: %v, with %v: %v", r.Lift, a, fuller.Lift, b)
		}
	})
}

func TestDragAndWeightOnlyLower(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, wind := anyRig(t), anyWind(t)
		thick, heavy, large := r, r, r
		more := rapid.Float64Range(1, 2).Draw(t, "more")
		thick.Line.Diameter *= unit.Length(more)
		heavy.Line.LinearMass *= unit.LinearMass(more)
		large.Balloon.Fill *= unit.Volume(more)
		s := stands(t, r, wind)
		for name, other := range map[string]Rig{"thicker line": thick, "heavier line": heavy, "larger balloon": large} {
			lower, err := other.In(wind)
			if errors.Is(err, ErrOnGround) || errors.Is(err, ErrNoLift) {
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			if float64(lower.Height-s.Height) > within*r.Line.Length.SI() {
				t.Errorf("%s: height rose from %v to %v", name, s.Height, lower.Height)
			}
		}
	})
}

func TestALineIsALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, wind := anyRig(t), anyWind(t)
		s := stands(t, r, wind)
		length := r.Line.Length.SI()
		if chord := math.Hypot(s.Height.SI(), s.Drift.SI()); !(chord <= length*(1+within)) || s.Height <= 0 || s.Drift < 0 {
			t.Errorf("anchor to balloon %v on %v of line", chord, length)
		}
		if !(s.TensionGround <= s.TensionTop && s.PullUp > 0 && s.PullAcross >= 0) {
			t.Errorf("tension %v at the top, %v at the ground, pulls %v and %v", s.TensionTop, s.TensionGround, s.PullUp, s.PullAcross)
		}
		// What the anchor feels upwards is what is left of the lift; what it feels across is at least the balloon's drag.
		if s.PullUp.SI() > (r.Lift-r.Line.Mass()).Weight().SI()*(1+1e-4) || s.PullAcross < s.BalloonDrag*(1-1e-4) {
			t.Errorf("pulls %v and %v of %v lift and %v drag", s.PullUp, s.PullAcross, r.Lift, s.BalloonDrag)
		}
		points, err := r.Shape(wind, 40)
		if err != nil {
			t.Fatal(err)
		}
		if points[0] != (Point{}) || points[len(points)-1] != (Point{s.Drift, s.Height}) {
			t.Errorf("the shape runs from %v to %v", points[0], points[len(points)-1])
		}
		along := 0.0
		for i := 1; i < len(points); i++ {
			piece := math.Hypot(float64(points[i].Drift-points[i-1].Drift), float64(points[i].Height-points[i-1].Height))
			if piece > length/40*(1+1e-3) || points[i].Height < points[i-1].Height-unit.Length(within*length) {
				t.Errorf("piece %d of %d: %v long, from %v to %v", i, len(points), piece, points[i-1], points[i])
			}
			along += piece
		}
		if math.Abs(along/length-1) > 3e-3 {
			t.Errorf("the shape is %v long, the line %v", along, length)
		}
	})
}

func TestNoDragNoLean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, wind := anyRig(t), anyWind(t)
		r.Line.DragCoefficient, r.Balloon.DragCoefficient = 0, 0
		if s := stands(t, r, wind); math.Abs(float64(s.Height/r.Line.Length)-1) > 1e-9 || s.Lean > 1e-9 {
			t.Errorf("got %+v", s)
		}
	})
}

// What a line misses the ground by grows with the balloon's height all the way: there is one height at which it stands.
func TestOneHeightOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, wind := anyRig(t), anyWind(t)
		length := r.Line.Length.SI()
		before := math.Inf(-1)
		for i := range 65 {
			height := length * float64(i) / 64
			m := r.from(height, wind)
			foot, ok := m.descend(math.Inf(1), nil)
			if !ok {
				t.Fatalf("no march from %v", height)
			}
			miss := height - foot.drop
			if miss < before-within*length {
				t.Fatalf("from %v the line misses the ground by %v, from below by %v", height, miss, before)
			}
			before = miss
		}
	})
}
