package radio

import (
	"math"
	"strings"
	"testing"

	"hoistbook/kits/unit"
)

// The rows of the tables of exposure end where they say, the end included (47 CFR 1.1310 Table 1; ICNIRP 2020 Tables 5 and 6).
func TestTheEndsOfTheRowsOfExposure(t *testing.T) {
	for _, c := range []struct {
		s               Standard
		mhz             float64
		public, trained float64
	}{
		{FCC, 30, 2, 10}, {FCC, 300, 2, 10}, {FCC, 300.3, 2.002, 10.01}, {FCC, 1500, 10, 50}, {FCC, 1500.3, 10, 50}, {FCC, 100e3, 10, 50},
		{ICNIRPBody, 400, 2, 10}, {ICNIRPBody, 400.4, 2.002, 10.01}, {ICNIRPBody, 2000, 10, 50}, {ICNIRPBody, 2000.5, 10, 50}, {ICNIRPBody, 300e3, 10, 50},
		{ICNIRPLocal, 400, 10, 50}, {ICNIRPLocal, 400.4, 0.058 * math.Pow(400.4, 0.86), 0.29 * math.Pow(400.4, 0.86)},
		{ICNIRPLocal, 2000, 0.058 * math.Pow(2000, 0.86), 0.29 * math.Pow(2000, 0.86)}, {ICNIRPLocal, 2000.5, 40, 200}, {ICNIRPLocal, 6000, 40, 200},
	} {
		f := unit.Frequency(c.mhz) * mhz
		near(t, string(c.s), float64(ExposureLimit(c.s, Public, f)), c.public, 1e-9)
		near(t, string(c.s), float64(ExposureLimit(c.s, Trained, f)), c.trained, 1e-9)
	}
	for s, mhzs := range map[Standard][]float64{FCC: {29.9, 100.1e3}, ICNIRPBody: {29.9, 300.1e3}, ICNIRPLocal: {29.9, 6000.5}} {
		for _, m := range mhzs {
			if l := ExposureLimit(s, Public, unit.Frequency(m)*mhz); !isUnknown(l) {
				t.Errorf("%s says %v at %v MHz", s, l, m)
			}
		}
	}
}

