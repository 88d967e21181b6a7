package radio

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/unit"
)

// relay is a small cross-band relay and the hand-held that uses it.
func relay() (Transmitter, Receiver, Ground) {
	return Transmitter{Ref: "TX1", Frequency: 145.25 * mhz, Power: 1, Gain: 2.15, FeedLoss: 0.5, HarmonicSuppression: 60, NoiseFloor: -75, Duty: 0.2},
		Receiver{Ref: "RX1", Frequency: 433.5 * mhz, Sensitivity: unit.DBm(-118), Gain: 2.15, FeedLoss: 0.5, Blocking: 75, ChannelWidth: 12500, Rejection: 45},
		Ground{ID: "handheld", Power: 4, Gain: -3, Height: 1.5, Sensitivity: unit.DBm(-116)}
}

func draw[T ~float64](t *rapid.T, name string, low, high float64) T {
	return T(rapid.Float64Range(low, high).Draw(t, name))
}

func drawPath(t *rapid.T) Path {
	return Path{
		rapid.SampledFrom([]Environment{FreeSpace, Open, Suburban, Urban, LargeCity}).Draw(t, "environment"),
		draw[unit.Length](t, "vegetation", 0, 400), draw[unit.Length](t, "base", 5, 200), draw[unit.Length](t, "mobile", 1, 10),
	}
}

func TestTwiceTheDistanceIsSixDecibelsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, f := draw[unit.Length](t, "d", 1, 1e6), draw[unit.Frequency](t, "f", 30e6, 3e9)
		if more := float64(FreeSpaceLoss(2*d, f) - FreeSpaceLoss(d, f)); math.Abs(more-6.0206) > 1e-4 {
			t.Fatalf("twice %v is %v dB more", d, more)
		}
	})
}

func TestLossNeverFallsWithDistanceNorBelowFreeSpace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, f := drawPath(t), draw[unit.Frequency](t, "f", 100e6, 2e9)
		d := draw[unit.Length](t, "d", 1, 1e5)
		further := d * unit.Length(rapid.Float64Range(1, 10).Draw(t, "further"))
		if p.Loss(further, f) < p.Loss(d, f) || p.Loss(d, f) < FreeSpaceLoss(d, f) {
			t.Fatalf("%v at %v, %v at %v, free space %v", p.Loss(d, f), d, p.Loss(further, f), further, FreeSpaceLoss(d, f))
		}
	})
}

func TestRangeIsWhereTheBudgetCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t)
		l := Link{Frequency: draw[unit.Frequency](t, "f", 100e6, 2e9), Power: draw[unit.Power](t, "power", 0.01, 50),
			FadeMargin: draw[unit.Decibel](t, "fade", 0, 20), Sensitivity: unit.DBm(rapid.Float64Range(-125, -90).Draw(t, "sensitivity"))}
		r := p.Range(l)
		if r.Distance == 0 {
			return
		}
		if left := float64(l.Allowed() - p.Loss(r.Distance, l.Frequency)); left < 0 || left > 1e-6 && p.Loss(r.Distance*(1+1e-6), l.Frequency) < l.Allowed() {
			t.Fatalf("at %v there are %v dB left", r.Distance, left)
		}
		stronger := l
		stronger.Power *= unit.Power(rapid.Float64Range(1, 10).Draw(t, "times"))
		if more := p.Range(stronger); more.Distance < r.Distance {
			t.Fatalf("%v reaches %v, %v only %v", l.Power, r.Distance, stronger.Power, more.Distance)
		}
	})
}

func TestReachesOutsideTheModelsSaySo(t *testing.T) {
	x, r, g := relay()
	c := Cover(Terrain{Suburban, 60, 10, 25}, []Transmitter{x}, []Receiver{r}, []Ground{g})
	down := strings.Join(c.Links[0].Down.Notes, "\n")
	for _, want := range []string{"the frequency of 145.25 MHz is outside the 150 MHz to 1500 MHz of Okumura-Hata",
		"the relay's height of 25 m is outside the 30 m to 200 m of Okumura-Hata", "the frequency of 145.25 MHz is outside the 230 MHz to 95 GHz of Weissberger"} {
		if !strings.Contains(down, want) {
			t.Errorf("%q is missing from\n%s", want, down)
		}
	}
	near := Path{Suburban, 0, 60, 1.5}.Range(Link{Frequency: 433 * mhz, Power: 0.001, Sensitivity: unit.DBm(-90)})
	if near.Distance >= 1*km || !slices.ContainsFunc(near.Notes, func(n string) bool { return strings.HasPrefix(n, "the distance of") }) {
		t.Errorf("a reach of %v has the notes %q", near.Distance, near.Notes)
	}
	inside := Path{Suburban, 0, 60, 1.5}.Range(Link{Frequency: 433 * mhz, Power: 4, Sensitivity: unit.DBm(-110)})
	if inside.Distance < 1*km || len(inside.Notes) > 0 {
		t.Errorf("a reach of %v has the notes %q", inside.Distance, inside.Notes)
	}
}

