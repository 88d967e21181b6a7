package tether

import (
	"errors"
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// straight is a station whose line has neither weight nor drag, in a wind that is the same at every height: the line is
// straight, tan(lean) = D/lift, and every limit can be worked on paper.
func straight() Station {
	return Station{
		Rig: Rig{
			Line: Line{Length: 100, DragCoefficient: 1.1}, Balloon: Balloon{unit.Length(2).Ball(), 0.7},
			Lift: unit.Force(20).Mass(), Air: 1.25, Profile: Profile{MeasuredAt: 2},
		},
		Demand:      Demand{LowestHeight: 0, GreatestLean: unit.Angle(math.Pi / 2)},
		InitialLift: unit.Force(20).Mass(), GustFactor: 1.5, WorkingLoad: 1e6,
	}
}

// windFor is the wind that drags a 2 m sphere with a force: D = ½ 1.25 U² 0.7 π.
func windFor(drag float64) float64 { return math.Sqrt(drag / (0.5 * 1.25 * 0.7 * math.Pi)) }

func TestGreatestWindOfAStraightLine(t *testing.T) {
	lean, height, load := straight(), straight(), straight()
	lean.GreatestLean = unit.Angle(40 * degree)
	height.LowestHeight = 60     // cos = 0.6, so D = 20 × 4/3
	load.WorkingLoad = 25        // D = 15 in the gust
	load.InitialLift = load.Lift //
	all := lean                  //
	all.LowestHeight, all.WorkingLoad = 60, 25
	for _, c := range []struct {
		name  string
		s     Station
		want  float64
		binds Criterion
	}{
		{"lean", lean, windFor(20 * math.Tan(40*degree)), GreatestLean},
		{"height", height, windFor(20 * 4. / 3), LowestHeight},
		{"load", load, windFor(15) / 1.5, WithinLoad},
		{"all", all, windFor(15) / 1.5, WithinLoad},
	} {
		got, err := c.s.GreatestWind()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got.Binds != c.binds {
			t.Errorf("%s: got %s binding, want %s", c.name, got.Binds, c.binds)
		}
		near(t, c.name, got.Wind.SI(), c.want, 2e-4)
	}
}

// More initial lift pulls harder in the gust but stands no better: T² = 24² + D² = 25² gives D = 7 N.
func TestGreatestWindPullsWithTheInitialLift(t *testing.T) {
	s := straight()
	s.InitialLift, s.WorkingLoad = unit.Force(24).Mass(), 25
	got, err := s.GreatestWind()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "wind", got.Wind.SI(), windFor(7)/1.5, 2e-4)
}

func TestGreatestWindNone(t *testing.T) {
	short, weak, sinking, endless := straight(), straight(), straight(), straight()
	short.LowestHeight = 101
	weak.WorkingLoad = 19
	sinking.Lift, sinking.Line.LinearMass = 0.4, 5e-3
	endless.Balloon.DragCoefficient = 0
	for name, s := range map[string]Station{"short": short, "weak": weak, "sinking": sinking, "endless": endless} {
		if got, err := s.GreatestWind(); !errors.Is(err, ErrNone) {
			t.Errorf("%s: got %v (%v), want none", name, got, err)
		}
	}
}

// A line that weighs nearly what the balloon lifts is pressed onto the ground before it leans by much.
func TestGreatestWindOffTheGround(t *testing.T) {
	s := straight()
	s.Line = Line{50, 20e-3, 8e-3, 1.2}
	s.Lift, s.InitialLift = 1.1, 1.1
	s.Balloon.DragCoefficient = 0.1
	got, err := s.GreatestWind()
	if err != nil || got.Binds != OffGround {
		t.Fatalf("got %v (%v), want the line off the ground to bind", got, err)
	}
	if _, err := s.In(got.Wind); err != nil {
		t.Errorf("in the greatest wind: %v", err)
	}
	if s, err := s.Peak(got.Wind + 0.001); !errors.Is(err, ErrOnGround) {
		t.Errorf("in a gust above it: got %+v (%v), want a line on the ground", s, err)
	}
}