// What is not above zero is no distance, no frequency, no height: nothing is computed from it.
func TestNothingFromNothing(t *testing.T) {
	for name, got := range map[string]float64{
		"free space over no distance": float64(FreeSpaceLoss(0, 145*mhz)), "free space backwards": float64(FreeSpaceLoss(-1, 145*mhz)), "free space at no frequency": float64(FreeSpaceLoss(1, 0)),
		"Hata over no distance": float64(HataLoss(Urban, 0, 435*mhz, 30, 1.5)), "Hata at no frequency": float64(HataLoss(Urban, 1*km, 0, 30, 1.5)),
		"Hata from the ground": float64(HataLoss(Urban, 1*km, 435*mhz, 0, 1.5)), "Hata to the ground": float64(HataLoss(LargeCity, 1*km, 435*mhz, 30, 0)),
		"free space backwards at a negative frequency": float64(FreeSpaceLoss(-1, -145*mhz)), "free space over nothing at nothing": float64(FreeSpaceLoss(0, 0)),
		"isolation of a negative separation at a negative frequency": float64(AntennaIsolation(Antennas{Vertical, -3}, -145*mhz, 0, 0)), "isolation of nothing at nothing": float64(AntennaIsolation(Antennas{Horizontal, 0}, 0, 0, 0)),
		"distance to a negative limit at a negative duty": float64(ExposureDistance(Transmitter{Power: 1, Duty: -0.1}, -2)),
		"Hata at the ground":                              float64(HataLoss(Urban, 1*km, 435*mhz, 30, 0)), "Hata at the ground, suburban": float64(HataLoss(Suburban, 1*km, 435*mhz, 30, 0)), "Hata of nothing": float64(HataLoss(Open, 0, 0, 0, 1.5)),
		"Hata from the ground, at 1 km": float64(HataLoss(Open, 1*km, 435*mhz, 0, 1.5)), "Hata from below the ground": float64(HataLoss(Urban, 2*km, 435*mhz, -30, 1.5)), "Hata at a negative frequency": float64(HataLoss(Suburban, 1*km, -435*mhz, 30, 1.5)),
		"Hata over no distance, large": float64(HataLoss(LargeCity, 0, 435*mhz, 30, 1.5)),
		"Hata over no distance, small": float64(HataLoss(Urban, -1, 435*mhz, 30, 1.5)), "Hata below the ground": float64(HataLoss(Urban, 1*km, 435*mhz, 30, -1)),
		"trees of negative depth": float64(FoliageLoss(-1, 435*mhz)), "trees at no frequency": float64(FoliageLoss(10, 0)), "trees at no frequency, deep": float64(FoliageLoss(100, -1)),
		"isolation of no separation": float64(AntennaIsolation(Antennas{Vertical, 0}, 145*mhz, 0, 0)), "isolation at no frequency": float64(AntennaIsolation(Antennas{Horizontal, 1}, 0, 0, 0)),
		"isolation of no arrangement": float64(AntennaIsolation(Antennas{"diagonal", 1}, 145*mhz, 0, 0)),
		"distance to no limit":        float64(ExposureDistance(Transmitter{Power: 1, Duty: 1}, 0)), "distance at a negative duty": float64(ExposureDistance(Transmitter{Power: 1, Duty: -0.1}, 2)),
		"an endless budget": float64(Link{Power: unit.Power(math.Inf(1)), Sensitivity: unit.DBm(-100)}.Allowed()), "an endless horizon": float64(Horizon(unit.Length(math.Inf(1)), 1)),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s: got %v", name, got)
		}
	}
	for name, got := range map[string]float64{
		"no trees": float64(FoliageLoss(0, 435*mhz)), "no trees at whatever frequency": float64(FoliageLoss(0, unit.Frequency(math.NaN()))), "never on the air": float64(ExposureDistance(Transmitter{Power: 1, Duty: 0}, 2)),
	} {
		if got != 0 {
			t.Errorf("%s: got %v, want 0", name, got)
		}
	}
	// A metre above nothing is something.
	for name, got := range map[string]float64{
		"free space at arm's length": float64(FreeSpaceLoss(0.5, 145*mhz)), "Hata from half a metre": float64(HataLoss(Urban, 0.5, 435*mhz, 0.5, 0.5)),
		"half a metre apart": float64(AntennaIsolation(Antennas{Vertical, 0.5}, 0.5, 0, 0)), "a weak limit": float64(ExposureDistance(Transmitter{Power: 1, Duty: 0.5}, 0.5)),
		"half a metre of trees": float64(FoliageLoss(0.5, 0.5)), "Hata at half a hertz": float64(HataLoss(Urban, 1*km, 0.5, 30, 1.5)), "free space at half a hertz": float64(FreeSpaceLoss(1, 0.5)),
	} {
		if math.IsNaN(got) {
			t.Errorf("%s is not computed", name)
		}
	}
}

// The limits that the papers state are inside them (Hata 1980; Weissberger, ESD-TR-81-101).
func TestTheLimitsOfTheModels(t *testing.T) {
	for _, c := range []struct {
		d            unit.Length
		f            unit.Frequency
		base, mobile unit.Length
		notes        string // words of each, parted by a bar
	}{
		{1 * km, 150 * mhz, 30, 1, ""}, {20 * km, 1500 * mhz, 200, 10, ""},
		{999, 150 * mhz, 30, 1, "distance of 999"}, {20001, 150 * mhz, 30, 1, "distance"},
		{1 * km, 149.9 * mhz, 30, 1, "frequency of"}, {1 * km, 1500.1 * mhz, 30, 1, "frequency of"},
		{1 * km, 150 * mhz, 29.9, 1, "relay's height"}, {1 * km, 150 * mhz, 200.1, 1, "relay's height"},
		{1 * km, 150 * mhz, 30, 0.9, "ground station's height"}, {1 * km, 150 * mhz, 30, 10.1, "ground station's height"},
		{100, 100 * mhz, 10, 0.5, "frequency of|relay's|ground station's|distance of"},
	} {
		says(t, HataLimits(c.d, c.f, c.base, c.mobile), c.notes)
	}
	for _, c := range []struct {
		depth unit.Length
		f     unit.Frequency
		notes string
	}{
		{0, 100 * mhz, ""}, {0.5, 100 * mhz, "frequency"}, {10, 229.9 * mhz, "frequency"}, {10, 230 * mhz, ""}, {10, 95e9, ""}, {10, 95.1e9, "frequency"},
		{400, 446 * mhz, ""}, {400.5, 446 * mhz, "beyond the 400 m"}, {500, 145 * mhz, "frequency|beyond"},
	} {
		says(t, FoliageLimits(c.depth, c.f), c.notes)
	}
	says(t, Path{FreeSpace, 0, 10, 0.5}.Limits(100, 100*mhz), "")
	says(t, Path{Open, 0, 10, 0.5}.Limits(100, 100*mhz), "frequency of|relay's|ground station's|distance of")
	says(t, Path{FreeSpace, 10, 10, 0.5}.Limits(100, 100*mhz), "Weissberger")
	wave := Wavelength(145 * mhz)
	for _, c := range []struct {
		a     Antennas
		notes string
	}{
		{Antennas{Vertical, wave}, ""}, {Antennas{Vertical, 0.999 * wave}, "below"}, {Antennas{Horizontal, 10 * wave}, ""}, {Antennas{Horizontal, 9.99 * wave}, "below"},
	} {
		says(t, IsolationLimits(c.a, 145*mhz), c.notes)
	}
}