func TestRangeThatIsNoDistance(t *testing.T) {
	p := Path{FreeSpace, 0, 30, 1.5}
	if r := p.Range(Link{Frequency: 145 * mhz, Power: 1, Sensitivity: unit.DBm(100)}); r.Distance != 0 || len(r.Notes) != 1 {
		t.Errorf("a hopeless link reaches %v, %q", r.Distance, r.Notes)
	}
	if r := p.Range(Link{Frequency: 145 * mhz, Power: 1, Sensitivity: unit.DBm(-400)}); !isUnknown(r.Distance) {
		t.Errorf("an endless link reaches %v", r.Distance)
	}
	nan := math.NaN()
	good := Link{Frequency: 145 * mhz, Power: 1, Sensitivity: unit.DBm(-110)}
	for name, l := range map[string]Link{
		"power":       {Frequency: good.Frequency, Power: unit.Power(nan), Sensitivity: good.Sensitivity},
		"no power":    {Frequency: good.Frequency, Power: 0, Sensitivity: good.Sensitivity},
		"frequency":   {Frequency: unit.Frequency(nan), Power: 1, Sensitivity: good.Sensitivity},
		"sensitivity": {Frequency: good.Frequency, Power: 1, Sensitivity: unit.DBm(nan)},
		"fade margin": {Frequency: good.Frequency, Power: 1, Sensitivity: good.Sensitivity, FadeMargin: unit.Decibel(nan)},
	} {
		if r := p.Range(l); !isUnknown(r.Distance) || len(r.Notes) == 0 {
			t.Errorf("with unknown %s the link reaches %v", name, r.Distance)
		}
	}
	if r := (Path{"jungle", 0, 30, 1.5}).Range(good); !isUnknown(r.Distance) {
		t.Errorf("through an unknown environment the link reaches %v", r.Distance)
	}
	if r := (Path{Suburban, 0, unit.Length(nan), 1.5}).Range(good); !isUnknown(r.Distance) {
		t.Errorf("from an unknown height the link reaches %v", r.Distance)
	}
}

func TestCoverageIsTheLeastOfEverything(t *testing.T) {
	x, r, g := relay()
	terrain := Terrain{FreeSpace, 0, 10, 32}
	far := Cover(terrain, []Transmitter{x}, []Receiver{r}, []Ground{g})
	if far.Limit != `the horizon of "handheld"` || far.Distance != Horizon(32, 1.5) {
		t.Errorf("in free space %s ends it at %v", far.Limit, far.Distance)
	}
	terrain.Environment = Urban
	low := g
	low.ID, low.Power = "low power", 0.1
	c := Cover(terrain, []Transmitter{x}, []Receiver{r}, []Ground{g, low})
	if c.Limit != `the link from "low power" to the relay` || c.Distance != c.Links[1].Up.Distance || c.Distance >= c.Links[0].Up.Distance {
		t.Errorf("%s ends it at %v", c.Limit, c.Distance)
	}
	blind := g
	blind.Height = unit.Length(math.NaN())
	for name, c := range map[string]Coverage{
		"no ground station":      Cover(terrain, []Transmitter{x}, []Receiver{r}, nil),
		"no receiver":            Cover(terrain, []Transmitter{x}, nil, []Ground{g}),
		"no transmitter":         Cover(terrain, nil, []Receiver{r}, []Ground{g}),
		"an unknown height":      Cover(terrain, []Transmitter{x}, []Receiver{r}, []Ground{blind, g}),
		"an unknown height last": Cover(terrain, []Transmitter{x}, []Receiver{r}, []Ground{g, blind}),
	} {
		if !isUnknown(c.Distance) {
			t.Errorf("with %s the coverage is %v", name, c.Distance)
		}
	}
}

