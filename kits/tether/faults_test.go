package tether

import (
	"errors"
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// failing expects no convergence, and no number beside it.
func failing(t *testing.T, what string, got float64, err error) {
	t.Helper()
	if !errors.Is(err, ErrNotConverge) || got != 0 {
		t.Errorf("%s: got %v (%v), want no convergence", what, got, err)
	}
}

// In 4 m/s the line leans by atan(22/5) = 1.35 rad, more than a radian beyond the greatest lean of 0.2, so that the gust is not
// looked at; on the way there it is, and no float holds it.
func TestAGustThatNoFloatHolds(t *testing.T) {
	s := straight()
	s.Line.Diameter, s.GustFactor, s.GreatestLean = 1e-6, 1e200, 0.2
	s.Lift = unit.Force(5).Mass()
	if m, err := s.margin(4); err != nil || m.by > -1 {
		t.Fatalf("in 4 m/s the margin is %+v (%v)", m, err)
	}
	limit, err := s.GreatestWind()
	failing(t, "a greatest wind", limit.Wind.SI(), err)
	if limit != (WindLimit{}) {
		t.Errorf("%+v stands beside %v", limit, err)
	}
}

// A mean wind without a number has no margin, although the gust, with far more lift, would have one.
func TestAMeanWindThatNoFloatHolds(t *testing.T) {
	s := straight()
	s.Line, s.Balloon.DragCoefficient, s.GustFactor = Line{1, 0, 1, 1e308}, 0, 1
	s.Lift, s.InitialLift = 1e-300, 1e307
	if _, err := s.Peak(1); err != nil {
		t.Fatalf("the gust: %v", err)
	}
	m, err := s.margin(1)
	failing(t, "a margin", m.by, err)
}

// A balloon that does not lift its line at the end is on the ground, whatever it pulls with at the beginning: 20 N of 5 N would
// be a margin of −3.
func TestWithoutLiftNothingElseIsAsked(t *testing.T) {
	s := straight()
	s.Lift, s.WorkingLoad = 0, 5
	if m, err := s.margin(1); err != nil || m != (margin{-1, OffGround}) {
		t.Errorf("got %+v (%v)", m, err)
	}
}

// The drag of the line is beyond all floats from a hair below 2 m/s up, ½ · 1.25 · C_n · 2² > 1.8e308, and the lift is of its
// size: in all weaker winds the line stands.
func TestAWindBeyondWhichNoFloatHolds(t *testing.T) {
	s := straight()
	s.Line, s.Balloon.DragCoefficient, s.GustFactor = Line{1, 0, 1, math.MaxFloat64 / 2.5 * (1 + 1e-9)}, 0, 1
	s.Lift, s.InitialLift = 1e307, 1e307
	for _, wind := range []unit.Speed{1, 1.5, 1.9, 1.999999} {
		if c, err := s.clearance(wind); err != nil || c < 0 {
			t.Fatalf("in %v m/s a clearance of %v (%v)", float64(wind), c, err)
		}
	}
	grounded, err := s.grounds(2)
	failing(t, "a wind that grounds", grounded.SI(), err)
	deep, err := s.deepest(0, 4, 4) // looks at 1.53 and 2.47 m/s
	failing(t, "a dip", deep.SI(), err)
}

// A line is drawn in no more pieces than a march has steps.
func TestAShapeInTooManyPieces(t *testing.T) {
	points, err := fen().Shape(3, mostSteps+1)
	failing(t, "a shape", float64(len(points)), err)
	if points, err := fen().Shape(3, mostSteps/2); err != nil || len(points) < mostSteps/2 {
		t.Errorf("half as many: %d points (%v)", len(points), err)
	}
}

// A balloon of two litres, for grams: (kept G − m) g₀ tan(lean) = D(G), as closely as for one of kilograms.
func TestNeckLiftOfAToyBalloon(t *testing.T) {
	n := Need{
		Rig: straight().Rig, Demand: Demand{GreatestLean: unit.Angle(40 * degree)}, Wind: 1,
		LiftPerVolume: 1.03, Envelope: 0.4e-3, Hung: 1.5e-3, Kept: 0.97, LeastFreeLift: 0.2,
	}
	got, err := n.NeckLiftNeeded()
	if err != nil || got.Binds != GreatestLean {
		t.Fatalf("got %+v (%v), want the lean to bind", got, err)
	}
	gross := got.Gross.SI()
	pull := (0.97*gross - 1.9e-3) * 9.80665 * math.Tan(40*degree)
	drag := 0.5 * 1.25 * 0.7 * math.Pi / 4 * math.Pow(6*gross/(math.Pi*1.03), 2./3)
	near(t, "pull and drag", pull/drag, 1, 1e-4)
}

// The shortest line, of a millimetre, stands as exactly as a long one. Without weight and drag it is straight: tan(lean) is
// the balloon's drag, at the height where it stands, over the lift.
func TestTheShortestLineStandsAsExactly(t *testing.T) {
	for _, length := range []unit.Length{1e-3, 1, 1e3} {
		for _, exponent := range []float64{0.1, 0.2, 0.3, 0.4, 0.7, 1} {
			for _, drag := range []float64{5, 10, 15, 20, 30, 50} { // at the full length
				r := straight().Rig
				r.Line.Length, r.Profile = length, Profile{length, exponent}
				s := stand(t, r, unit.Speed(windFor(drag)))
				up := s.Height.SI() / length.SI()
				near(t, "height", up, 20/math.Hypot(20, drag*math.Pow(up, 2*exponent)), 1e-5)
			}
		}
	}
}
