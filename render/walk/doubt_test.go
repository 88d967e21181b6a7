package walk_test

import (
	"strings"
	"testing"

	"hoistbook/render/walk"
)

// The standard atmosphere has 977.73 hPa at 300 m (US Standard Atmosphere 1976, from memory). A barometer there that shows what one
// at the sea does has been set to the height, and the air would be thought 3.6 % denser than it is.
func TestAPressureReducedToSeaLevelIsNoSilentPass(t *testing.T) {
	k := kitOf(t, "fen-relay", `{"station": {"site": {"elevation": "300 m", "pressure": null, "nearest_power_line": "400 m", "nearest_airfield": "14 km"}}}`)
	p := start(t, k, walk.Preflight).do(join("Ada", "", true), join("Bo", "", false)).through("preflight.pressure")
	p.do(read("preflight.pressure", "1013 hPa")).is(walk.NoGo, "looks like a pressure reduced to sea level", "the station pressure here is about 977.7 hPa")
	if it := p.item("preflight.pressure"); it.State != "not met" || !it.Doubt {
		t.Errorf("the item is %q, and doubted: %v", it.State, it.Doubt)
	}
	if r := p.view().Reasons[0]; r.Level != "should" || !strings.Contains(r.Mend, "without its correction") {
		t.Errorf("it stands against a pass as %+v", r)
	}
	stands := func(want string) {
		t.Helper()
		if it := p.item("preflight.pressure"); it.State != want {
			t.Errorf("the item is %q (%s), want %q", it.State, it.Why, want)
		}
	}
	p.do(read("preflight.pressure", "979 hPa"))
	stands("settled")
	p.do(read("preflight.pressure", "900 hPa")).is(walk.NoGo, "weather fit to fly is not so low")
	overrule := walk.Input{Do: walk.Overrule, Item: "preflight.pressure", Text: "three barometers agree"}
	byBo := overrule
	byBo.Who = "Bo"
	p.refused(byBo, "only the person in charge").do(overrule)
	stands("overruled")
	p.do(read("preflight.pressure", "901 hPa")).is(walk.NoGo, "weather fit to fly") // what was overruled is another matter now
	// at the sea the same number is what it should be
	start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).do(read("preflight.pressure", "1013 hPa")).is(walk.NotShown)
}

// A line that leans further than the wind explains tells of lost lift, or of more wind aloft.
func TestALeanThatTheWindDoesNotExplainIsDoubted(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "launch", true))
	calm := []walk.Input{read("preflight.wind-height", "2 m"), read("preflight.wind", "0.4 m/s"), read("preflight.gust", "0.7 m/s")}
	p.do(calm...).through("").do(walk.Input{Do: walk.Up}).through("preflight.lean")
	p.do(read("preflight.lean", "25 deg")).is(walk.NoGo, "the wind that was read does not explain this")
	if r := p.view().Reasons[0]; r.Level != "should" || !r.May || !strings.Contains(r.Mend, "look for a leak") {
		t.Errorf("it stands against a pass as %+v", r)
	}
	p.do(walk.Input{Do: walk.Overrule, Item: "preflight.lean", Text: "stronger wind aloft, seen at the pennants"}).through("").is(walk.GO)
	p.do(read("preflight.lean", "41 deg")).is(walk.NoGo, "reads 41°; at most 40°") // the limit itself is not overruled
	p.refused(walk.Input{Do: walk.Overrule, Item: "preflight.lean", Text: "it will do"}, "is critical, and cannot be overruled")
	p.do(read("preflight.lean", "4 deg")).is(walk.GO)
	// the same lean in more wind is what is to be expected
	windy := aloft(t)
	windy.do(read("preflight.lean", "25 deg")).is(walk.GO)
}