func says(t *testing.T, notes []string, want string) {
	t.Helper()
	var words []string
	if want != "" {
		words = strings.Split(want, "|")
	}
	if len(notes) != len(words) {
		t.Errorf("got %q, want %q", notes, words)
		return
	}
	for i, word := range words {
		if !strings.Contains(notes[i], word) {
			t.Errorf("got %q, want one with %q", notes[i], word)
		}
	}
}

// Below 14 m of trees the loss grows with the depth itself, from there with its 0.588th power; the two do not quite meet.
func TestTheStepInTheTrees(t *testing.T) {
	f := 1000 * mhz
	near(t, "1 m", float64(FoliageLoss(1, f)), 0.45, 1e-9)
	near(t, "14 m", float64(FoliageLoss(14, f)), 0.45*14, 1e-9)
	near(t, "14.1 m", float64(FoliageLoss(14.1, f)), 1.33*math.Pow(14.1, 0.588), 1e-9)
	near(t, "half of the depth, half of the loss", float64(FoliageLoss(7, f)), float64(FoliageLoss(14, f))/2, 1e-9)
}

// Hata leaves the correction of large cities open between 200 and 400 MHz; the one that gives the greater loss is taken.
func TestLargeCitiesBetweenHatasBands(t *testing.T) {
	low := func(h float64) float64 { return 8.29*math.Pow(math.Log10(1.54*h), 2) - 1.1 }
	high := func(h float64) float64 { return 3.2*math.Pow(math.Log10(11.75*h), 2) - 4.97 }
	for _, h := range []float64{1.5, 3, 9} {
		for f, want := range map[unit.Frequency]float64{200: low(h), 200.1: min(low(h), high(h)), 399.9: min(low(h), high(h)), 400: high(h)} {
			near(t, "correction", float64(LargeCityCorrection(f*mhz, unit.Length(h))), want, 1e-9)
		}
	}
	if low(1.5) == high(1.5) || low(9) < high(9) == (low(1.5) < high(1.5)) {
		t.Error("one of the two is always smaller: this test compares nothing")
	}
}