// A long line, heavy for its balloon, lies on the ground in some wind and is pulled off it again by more; the greatest wind
// lies below the first, and every wind up to it holds.
func TestGreatestWindBelowTheDip(t *testing.T) {
	s := straight()
	s.Rig = Rig{Line{235, 12.1e-3, 8e-3, 1.24}, Balloon{0.97, 1.07}, 3.4, 1.25, Profile{5.35, 0.2}}
	s.InitialLift, s.GustFactor = 3.4, 1
	if _, err := s.In(7); err != nil {
		t.Fatalf("beyond the dip: %v", err)
	}
	if _, err := s.In(4); !errors.Is(err, ErrOnGround) {
		t.Fatalf("in the dip: got %v, want a line on the ground", err)
	}
	s.GreatestLean = unit.Angle(80 * degree)
	got, err := s.GreatestWind()
	if err != nil || got.Binds != OffGround || got.Wind > 3 {
		t.Fatalf("got %v (%v), want less than 3 m/s bound by the line off the ground", got, err)
	}
	for wind := unit.Speed(0); wind < got.Wind; wind += 0.05 {
		if _, err := s.In(wind); err != nil {
			t.Errorf("in %v m/s: %v", float64(wind), err)
		}
	}
}

// With a straight line the need is (kept G − m) g₀ tan(lean) = ½ ρ U² C_d (π/4) (6 G/(π k))^⅔; the free lift alone needs
// M (1 + least)/kept.
func TestNeckLiftNeededOfAStraightLine(t *testing.T) {
	n := Need{
		Rig: straight().Rig, Demand: Demand{GreatestLean: unit.Angle(40 * degree)}, Wind: 3,
		LiftPerVolume: 1.03, Envelope: 0.4, Hung: 1.5, Kept: 0.97, LeastFreeLift: 0.2,
	}
	got, err := n.NeckLiftNeeded()
	if err != nil || got.Binds != GreatestLean {
		t.Fatalf("got %v (%v), want the lean to bind", got, err)
	}
	gross := got.Gross.SI()
	pull := (0.97*gross - 1.9) * 9.80665 * math.Tan(40*degree)
	drag := 0.5 * 1.25 * 9 * 0.7 * math.Pi / 4 * math.Pow(6*gross/(math.Pi*1.03), 2./3)
	near(t, "pull and drag", pull/drag, 1, 1e-4)
	near(t, "volume", got.Volume.SI(), gross/1.03, 1e-9)
	near(t, "neck lift", got.NeckLift.SI(), gross-0.4, 1e-9)

	n.Demand = Demand{LowestHeight: 60, GreatestLean: unit.Angle(math.Pi / 2)}
	if got, err = n.NeckLiftNeeded(); err != nil || got.Binds != LowestHeight {
		t.Fatalf("got %v (%v), want the height to bind", got, err)
	}
	gross = got.Gross.SI()
	drag = 0.5 * 1.25 * 9 * 0.7 * math.Pi / 4 * math.Pow(6*gross/(math.Pi*1.03), 2./3)
	near(t, "height", (0.97*gross-1.9)*9.80665/drag, 0.75, 1e-4)

	n.Wind = 0.5
	if got, err = n.NeckLiftNeeded(); err != nil || got.Binds != FreeLift {
		t.Fatalf("got %v (%v), want the free lift to bind", got, err)
	}
	near(t, "gross", got.Gross.SI(), 1.9*1.2/0.97, 1e-12)
}

func TestNeckLiftNeededNone(t *testing.T) {
	n := fenNeed()
	n.LowestHeight = n.Line.Length + 0.1
	if got, err := n.NeckLiftNeeded(); !errors.Is(err, ErrNone) {
		t.Errorf("line too short: got %v (%v), want none", got, err)
	}
	n = fenNeed()
	n.LowestHeight = n.Line.Length // only in calm
	if got, err := n.NeckLiftNeeded(); !errors.Is(err, ErrNone) {
		t.Errorf("no wind allowed: got %v (%v), want none", got, err)
	}
	n.Wind = 0
	if got, err := n.NeckLiftNeeded(); err != nil || got.Binds != FreeLift {
		t.Errorf("in calm: got %v (%v), want the free lift to bind", got, err)
	}
}

