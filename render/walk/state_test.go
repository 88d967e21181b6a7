package walk_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"hoistbook/render/walk"
)

func encode(t testing.TB, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestAWholeWalk(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).is(walk.NotShown)
	p.do(join("Ada", "launch", true), join("Bo", "winch", false)).through("preflight.launch")
	p.is(walk.GO).refused(walk.Input{Do: walk.Up}, "has not been let go")
	p.do(walk.Input{Do: walk.Done, Item: "preflight.launch"}).is(walk.GO).do(walk.Input{Do: walk.Up})
	p.is(walk.ToCheck).through("").is(walk.GO)
	p.do(walk.Input{Do: walk.Down}, walk.Input{Do: walk.Recover}).is(walk.NotComplete).through("").is(walk.Complete)
	p.do(walk.Input{Do: walk.Close}).refused(walk.Input{Do: walk.Note, Text: "more"}, "closed")
}

// An unanswered item never reaches ready: whichever one is left open, there is no GO and no launch.
func TestSilenceIsNeverAPass(t *testing.T) {
	k := kitOf(t, "fen-relay", `{}`)
	p := start(t, k, walk.Preflight).do(join("Ada", "", true)).through("preflight.launch")
	for _, phase := range p.view().Phases {
		for _, it := range phase.Items {
			if it.Key == "preflight.launch" {
				return
			}
			if it.Hold {
				continue
			}
			without := *p
			without.do(walk.Input{Do: walk.Clear, Item: it.ID, Subject: it.Subject}).is(walk.NotShown)
			without.refused(walk.Input{Do: walk.Up}, "NOT SHOWN YET").refused(walk.Input{Do: walk.Done, Item: "preflight.launch"}, "")
		}
	}
	t.Error("the list has no launch")
}

func TestTheWindDecides(t *testing.T) {
	p := aloft(t)
	p.do(read("preflight.wind", "9 m/s")).is(walk.NoGo, "Mean wind over ten minutes", "reads 9 m/s; at most")
	mend := false
	for _, r := range p.view().Reasons {
		mend = mend || r.Rule != "" && r.Mend != ""
	}
	if !mend {
		t.Errorf("no rule says what would mend it: %+v", p.view().Reasons)
	}
	p.do(read("preflight.wind", "2 m/s")).is(walk.GO)
	// the same wind, measured lower, is a stronger one at the balloon
	p.do(read("preflight.wind", "2.3 m/s")).is(walk.GO)
	higher := p.view().Limits[0]
	p.do(read("preflight.wind-height", "0.6 m"))
	if lower := p.view().Limits[0]; lower.Name != "Greatest wind" || !(lower.Text < higher.Text) {
		t.Errorf("measured at 0.6 m the greatest wind is %s, at 2 m it is %s", lower.Text, higher.Text)
	}
}

func TestTheScaleDecides(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).through("preflight.neck-scale")
	p.do(read("preflight.neck-scale", "1.7 kg")).is(walk.NoGo, "Scale at the neck", "reads 1.7 kg; 3.11 kg to 5.03 kg")
	// a calm ten minutes do not make a fill enough that stands only them
	p.do(read("preflight.wind", "1.6 m/s"), read("preflight.gust", "2 m/s"), read("preflight.neck-scale", "1.85 kg")).is(walk.NoGo, "Scale at the neck", "reads 1.85 kg; 3.11 kg to 5.03 kg")
	free := func() string {
		for _, l := range p.view().Limits {
			if l.Name == "Free lift" {
				return l.Text
			}
		}
		return ""
	}
	low := free()
	p.do(read("preflight.neck-scale", "3.95 kg")).is(walk.NotShown)
	if low == free() {
		t.Errorf("the free lift is %s with 1.7 kg at the neck and with 3.95 kg", low)
	}
}

// The line that is out is not the line that may be out.
func TestAReadingDoesNotMoveItsOwnLimit(t *testing.T) {
	p := aloft(t)
	p.do(read("preflight.line-out", "52 m")).is(walk.NoGo, "reads 52 m; at most 45 m")
	p.do(read("preflight.line-out", "44 m")).is(walk.GO)
	if it := p.item("preflight.line-out"); !strings.Contains(it.Response, "45 m") {
		t.Errorf("the item now asks for %q", it.Response)
	}
}

func TestReadingsAreLookedAt(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true))
	for text, want := range map[string]string{
		"": "is not a speed", "3": "has no unit", "3 kg": "is a mass, and a speed belongs here", "88 m/s": "is not plausible: it should lie between 0 m/s and 40 m/s",
		"1,250 m/s": "can be read in two ways", "-1 m/s": "negative", "fast": "is not a speed", "1e3 m/s": "unknown unit",
	} {
		p.refused(read("preflight.wind", text), want)
	}
	p.refused(read("preflight.keep-out", "3 m"), "is no reading").refused(walk.Input{Do: walk.Done, Item: "preflight.wind"}, "write the number on the instrument with its unit, m/s, km/h")
	p.refused(read("preflight.no-such", "3 m"), "no item").do(read("preflight.wind", "1,8 m/s"))
	if it := p.item("preflight.wind"); it.Answer != "1.8 m/s" {
		t.Errorf("a decimal comma is understood as %q", it.Answer)
	}
}

