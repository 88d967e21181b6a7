package walk_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"hoistbook/render/walk"
)

func not(item, why string) walk.Input {
	return walk.Input{Do: walk.Not, Item: item, Text: why}
}
func done(item string) walk.Input { return walk.Input{Do: walk.Done, Item: item} }

// Whoever stops the list at a hold point can let it go on again, and so at two of them.
func TestAStopIsNotForEver(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).through("preflight.diameter")
	p.do(not("preflight.go", "a fox"), not("preflight.relay-go", "no answer")).is(walk.NoGo, "a fox", "no answer")
	for _, r := range p.view().Reasons {
		if !strings.Contains(r.Mend, "the person in charge answers it again") || r.Number == 0 {
			t.Errorf("a stop is to be mended by %q (item %d)", r.Mend, r.Number)
		}
	}
	p.refused(done("preflight.relay-go"), `item 17 before it, "Weather, site and crew", is not met`)
	p.do(done("preflight.go"), done("preflight.relay-go")).through("preflight.launch").is(walk.GO)
}

// What was answered with no is asked again when nothing else is open, and then the hold point, which says what is against it.
func TestWhatIsAgainstItIsAskedAgainBeforeTheHoldPoint(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).through("preflight.keep-out")
	p.do(not("preflight.keep-out", "two cars"), read("preflight.wind", "6 m/s"))
	for range 30 {
		it := p.item(p.view().Next)
		if it.State != "open" || it.Hold {
			break
		}
		if it.Key == "preflight.gust" {
			p.do(read(it.Key, "7 m/s"))
			continue
		}
		p.do(p.answer(it)...)
	}
	want := "preflight.wind preflight.gust preflight.keep-out preflight.go"
	if got := strings.Join(p.view().Turn, " "); got != want {
		t.Errorf("now it is the turn of %s, want %s", got, want)
	}
	if hold := p.item("preflight.go"); !strings.Contains(hold.Why, `"Mean wind over ten minutes, at 2 m", is not met`) {
		t.Errorf("the hold point says %q", hold.Why)
	}
	p.do(read("preflight.wind", "1.8 m/s"), read("preflight.gust", "2.6 m/s"), done("preflight.keep-out"), done("preflight.go"))
	if got := p.view().Next; got != "kit.case-high" {
		t.Errorf("then comes %s", got)
	}
	// in the air nobody mends a list: what is open comes first, and nothing else is asked
	up := aloft(t).do(read("preflight.wind", "2.7 m/s"), read("preflight.gust", "2.8 m/s")).is(walk.NoGo)
	if v := up.view(); len(v.Turn) != 0 || !strings.Contains(v.Summary, "bring the balloon down") || !strings.Contains(v.Reasons[0].Mend, "bring the balloon down") {
		t.Errorf("in the air it is the turn of %v; %s; %+v", v.Turn, v.Summary, v.Reasons[0])
	}
}

// A hold point that is open again names the item that has changed.
func TestAHoldPointNamesWhatHasChanged(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).through("kit.case-high")
	for _, one := range []struct {
		in   walk.Input
		want string
	}{
		{read("preflight.wind", "1.9 m/s"), `item 4, "Mean wind over ten minutes, at 2 m", has changed`},
		{walk.Input{Do: walk.Weigh, Part: "BOX1", Text: "190 g"}, "the weighing of BOX1 has changed"},
		{not("preflight.keep-out", "a cow"), "is not met"},
	} {
		if it := p.do(one.in).item("preflight.go"); it.State != "open" || !strings.Contains(it.Why, one.want) {
			t.Errorf("%+v: the hold point is %s: %s", one.in, it.State, it.Why)
		}
		if err := p.try(done("preflight.keep-out")); err != nil {
			t.Fatal(err)
		}
		p.do(done("preflight.go"))
	}
}

// A gust is no less than the mean wind: what says so was misread, and what said so is read again when the wind has risen.
func TestAGustIsNotBelowTheMeanWind(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true), read("preflight.wind", "2.2 m/s"))
	p.refused(read("preflight.gust", "1.5 m/s"), "1.5 m/s is less than the mean wind, 2.2 m/s, and cannot be; look at both again, and answer item 4 anew").do(read("preflight.gust", "2.2 m/s"))
	if it := p.do(read("preflight.wind", "2.3 m/s")).item("preflight.gust"); it.State != "open" || !strings.Contains(it.Why, "read it again") {
		t.Errorf("with more wind than gust the gust is %s: %s", it.State, it.Why)
	}
	if it := p.do(read("preflight.wind", "2.1 m/s")).item("preflight.gust"); it.State != "settled" {
		t.Errorf("with the wind down again the gust is %s", it.State)
	}
}

func TestUnitsAreNeverGuessed(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true))
	p.refused(read("preflight.wind", "2.2"), "write 2.2 m/s if that is what the instrument shows, or another of km/h, kn").refused(read("preflight.pressure", "1009"), "write 1009 hPa if")
	p.refused(walk.Input{Do: walk.Weigh, Part: "TX1", Text: "31"}, "write 31 g if")
}