// Every input in turn is made not a number, infinite and negative: an error, never a number.
func TestUnusableInput(t *testing.T) {
	for name, field := range map[string]func(*Station, *Need) *float64{
		"length":        func(s *Station, _ *Need) *float64 { return (*float64)(&s.Line.Length) },
		"linear mass":   func(s *Station, _ *Need) *float64 { return (*float64)(&s.Line.LinearMass) },
		"diameter":      func(s *Station, _ *Need) *float64 { return (*float64)(&s.Line.Diameter) },
		"line drag":     func(s *Station, _ *Need) *float64 { return &s.Line.DragCoefficient },
		"fill":          func(s *Station, _ *Need) *float64 { return (*float64)(&s.Balloon.Fill) },
		"balloon drag":  func(s *Station, _ *Need) *float64 { return &s.Balloon.DragCoefficient },
		"air":           func(s *Station, _ *Need) *float64 { return (*float64)(&s.Air) },
		"measured at":   func(s *Station, _ *Need) *float64 { return (*float64)(&s.Profile.MeasuredAt) },
		"exponent":      func(s *Station, _ *Need) *float64 { return &s.Profile.Exponent },
		"lift":          func(s *Station, _ *Need) *float64 { return (*float64)(&s.Lift) },
		"initial lift":  func(s *Station, _ *Need) *float64 { return (*float64)(&s.InitialLift) },
		"gust factor":   func(s *Station, _ *Need) *float64 { return &s.GustFactor },
		"lowest height": func(s *Station, _ *Need) *float64 { return (*float64)(&s.LowestHeight) },
		"lean":          func(s *Station, _ *Need) *float64 { return (*float64)(&s.GreatestLean) },
		"working load":  func(s *Station, _ *Need) *float64 { return (*float64)(&s.WorkingLoad) },
		"per volume":    func(_ *Station, n *Need) *float64 { return (*float64)(&n.LiftPerVolume) },
		"envelope":      func(_ *Station, n *Need) *float64 { return (*float64)(&n.Envelope) },
		"hung":          func(_ *Station, n *Need) *float64 { return (*float64)(&n.Hung) },
		"kept":          func(_ *Station, n *Need) *float64 { return (*float64)(&n.Kept) },
		"least free":    func(_ *Station, n *Need) *float64 { return (*float64)(&n.LeastFreeLift) },
		"wind":          func(_ *Station, n *Need) *float64 { return (*float64)(&n.Wind) },
		"need's length": func(_ *Station, n *Need) *float64 { return (*float64)(&n.Line.Length) },
		"need's air":    func(_ *Station, n *Need) *float64 { return (*float64)(&n.Air) },
		"need's lean":   func(_ *Station, n *Need) *float64 { return (*float64)(&n.GreatestLean) },
	} {
		for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1} {
			s, n := fen(), fenNeed()
			before, beforeNeed := s, n
			*field(&s, &n) = bad
			if s != before {
				if got, err := s.GreatestWind(); err == nil {
					t.Errorf("%s of %v: got %v, want an error", name, bad, got)
				}
			}
			if n != beforeNeed {
				if got, err := n.NeckLiftNeeded(); err == nil {
					t.Errorf("%s of %v: got %v, want an error", name, bad, got)
				}
			}
		}
	}
	for _, bad := range []unit.Speed{unit.Speed(math.NaN()), unit.Speed(math.Inf(1)), -1} {
		if got, err := fen().In(bad); !errors.Is(err, ErrInput) {
			t.Errorf("wind of %v: got %+v (%v), want an error", float64(bad), got, err)
		}
		if got, err := fen().Peak(bad); !errors.Is(err, ErrInput) {
			t.Errorf("gust of %v: got %+v (%v), want an error", float64(bad), got, err)
		}
		if got, err := fen().Shape(bad, 10); !errors.Is(err, ErrInput) {
			t.Errorf("shape in %v: got %v (%v), want an error", float64(bad), got, err)
		}
	}
	heavy := fen()
	heavy.Lift = heavy.Line.Mass()
	if got, err := heavy.In(1); !errors.Is(err, ErrNoLift) {
		t.Errorf("a line as heavy as the lift: got %+v (%v), want no lift", got, err)
	}
}