// Feed lines at both ends take from both ways, and the worst of several receivers and transmitters counts.
func TestCoverageCountsEveryLossAndEveryRadio(t *testing.T) {
	x, r, g := relay()
	x.FeedLoss, r.FeedLoss, g.FeedLoss = 1.5, 0.7, 2.5
	deaf := r
	deaf.Ref, deaf.Sensitivity = "RX2", unit.DBm(-100)
	weak := x
	weak.Ref, weak.Power = "TX2", 0.05
	path := Path{Suburban, 60, 25, g.Height}
	up := func(r Receiver) Reach {
		return path.Range(Link{r.Frequency, g.Power, g.Gain, r.Gain, 2.5 + 0.7, 10, r.Sensitivity})
	}
	down := func(x Transmitter) Reach {
		return path.Range(Link{x.Frequency, x.Power, x.Gain, g.Gain, 1.5 + 2.5, 10, g.Sensitivity})
	}
	terrain := Terrain{Suburban, 60, 10, 25}
	for _, order := range []struct {
		transmitters []Transmitter
		receivers    []Receiver
	}{{[]Transmitter{x, weak}, []Receiver{r, deaf}}, {[]Transmitter{weak, x}, []Receiver{deaf, r}}} {
		links := Cover(terrain, order.transmitters, order.receivers, []Ground{g}).Links[0]
		if links.Up.Distance != up(deaf).Distance || links.Down.Distance != down(weak).Distance {
			t.Errorf("up %v, down %v; the worst reach %v and %v", links.Up.Distance, links.Down.Distance, up(deaf).Distance, down(weak).Distance)
		}
		if !(up(deaf).Distance < up(r).Distance && down(weak).Distance < down(x).Distance) {
			t.Fatal("the worst is not worse")
		}
		// What both say is said once: the frequency, and two heights.
		if len(links.Down.Notes) == 0 || len(links.Down.Notes) != len(down(weak).Notes) {
			t.Errorf("got the notes %q, want %q", links.Down.Notes, down(weak).Notes)
		}
	}
	// What only one says is said too: at 435 MHz nothing is outside a band, at 145 MHz two models are.
	high := r
	high.Frequency = 435 * mhz
	low := r
	low.Frequency = 145 * mhz
	notes := Cover(terrain, []Transmitter{x}, []Receiver{high, low}, []Ground{g}).Links[0].Up.Notes
	if got := strings.Join(notes, "|"); strings.Count(got, "the frequency of 145") != 2 || !strings.Contains(got, "relay's height") {
		t.Errorf("got the notes %q", notes)
	}
	if none := Cover(terrain, []Transmitter{x}, nil, []Ground{g}).Links[0].Up; !isUnknown(none.Distance) || len(none.Notes) != 1 {
		t.Errorf("without a receiver: %v, %q", none.Distance, none.Notes)
	}
	// An unknown link stays unknown beside a known one.
	deaf.Sensitivity = unit.DBm(math.NaN())
	for _, receivers := range [][]Receiver{{r, deaf}, {deaf, r}} {
		if up := Cover(terrain, []Transmitter{x}, receivers, []Ground{g}).Links[0].Up; !isUnknown(up.Distance) {
			t.Errorf("with an unknown sensitivity the way up reaches %v", up.Distance)
		}
	}
}

// Of two ends at the same distance the first is named.
func TestTheFirstOfEqualsIsNamed(t *testing.T) {
	x, r, g := relay()
	twin := g
	twin.ID = "twin"
	if c := Cover(Terrain{Urban, 0, 10, 32}, []Transmitter{x}, []Receiver{r}, []Ground{g, twin}); !strings.Contains(c.Limit, `"handheld"`) {
		t.Errorf("%s ends it", c.Limit)
	}
}

// Of two terms that ask for the same the first is named: P − (s + 69) and P − 75 − (s − 6).
func TestTheFirstOfEqualTermsIsNamed(t *testing.T) {
	x, r, _ := relay()
	r.Blocking = 69
	i := Isolate(Antennas{Vertical, 3}, x, r)
	if i.Terms[0].Needed != i.Terms[1].Needed || i.Binding.Name != "blocking" {
		t.Errorf("%v and %v, bound by %s", i.Terms[0].Needed, i.Terms[1].Needed, i.Binding.Name)
	}
}

// The channel ends at its width, its end included; the fifth harmonic is the last that counts.
func TestHarmonics(t *testing.T) {
	x, r, _ := relay()
	for _, c := range []struct {
		times float64
		off   unit.Frequency
		terms int
	}{{2, 0, 3}, {3, r.ChannelWidth, 3}, {3, -r.ChannelWidth, 3}, {3, r.ChannelWidth + 1, 2}, {5, 0, 3}, {6, 0, 2}, {1, 0, 2}} {
		r.Frequency = x.Frequency*unit.Frequency(c.times) + c.off
		if got := Terms(x, r); len(got) != c.terms {
			t.Errorf("a receiver at %v times the frequency and %v: %d terms, want %d", c.times, c.off, len(got), c.terms)
		}
	}
	r.Frequency = unit.Frequency(math.NaN())
	if i := Isolate(Antennas{Vertical, 3}, x, r); !isUnknown(i.Needed) {
		t.Errorf("an unknown frequency needs %v", i.Needed)
	}
}

