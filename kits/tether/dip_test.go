package tether

import (
	"errors"
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// dipping is a long line, heavy for its balloon, that a wind of 3.86 m/s presses down the most and more wind pulls straight
// again. Of the linear mass it depends whether it touches the ground then, and in which winds.
func dipping(linear unit.LinearMass) Station {
	s := straight()
	s.Rig = Rig{Line{235, linear, 8e-3, 1.24}, Balloon{0.97, 1.07}, 3.4, 1.25, Profile{5.35, 0.2}}
	s.InitialLift, s.GustFactor, s.GreatestLean = 3.4, 1, unit.Angle(80*degree)
	return s
}

const deepest unit.Speed = 3.86

// The dips, looked at in steps of 5 mm/s: with 11.65 g/m from 3.810 to 3.905 m/s, with 11.6494 from 3.855 to 3.865 m/s, with
// 11.649 nowhere.
const (
	broadDip  unit.LinearMass = 11.65e-3
	narrowDip unit.LinearMass = 11.6494e-3
	noDip     unit.LinearMass = 11.649e-3
)

// Wherever a dip lies between the winds that are looked at, from the first to the last, it is found; and none where none is.
func TestADipIsFoundWhereverItLies(t *testing.T) {
	tried := 0
	for _, linear := range []unit.LinearMass{broadDip, narrowDip} {
		s := dipping(linear)
		if c, err := s.clearance(deepest); err != nil || c >= 0 {
			t.Fatalf("%v: a clearance of %v (%v) in the dip", linear, c, err)
		}
		for k := range lookedAt {
			for _, part := range []unit.Speed{0.1, 0.35, 0.5, 0.65, 0.9} {
				grid := (float64(k) + float64(part)) / lookedAt
				limit := deepest / unit.Speed(grid*grid)
				if c, _ := s.clearance(limit); c < 0 || limit > strongest {
					continue // no limit that a search would find
				}
				tried++
				found, err := s.grounds(limit)
				if err != nil || !(found < limit) {
					t.Errorf("%v: below %v m/s got %v m/s (%v), want the dip", linear, float64(limit), float64(found), err)
					continue
				}
				if c, _ := s.clearance(found); c >= 0 {
					t.Errorf("%v: below %v m/s got %v m/s, where the clearance is %v", linear, float64(limit), float64(found), c)
				}
			}
		}
	}
	if tried < 150 {
		t.Errorf("only %d dips were looked for", tried)
	}
	clear := dipping(noDip)
	for _, limit := range []unit.Speed{3.9, 5, 8, 20} {
		if found, err := clear.grounds(limit); err != nil || found != limit {
			t.Errorf("without a dip got %v m/s (%v) below %v m/s", float64(found), err, float64(limit))
		}
	}
}

// A balloon and a line of k² times the drag stand alike in a k-th of the wind: the dip then lies a little below the weakest wind that is
// looked at, and is found too. (Much weaker ones are of no account: in the 576th part of a limit of 20 m/s, 35 mm/s, the line's
// drag is below that of a gram, and no balloon is filled to the gram.)
func TestADipInTheWeakestWinds(t *testing.T) {
	for _, linear := range []unit.LinearMass{broadDip, narrowDip} {
		for _, part := range []float64{0.92, 0.95, 0.98} {
			const limit = 99
			k := deepest.SI() / (limit * part * part / lookedAt / lookedAt)
			s := dipping(linear)
			s.Line.DragCoefficient *= k * k
			s.Balloon.DragCoefficient *= k * k
			if c, err := s.clearance(deepest / unit.Speed(k)); err != nil || c >= 0 {
				t.Fatalf("%v: a clearance of %v (%v) in the dip", linear, c, err)
			}
			if found, err := s.grounds(limit); err != nil || math.Abs(found.SI()*k-deepest.SI()) > 0.06 {
				t.Errorf("%v: the dip at %v m/s is found at %v (%v)", linear, deepest.SI()/k, found.SI(), err)
			}
		}
	}
}

// A wind of the grid that lies in a dip is answered as it is, and so is the first of several.
func TestADipOnTheGrid(t *testing.T) {
	s := dipping(12.5e-3) // broad enough for several winds of the grid
	const limit = 2 * deepest
	found, err := s.grounds(limit)
	if err != nil {
		t.Fatal(err)
	}
	first := 0
	for i := 1; first == 0; i++ {
		if c, _ := s.clearance(lookAt(i, limit)); c < 0 {
			first = i
		}
	}
	if found != lookAt(first, limit) {
		t.Errorf("got %v, want the first of the grid, %v", float64(found), float64(lookAt(first, limit)))
	}
	if next, _ := s.clearance(lookAt(first+1, limit)); next >= 0 {
		t.Fatal("only one wind of the grid is in the dip: this test shows less")
	}
}

// The greatest wind lies below the dip, however narrow, and every wind to it holds.
func TestGreatestWindBelowANarrowDip(t *testing.T) {
	for linear, below := range map[unit.LinearMass]unit.Speed{broadDip: 3.811, narrowDip: 3.86} {
		got, err := dipping(linear).GreatestWind()
		if err != nil || got.Binds != OffGround || !(got.Wind <= below && got.Wind > below-0.02) {
			t.Errorf("%v: got %+v (%v), want a little below %v m/s", linear, got, err, float64(below))
		}
	}
	free, err := dipping(noDip).GreatestWind()
	if err != nil || free.Binds != GreatestLean || free.Wind < 4 {
		t.Errorf("without a dip: got %+v (%v), want a wind beyond it, bound by the lean", free, err)
	}
}

// In gusts of five times the mean it is the gust that presses the line down.
func TestADipInTheGust(t *testing.T) {
	s := dipping(broadDip)
	s.GustFactor = 5
	mean, err := s.Rig.In(deepest / 5)
	if err != nil || !s.Rig.staysUp(deepest/5) {
		t.Fatalf("the mean wind alone: %+v, %v", mean, err)
	}
	limit := deepest / 5 * 1.1
	found, err := s.grounds(limit)
	if err != nil || !(found < limit) {
		t.Errorf("got %v m/s (%v), want the dip", float64(found), err)
	}
	gust, _ := dipping(broadDip).clearance(deepest)
	if c, _ := s.clearance(deepest / 5); math.Abs(c-gust) > 1e-12 {
		t.Errorf("the clearance is %v, that of the gust %v", c, gust)
	}
	s.GustFactor, s.InitialLift = 1, 8 // now the mean, with less lift, is the worse
	if c, _ := s.clearance(deepest); math.Abs(c-gust) > 1e-12 {
		t.Errorf("the clearance is %v, that of the mean wind %v", c, gust)
	}
}

// T_z at the ground is at least the lift less the line's weight less 2/√27 of the drag that the wind at the line's length
// would have on all of it, because cos²θ sin θ ≤ 2/√27. By hand: 20 N of lift, 100 m of 20 g/m and 4 mm, C_n 1.2, air 1.25,
// 10 m/s at every height: q = ½ · 1.25 · 1.2 · 0.004 · 100 = 0.3 N/m; 0.3849 · 30 N = 11.547 N, and the line weighs 19.613 N.
func TestWhatStaysUp(t *testing.T) {
	r := Rig{Line{100, 20e-3, 4e-3, 1.2}, Balloon{1, 0.7}, 0, 1.25, Profile{10, 0}}
	need := 19.6133 + 0.3849002*30
	for lift, up := range map[float64]bool{need * 1.0001: true, need * 0.9999: false} {
		r.Lift = unit.Force(lift).Mass()
		if r.staysUp(10) != up {
			t.Errorf("with %v N it stays up: %v", lift, !up)
		}
	}
	// The wind is that at the full length: by a law of 0.5 from 4 m, 2 m/s are 10 m/s at 100 m.
	r.Profile = Profile{4, 0.5}
	for lift, up := range map[float64]bool{need * 1.0001: true, need * 0.9999: false} {
		r.Lift = unit.Force(lift).Mass()
		if r.staysUp(2) != up {
			t.Errorf("in a wind that grows, with %v N it stays up: %v", lift, !up)
		}
	}
}

// tooStrong is a station whose line has no drag in calm and, from 2 m/s up, one that no float holds.
func tooStrong() Station {
	s := straight()
	s.Line = Line{100, 1e-3, 1, math.MaxFloat64}
	return s
}

// What does not converge is an error in every search, never a number.
func TestWhatDoesNotConvergeIsNeverANumber(t *testing.T) {
	s := tooStrong()
	expect := func(what string, got float64, err error) {
		t.Helper()
		if !errors.Is(err, ErrNotConverge) || got != 0 {
			t.Errorf("%s: got %v (%v), want no convergence", what, got, err)
		}
	}
	solution, err := s.In(4)
	expect("a height", solution.Height.SI(), err)
	if solution != (Solution{}) {
		t.Errorf("%+v stands beside %v", solution, err)
	}
	peak, err := s.Peak(4)
	expect("a peak", peak.TensionTop.SI(), err)
	shape, err := s.Shape(4, 10)
	expect("a shape", float64(len(shape)), err)
	limit, err := s.GreatestWind()
	expect("a greatest wind", limit.Wind.SI(), err)
	first, err := s.first(0, 4)
	expect("a narrowed wind", first.Wind.SI(), err)
	margin, err := s.margin(4)
	expect("a margin", margin.by, err)
	clearance, err := s.clearance(4)
	expect("a clearance", clearance, err)
	grounded, err := s.grounds(4)
	expect("a wind that grounds", grounded.SI(), err)
	deep, err := s.deepest(0, 4, 4)
	expect("a dip", deep.SI(), err)
	_, m, foot, err := s.settle(4)
	expect("a march", m.length, err)
	if foot != (footing{}) {
		t.Errorf("%+v stands beside %v", foot, err)
	}
	n := fenNeed()
	n.Rig = s.Rig
	n.Wind = 4
	fill, err := n.NeckLiftNeeded()
	expect("a fill", fill.Gross.SI(), err)

	// The mean wind is well, and the gust is not.
	s = tooStrong()
	s.Line.DragCoefficient, s.GustFactor = 1e-2, 1e160
	s.GreatestLean = unit.Angle(math.Pi / 2)
	if _, err := s.In(0.1); err != nil {
		t.Fatalf("a breath of wind: %v", err)
	}
	margin, err = s.margin(0.1)
	expect("a margin in the gust", margin.by, err)
	clearance, err = s.clearance(0.1)
	expect("a clearance in the gust", clearance, err)
}

// In gusts of five times the mean the gust presses the line down first, with the lift at the end, however much more there was at launch.
func TestTheDipOfTheGustIsFoundWithTheLiftAtTheEnd(t *testing.T) {
	for _, initial := range []unit.Mass{1, 1.002, 3} {
		s := dipping(broadDip)
		s.GustFactor, s.InitialLift = 5, s.Lift*initial // a dip at 0.77 m/s, below which the search begins at calm
		if got, err := s.GreatestWind(); err != nil || got.Binds != OffGround || !(got.Wind > 0.74 && got.Wind <= 3.811/5) {
			t.Errorf("with %v times the lift at launch: got %+v (%v), want a little below %v", initial, got, err, 3.81/5)
		}
	}
}

// Without a number in calm there is none in any wind.
func TestNotEvenInCalm(t *testing.T) {
	s := tooStrong()
	s.Line.Diameter = 4 // endless drag times no wind
	if got, err := s.GreatestWind(); !errors.Is(err, ErrNotConverge) || got != (WindLimit{}) {
		t.Errorf("got %+v (%v)", got, err)
	}
}

// The margins by hand: on a straight line of 100 m that stands 80 m high, 20 m of it over a lowest height of 60 m are a
// fifth of the line; a lean of 36.87° under one of 50° is 0.229 rad; 25 N under 40 N are three eighths.
func TestMargins(t *testing.T) {
	s := straight()
	wind := unit.Speed(windFor(15)) // 15 N across, 20 N up
	s.GustFactor, s.LowestHeight = 1, 60
	expect := func(want float64, tight Criterion) {
		t.Helper()
		m, err := s.margin(wind)
		if err != nil || m.tight != tight {
			t.Fatalf("got %+v (%v), want the %s", m, err, tight)
		}
		near(t, "margin", m.by, want, 1e-5)
	}
	expect(0.2, LowestHeight)
	s.LowestHeight, s.GreatestLean = 0, unit.Angle(50*degree)
	expect(50*degree-math.Atan2(15, 20), GreatestLean)
	s.GreatestLean, s.WorkingLoad = unit.Angle(math.Pi/2), 40
	expect(3./8, WithinLoad)
	s.Lift = 0
	if m, err := s.Demand.margin(s.Rig, wind); err != nil || m != (margin{-1, OffGround}) {
		t.Errorf("without lift: got %+v (%v)", m, err)
	}
	if m, err := s.margin(wind); err != nil || m != (margin{-1, OffGround}) {
		t.Errorf("without lift: got %+v (%v)", m, err)
	}
	if got := (margin{0.3, LowestHeight}).with(0.3, GreatestLean); got.tight != LowestHeight {
		t.Errorf("of equals the %s is named", got.tight)
	}
}

// In strong wind a balloon needs many times the gas that carries it in calm: (kept G − m) g₀ tan(lean) = D(G) again, and what
// binds at the end is not what binds on the way there.
func TestNeckLiftNeededInStrongWind(t *testing.T) {
	n := Need{
		Rig: straight().Rig, Demand: Demand{GreatestLean: unit.Angle(40 * degree)}, Wind: 12,
		LiftPerVolume: 1.03, Envelope: 0.4, Hung: 1.5, Kept: 0.97, LeastFreeLift: 0.2,
	}
	got, err := n.NeckLiftNeeded()
	if err != nil || got.Binds != GreatestLean {
		t.Fatalf("got %+v (%v), want the lean to bind", got, err)
	}
	gross := got.Gross.SI()
	if least := 1.9 * 1.2 / 0.97; gross < 10*least {
		t.Errorf("got %v kg, want far more than the %v kg for calm", gross, least)
	}
	pull := (0.97*gross - 1.9) * 9.80665 * math.Tan(40*degree)
	drag := 0.5 * 1.25 * 144 * 0.7 * math.Pi / 4 * math.Pow(6*gross/(math.Pi*1.03), 2./3)
	near(t, "pull and drag", pull/drag, 1, 1e-4)

	// At 1.5 times the least the height fails the most, at the fill that is needed only the lean is left to fail.
	for _, low := range []unit.Length{70, 74, 76, 76.5, 77} {
		n.LowestHeight, n.Wind = low, 4
		got, err = n.NeckLiftNeeded()
		if err != nil {
			t.Fatal(err)
		}
		want := GreatestLean // cos 40° = 0.766
		if low.SI() > 100*math.Cos(40*degree) {
			want = LowestHeight
		}
		if got.Binds != want {
			t.Errorf("with a lowest height of %v the %s binds, want the %s", low, got.Binds, want)
		}
	}
}