// The relay of this file: blocking 30 − (−118 + 75) = 73 dB, noise 30 − 75 + 124 = 79 dB; 3 × 145.25 = 435.75 MHz misses
// 433.5 MHz, and 3 × 144.5 hits it: 30 − 60 + 124 = 94 dB.
func TestIsolationByHand(t *testing.T) {
	x, r, _ := relay()
	a := Antennas{Vertical, 3}
	i := Isolate(a, x, r)
	if i.Binding.Name != "noise" || math.Abs(float64(i.Needed)-79) > 1e-9 {
		t.Errorf("%s needs %v", i.Binding.Name, i.Needed)
	}
	// 28 + 40 log(3 m / 2.064 m) = 34.5 dB, and the filter's 45.
	near(t, "available", float64(i.Available), 34.5+45, 0.05)
	x.Frequency = 144.5 * mhz
	if i = Isolate(a, x, r); i.Binding.Name != "harmonic 3" || math.Abs(float64(i.Needed)-94) > 1e-9 {
		t.Errorf("%s needs %v", i.Binding.Name, i.Needed)
	}
	r.ChannelWidth = unit.Frequency(math.NaN())
	if i = Isolate(a, x, r); !isUnknown(i.Needed) {
		t.Errorf("a channel of unknown width needs %v", i.Needed)
	}
	x, r, _ = relay()
	x.NoiseFloor = unit.Decibel(math.NaN())
	if i = Isolate(a, x, r); !isUnknown(i.Needed) || i.Binding.Name != "noise" {
		t.Errorf("an unknown noise floor needs %v", i.Needed)
	}
	x, r, _ = relay()
	if i = Isolate(Antennas{Vertical, 0.8}, x, r); len(i.Notes) != 1 {
		t.Errorf("antennas 0.8 m apart at 2 m have the notes %q", i.Notes)
	}
	if i = Isolate(Antennas{Horizontal, 21}, x, r); len(i.Notes) != 0 {
		t.Errorf("antennas 21 m apart at 2 m have the notes %q", i.Notes)
	}
	// Dipoles side by side: 22 + 20 log(10/2.064) − 4.3.
	near(t, "side by side", float64(AntennaIsolation(Antennas{Horizontal, 10}, 145.25*mhz, 2.15, 2.15)), 31.4, 0.05)
}

func TestWorstIsolationIsOfThePairWithTheLeastMargin(t *testing.T) {
	x, r, _ := relay()
	strong := x
	strong.Ref, strong.Power = "TX2", 5
	worst, ok := WorstIsolation(Antennas{Vertical, 3}, []Transmitter{x, strong}, []Receiver{r})
	if !ok || worst.Transmitter != "TX2" {
		t.Errorf("the worst is %q", worst.Transmitter)
	}
	if _, ok := WorstIsolation(Antennas{Vertical, 3}, nil, []Receiver{r}); ok {
		t.Error("without a transmitter there is a worst pair")
	}
}

func TestExposure(t *testing.T) {
	x, _, _ := relay()
	// 1 W, 2.15 − 0.5 dB, a fifth of the time, 2 W/m²: √(2.56 · 1.462 · 0.2 / (4π · 2)) = 0.173 m, trained √5 less.
	e := Expose(x)
	near(t, "public", float64(e.Public), 0.173, 0.0005)
	near(t, "trained", float64(e.Trained), 0.173/math.Sqrt(5), 0.0005)
	if len(e.Notes) != 1 {
		t.Errorf("a distance in the near field has the notes %q", e.Notes)
	}
	x.Frequency = 446 * mhz
	if e := Expose(x); e.Binding != ICNIRPBody {
		t.Errorf("%s asks for the distance", e.Binding)
	}
	if all, one := Expose(x), Expose(x, FCC); !(one.Public < all.Public) {
		t.Errorf("the American limits alone ask for %v, all for %v", one.Public, all.Public)
	}
	x.Duty = unit.Ratio(math.NaN())
	if e := Expose(x); !isUnknown(e.Public) || !isUnknown(e.Trained) {
		t.Errorf("an unknown duty keeps people at %v", e.Public)
	}
	x.Duty, x.Frequency = 1, 10*mhz
	if e := Expose(x); !isUnknown(e.Public) {
		t.Errorf("at 10 MHz people keep at %v", e.Public)
	}
}