// The pair with the least margin is the worst wherever it stands, and one whose margin is not known is worse than any.
func TestTheWorstPair(t *testing.T) {
	x, r, _ := relay()
	strong, unknownPower := x, x
	strong.Ref, strong.Power = "TX2", 5
	unknownPower.Ref, unknownPower.Power = "TX3", unit.Power(math.NaN())
	a := Antennas{Vertical, 3}
	for want, lists := range map[string][][]Transmitter{
		"TX2": {{x, strong}, {strong, x}}, "TX3": {{x, unknownPower}, {unknownPower, x}, {strong, x, unknownPower}, {unknownPower, strong, x}},
	} {
		for _, list := range lists {
			if worst, ok := WorstIsolation(a, list, []Receiver{r}); !ok || worst.Transmitter != want {
				t.Errorf("%d transmitters: the worst is %q, want %q", len(list), worst.Transmitter, want)
			}
		}
	}
	twin := x
	twin.Ref = "TX9"
	if worst, _ := WorstIsolation(a, []Transmitter{x, twin}, []Receiver{r}); worst.Transmitter != x.Ref {
		t.Errorf("of equals %q is named", worst.Transmitter)
	}
}

// The near field ends at λ/2π (OET Bulletin 65): at 145 MHz at 0.33 m.
func TestTheNearFieldIsSaid(t *testing.T) {
	x := Transmitter{Frequency: 145 * mhz, Gain: 2.15, Duty: 1}
	for power, notes := range map[unit.Power]int{0.3: 1, 1.2: 0, 50: 0} {
		x.Power = power
		e := Expose(x)
		if (float64(e.Public) < 299792458/145e6/(2*math.Pi)) != (notes == 1) {
			t.Fatalf("%v: %v is not the case that was meant", power, e.Public)
		}
		if len(e.Notes) != notes {
			t.Errorf("%v at %v: got the notes %q", power, e.Public, e.Notes)
		}
	}
	// Of two standards that ask for the same the first is named; a third that says nothing leaves all unknown.
	if e := Expose(x, ICNIRPBody, FCC); e.Binding != ICNIRPBody {
		t.Errorf("%s asks", e.Binding)
	}
	x.Frequency = 10e9
	for _, list := range [][]Standard{{FCC, ICNIRPLocal}, {ICNIRPLocal, FCC}} {
		if e := Expose(x, list...); !isUnknown(e.Public) || !isUnknown(e.Trained) || e.Binding != ICNIRPLocal {
			t.Errorf("at 10 GHz, where one standard says nothing: %v by %s", e.Public, e.Binding)
		}
	}
}

// A link that just holds at 1 m has that range, one that just fails there none; one that holds at a million kilometres has no end.
func TestTheEndsOfTheSearch(t *testing.T) {
	p := Path{FreeSpace, 0, 30, 1.5}
	link := func(allowed unit.Decibel) Reach {
		return p.Range(Link{Frequency: 145 * mhz, Power: 0.001, Sensitivity: unit.DBm(-float64(allowed))})
	}
	near, far := FreeSpaceLoss(1, 145*mhz), FreeSpaceLoss(1e9, 145*mhz)
	if r := link(near + 1e-9); !(math.Abs(float64(r.Distance)-1) < 1e-6) {
		t.Errorf("a link that holds at 1 m reaches %v", r.Distance)
	}
	if r := link(near); !(math.Abs(float64(r.Distance)-1) < 1e-6) {
		t.Errorf("a link that just holds at 1 m reaches %v", r.Distance)
	}
	if r := link(far); !isUnknown(r.Distance) {
		t.Errorf("a link that just holds at 10⁹ m reaches %v", r.Distance)
	}
	if r := link(near - 0.001); r.Distance != 0 {
		t.Errorf("a link that fails at 1 m reaches %v", r.Distance)
	}
	if r := link(far - 0.001); !(float64(r.Distance) > 0.999e9 && r.Distance < 1e9) {
		t.Errorf("a link that ends before 10⁹ m reaches %v", r.Distance)
	}
	if r := link(far + 0.001); !isUnknown(r.Distance) {
		t.Errorf("a link that holds at 10⁹ m reaches %v", r.Distance)
	}
}