// A crew is told what follows from what, in words: nobody mends a kit at a launch site.
func TestWhatFollowsFromAReadingIsMendedWithIt(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).do(read("preflight.wind", "30 m/s")).is(walk.NoGo)
	told := 0
	for _, r := range p.view().Reasons {
		if r.Rule == "" {
			continue
		}
		told++
		if !strings.HasPrefix(r.Mend, "this follows from item 4: go on when it reads at most") {
			t.Errorf("%s is mended by %q", r.Rule, r.Mend)
		}
		if strings.Contains(r.Text, "_") || strings.Contains(r.Text, "tether:") {
			t.Errorf("%s is told as %q", r.Rule, r.Text)
		}
	}
	if told < 4 {
		t.Errorf("%d rules are broken by a storm", told)
	}
	p.is(walk.NoGo, "Neck lift needed is not known: there is no fill with which the greatest lean holds in a wind of 30 m/s")
	if needed := p.do(read("preflight.wind", "9 m/s")).view().Limits[1]; needed.Name != "Neck lift needed" || needed.Text != "more than the balloon holds" {
		t.Errorf("a crew is told to fill %v", needed)
	}
	// what is wrong with the kit itself stays the kit's
	q := start(t, kitOf(t, "fen-relay", `{"parts": {"TET1": {"tether": {"breaking_strength": "50 N"}}}}`), walk.Preflight).do(join("Ada", "", true)).do(read("preflight.wind", "30 m/s"))
	for _, r := range q.view().Reasons {
		if r.Rule == "tether.load" && strings.Contains(r.Mend, "follows from") {
			t.Errorf("a weak line is mended by %q", r.Mend)
		}
	}
}

// The walk-through asks for the limit itself; up to where more is good than was planned is for paper.
func TestTheWalkDoesNotSayItsLimitTwice(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).do(read("preflight.wind-height", "6 m"))
	if it := p.item("preflight.wind"); strings.Contains(it.Notes, strings.TrimPrefix(it.Response, "at most ")) || it.Response == "" {
		t.Errorf("asked for %q, it notes %q", it.Response, it.Notes)
	}
}

func TestAnAnswerIsNoName(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight)
	for _, name := range []string{"y", "Y", "n", "yes", "No", "ok", "OK.", "go", "stop", "done", "42", "2 m/s", "-", ""} {
		if err := walk.CheckName(name); err == nil {
			t.Errorf("%q is taken for a name", name)
		}
		if err := p.try(join(name, "", true)); err == nil {
			t.Errorf("somebody called %q joined", name)
		}
	}
	for _, name := range []string{"Ada", "Yo", "Ng", "Óscar", "Ada 2", "王"} {
		p.do(join(name, "", false))
	}
}

// Aloft the record tells what was decided on the ground from what is still to be checked.
func TestTheDecisionIsNotWhatIsCheckedAloft(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "launch", true), join("Bo", "winch", false)).through("").do(walk.Input{Do: walk.Up, Who: "Bo"})
	up := p.entries[len(p.entries)-1]
	if up.Verdict != walk.ToCheck || up.Decided == nil || up.Decided.Verdict != walk.GO || up.Decided.Who != "Ada" || !up.Decided.At.Before(up.At) || up.Decided.N >= up.N {
		t.Errorf("it went up as %+v on %+v", up, up.Decided)
	}
	if len(up.Open) != p.view().Open || len(up.Open) < 5 {
		t.Errorf("of %d open items the record names %v", p.view().Open, up.Open)
	}
	v := p.view()
	if !strings.Contains(v.Summary, "items are open aloft") || !strings.Contains(v.Summary, "It went up on GO, decided at "+up.Decided.At.Format("15:04")+" by Ada") {
		t.Errorf("summary: %q", v.Summary)
	}
	if v.Flight[0].Name != "Launch decision" || !strings.HasSuffix(v.Flight[0].Text, ", Ada") {
		t.Errorf("flight: %v", v.Flight)
	}
	p.through("").is(walk.GO)
	if last := p.entries[len(p.entries)-1]; last.Open == nil || len(last.Open) > 0 {
		t.Errorf("with every item answered the record says that %v are open", last.Open)
	}
	p.do(read("preflight.wind", "9 m/s")).is(walk.NoGo) // what is against it comes before what is open
}