// A set that was put aside before it flew was never in use, and one that hangs in the air is no fresh one.
func TestOnlyWhatFliesIsInUse(t *testing.T) {
	battery := func(label, volts string) walk.Input {
		return walk.Input{Do: walk.Read, Item: "preflight.battery", Subject: "BAT1", Label: label, Text: volts}
	}
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).through("preflight.fuse")
	p.do(battery("", "11.9 V"), battery("A", "12.5 V")).through("").do(walk.Input{Do: walk.Up}).through("").is(walk.GO)
	if sets := p.view().Sets; len(sets) != 1 || sets[0].Label != "A" {
		t.Errorf("in use are %+v", sets)
	}
	p.refused(battery("", "11.4 V"), "set A of BAT1 has been at work since").refused(battery("A", "11.4 V"), "name the set that was put in").is(walk.GO)
	p.do(battery("B", "11.4 V")).is(walk.NoGo, "reads 11.4 V").do(battery("C", "12.5 V")).is(walk.GO)
	// what has flown stays, whatever the clock says of the time in between
	p.wait(-12*time.Hour).do(walk.Input{Do: walk.Down}, battery("D", "12.5 V"), battery("E", "12.6 V"))
	var labels []string
	for _, set := range p.view().Sets {
		labels = append(labels, set.Label)
	}
	if got := strings.Join(labels, " "); got != "A B C E" {
		t.Errorf("in use are the sets %s, want A B C E", got)
	}
}

// On the way home nothing that is done on the ground can be said to be done while the balloon is up.
func TestTheGasStaysInWhileTheBalloonIsUp(t *testing.T) {
	p := aloft(t).do(walk.Input{Do: walk.Recover}).through("")
	if v := p.view(); v.Verdict != walk.NotComplete || len(v.Turn) != 0 {
		t.Errorf("%s, and it is the turn of %v", v.Verdict, v.Turn)
	}
	p.refused(done("recovery.vent"), "record when it is down first").do(walk.Input{Do: walk.Down}).through("").is(walk.Complete)
}

// What is computed with instead of what was planned is shown with the verdict.
func TestWhatWasMeasuredIsShown(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true))
	if m := p.view().Measured; len(m) != 0 {
		t.Errorf("before anything is read: %v", m)
	}
	p.do(read("preflight.wind", "2.2 m/s"), read("preflight.gust", "3 m/s"), walk.Input{Do: walk.Weigh, Part: "TX1", Text: "31 g"})
	if got, want := encode(t, p.view().Measured), `[{"name":"mean wind","text":"2.2 m/s"},{"name":"TX1","text":"31 g"}]`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Visibility and cloud base are read where a regional rule asks for them: 500 ft and 3 miles in 14 CFR 101.13 (a).
func TestRegionalReadings(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{"station": {"rules": ["us"]}}`), walk.Preflight).do(join("Ada", "", true))
	p.do(read("us.cloud", "499 ft"), read("us.visibility", "2.9 mi")).is(walk.NoGo, "reads 152 m; at least", "Visibility at the ground: reads")
	p.do(read("us.cloud", "501 ft"), read("us.visibility", "5 km"))
	for _, r := range p.view().Reasons {
		if r.Item != "" {
			t.Errorf("good readings, and %s stands against it: %s", r.Title, r.Text)
		}
	}
	for _, phase := range start(t, kitOf(t, "fen-relay", `{"station": {"rules": ["uk"]}}`), walk.Preflight).view().Phases {
		for _, it := range phase.Items {
			if strings.HasPrefix(it.Key, "us.") {
				t.Errorf("%s is asked in another region", it.Key)
			}
		}
	}
}

// No hint names a number that is not known.
func TestWhatCannotBeKnownIsNotMendedByIt(t *testing.T) {
	p := aloft(t).do(read("preflight.line-out", "30 m")).is(walk.NoGo)
	for _, r := range p.view().Reasons {
		if strings.Contains(r.Mend, "not shown") || r.Mend == "" {
			t.Errorf("%s (%s) is to be mended by %q", r.Title, r.Text, r.Mend)
		}
	}
}

// Before a phase the gravest caution is read first, whether it belongs to the phase or to the whole list, and none is read twice.
func TestTheGravestCautionIsReadFirst(t *testing.T) {
	gravity := []string{"danger", "warning", "caution", "notice"}
	for _, list := range []string{walk.Preflight, walk.Recovery} {
		for _, phase := range start(t, kitOf(t, "fen-relay", `{}`), list).view().Phases {
			last, seen := 0, map[walk.Warning]bool{}
			for _, c := range phase.Cautions {
				at := slices.Index(gravity, c.Signal)
				if at < last || seen[c] {
					t.Errorf("%s, %s: %s stands in the wrong place: %s", list, phase.Title, c.Signal, c.Hazard)
				}
				last, seen[c] = at, true
			}
		}
	}
}