func TestHoldPointsStop(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight)
	p.refused(walk.Input{Do: walk.Done, Item: "preflight.in-charge"}, "not in the crew")
	p.do(join("Bo", "winch", false), join("Ada", "", true))
	p.refused(walk.Input{Do: walk.Done, Item: "preflight.brake"}, "comes first").refused(walk.Input{Do: walk.Done, Item: "preflight.go"}, "is a hold point, and")
	p.through("preflight.go").refused(walk.Input{Do: walk.Done, Who: "Bo", Item: "preflight.go"}, "Ada answers it")
	p.do(walk.Input{Do: walk.Done, Item: "preflight.go"}, walk.Input{Do: walk.Done, Who: "Bo", Item: "preflight.brake"})
	// a reading before the hold point changes: it is open again, and the list stops
	p.do(read("preflight.wind", "1.8 m/s"))
	if it := p.item("preflight.go"); it.State != "settled" {
		t.Errorf("the same reading again makes the hold point %s", it.State)
	}
	p.do(read("preflight.wind", "1.9 m/s"))
	if it := p.item("preflight.go"); it.State != "open" || !strings.Contains(it.Why, "has changed since") {
		t.Errorf("with another wind the hold point is %s (%s)", it.State, it.Why)
	}
	p.refused(walk.Input{Do: walk.Done, Item: "preflight.line-end"}, "comes first")
	p.do(walk.Input{Do: walk.Done, Item: "preflight.go"}, walk.Input{Do: walk.Done, Item: "preflight.line-end"})
	p.do(read("preflight.wind", "9 m/s")).refused(walk.Input{Do: walk.Done, Item: "preflight.go"}, "before it, \"Mean wind over ten minutes, at 2 m\", is not met")
}

func TestNotDoneStandsAgainstALaunch(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true))
	p.do(walk.Input{Do: walk.Not, Item: "preflight.thunder", Text: "thunder in the west"}).is(walk.NoGo, "thunder in the west")
	p.refused(walk.Input{Do: walk.Overrule, Item: "preflight.thunder", Text: "it is far"}, "cannot be overruled")
	p.do(walk.Input{Do: walk.Done, Item: "preflight.thunder"}).is(walk.NotShown)
}

const shouldPack = `{"format": "hoistbook-pack/1", "id": "club", "title": "Club", "rules": [
	{"id": "club.neck", "title": "The neck lift is ample", "level": "should", "check": {"fact": "lift.neck_kg", "at_least": "3.9 kg"},
	 "message": "the neck lift is {value}", "hint": "fill more", "source": [{"work": "policy"}]}]}`

func TestAShouldIsOverruledByThePersonInChargeAlone(t *testing.T) {
	k := kitOf(t, "fen-relay", `{}`, shouldPack)
	p := start(t, k, walk.Preflight).do(join("Ada", "", true), join("Bo", "", false))
	good["preflight.neck-scale"] = "3.8 kg"
	p.through("preflight.launch")
	good["preflight.neck-scale"] = "3.95 kg"
	over := walk.Input{Do: walk.Overrule, Rule: "club.neck", Text: "calm all day"}
	by := over
	by.Who = "Bo"
	silent := over
	silent.Text = ""
	must := over
	must.Rule = "lift.free"
	p.is(walk.NoGo, "The neck lift is ample").refused(by, "only the person in charge").refused(silent, "needs a reason").refused(must, "")
	p.do(over).is(walk.GO)
	if v := p.view(); len(v.Over) != 1 || v.Over[0].Who != "Ada" || v.Over[0].Reason != "calm all day" {
		t.Errorf("what was overruled is shown as %+v", v.Over)
	}
	// overruled was 3.8 kg, and 3.7 kg is another matter
	p.do(read("preflight.neck-scale", "3.7 kg")).is(walk.NoGo, "The neck lift is ample")
	p.do(read("preflight.neck-scale", "3.8 kg"), walk.Input{Do: walk.Withdraw, Rule: "club.neck"}).is(walk.NoGo, "The neck lift is ample")
	p.refused(walk.Input{Do: walk.Withdraw, Rule: "club.neck"}, "nothing has been overruled")
}

func TestAMustIsNeverOverruled(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).through("preflight.neck-scale")
	p.do(read("preflight.neck-scale", "1.7 kg"))
	n := 0
	for _, r := range p.view().Reasons {
		if r.Level == "must" {
			n++
			p.refused(walk.Input{Do: walk.Overrule, Rule: r.Rule, Item: r.Item, Subject: r.Subject, Text: "we want to fly"}, "cannot be overruled")
		}
	}
	if n == 0 {
		t.Error("too little lift breaks no must")
	}
}

func TestAnItemThatIsNotCriticalCanBeOverruled(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true), join("Bo", "", false)).through("preflight.launch")
	p.do(walk.Input{Do: walk.Not, Item: "preflight.plugs", Text: "box is taped"}).is(walk.NoGo, "box is taped")
	over := walk.Input{Do: walk.Overrule, Item: "preflight.plugs", Text: "pulled last night"}
	p.do(over)
	if it := p.item("preflight.plugs"); it.State != "overruled" || !strings.Contains(it.Why, "pulled last night") {
		t.Errorf("the item is %s (%s)", it.State, it.Why)
	}
	p.is(walk.NotShown).through("preflight.launch").is(walk.GO) // the hold point behind it is open again
}

func TestAWeighedPartCounts(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true))
	before := p.view().Limits
	p.do(walk.Input{Do: walk.Weigh, Part: "BOX1", Text: "190 g"})
	if after := p.view().Limits; encode(t, before) == encode(t, after) {
		t.Errorf("72 g more change nothing: %v", after)
	}
	p.refused(walk.Input{Do: walk.Weigh, Part: "BOX1", Text: "12 kg"}, "not plausible").refused(walk.Input{Do: walk.Weigh, Part: "GAS1", Text: "12 kg"}, "stays on the ground")
	p.refused(walk.Input{Do: walk.Weigh, Part: "BOX2", Text: "190 g"}, `did you mean "BOX1"?`)
	p.do(walk.Input{Do: walk.Weigh, Part: "BOX1"})
	if after := p.view().Limits; encode(t, before) != encode(t, after) {
		t.Errorf("the weighing taken back leaves %v, want %v", after, before)
	}
}

func TestAnInputIsDoneOnce(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true))
	in := read("preflight.wind", "2 m/s")
	in.Key = "phone-1-7"
	p.do(in)
	err := p.try(in)
	var twice *walk.Twice
	if !errors.As(err, &twice) || twice.N != 3 {
		t.Errorf("sent again: got %v, want that it is entry 3", err)
	}
	s, _, err := walk.Again(p.Kit(), p.entries)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Next(in, p.now); !errors.As(err, &twice) {
		t.Errorf("sent again after a restart: got %v", err)
	}
}

// A phone that was out of reach must not lay an old reading over a new one.
func TestAStaleReadingIsNotTaken(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true), join("Bo", "", false))
	seen := p.N()
	late := read("preflight.wind", "1 m/s")
	late.Who, late.Seen = "Bo", seen
	p.do(read("preflight.wind", "6 m/s")).refused(late, "Ada has answered this in the meantime")
	late.Seen = p.N()
	p.do(late)
}

func TestTheOldStateStaysAsItWas(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true), read("preflight.wind", "2 m/s"))
	old, before := p.State, encode(t, p.view())
	p.do(read("preflight.wind", "3 m/s"), join("Bo", "", false), walk.Input{Do: walk.Weigh, Part: "BOX1", Text: "190 g"}, walk.Input{Do: walk.Not, Item: "preflight.thunder"})
	if after := encode(t, old.View(p.now.Add(-4*time.Minute))); after != before {
		t.Errorf("the old state shows\n%s\nand showed\n%s", after, before)
	}
}

func TestHostileTextsAreNotTaken(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true))
	for _, text := range []string{"a\x00b", "\x1b[2J", "\u202egnp.exe", "x\u200by", "\xff\xfe", strings.Repeat("x", 501)} {
		p.refused(walk.Input{Do: walk.Note, Text: text}, "the text")
		p.refused(join(text, "", false), "")
	}
	p.refused(walk.Input{Do: "launch", Text: "x"}, "nothing called").refused(walk.Input{Do: walk.Begin}, "nothing called").refused(walk.Input{Do: walk.Note}, "empty")
}

func TestTheChargeIsHandedOver(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true), join("Bo", "", false))
	p.refused(join("Bo", "", true), "Ada is in charge already")
	p.do(walk.Input{Do: walk.Join, Who: "Ada", Name: "Bo", Lead: true})
	if v := p.view(); v.Leader != "Bo" || v.Crew[0].Lead {
		t.Errorf("in charge is %s, the crew is %v", v.Leader, v.Crew)
	}
}

func TestARegionThatNoPackHasIsNotShown(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{"station": {"rules": ["atlantis"]}}`), walk.Preflight).do(join("Ada", "", true)).through("preflight.launch")
	p.is(walk.NotShown, "no pack has them").refused(walk.Input{Do: walk.Up}, "NOT SHOWN YET")
}

func TestWithoutRulesThereIsNoGo(t *testing.T) {
	k := kitOf(t, "fen-relay", `{"station": {"rules": []}}`)
	k.Packs = nil
	start(t, k, walk.Preflight).do(join("Ada", "", true)).through("").is(walk.NotShown, "no rule at hand").refused(walk.Input{Do: walk.Up}, "NOT SHOWN YET")
}
