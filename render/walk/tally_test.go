package walk_test

import (
	"slices"
	"testing"

	"hoistbook/render/walk"
)

func n(pieces int) *int { return &pieces }

func home(t *testing.T) *party {
	t.Helper()
	return aloft(t).do(walk.Input{Do: walk.Down}, walk.Input{Do: walk.Recover})
}

func TestEveryPartIsCountedBackIn(t *testing.T) {
	p := home(t).through("recovery.pack/winch case")
	var counted []string
	for _, phase := range p.view().Phases {
		for _, it := range phase.Items {
			for _, part := range it.Tally {
				counted = append(counted, part.Part)
			}
		}
	}
	for ref, part := range p.Kit().Manifest.Parts {
		if !part.Consumable && !slices.Contains(counted, string(ref)) {
			t.Errorf("nobody counts %s", ref)
		}
	}
	p.refused(walk.Input{Do: walk.Count, Part: "PEN1", Pieces: n(4)}, "more than went out").refused(walk.Input{Do: walk.Count, Part: "PEN1"}, "is not said")
	p.refused(walk.Input{Do: walk.Count, Part: "PEN9", Pieces: n(1)}, "there is no part").refused(walk.Input{Do: walk.Done, Item: "recovery.pack", Subject: "winch case"}, "part by part")
	p.do(walk.Input{Do: walk.Count, Part: "PEN1", Pieces: n(2)}).through("recovery.home").is(walk.NotComplete, "not back: 1 PEN1")
	p.refused(walk.Input{Do: walk.Close}, "NOT COMPLETE").do(walk.Input{Do: walk.Count, Part: "PEN1", Pieces: n(3)}).through("").is(walk.Complete)
}

func TestWhatIsLeftForTheNextOrder(t *testing.T) {
	p := home(t).through("").is(walk.Complete)
	p.do(walk.Input{Do: walk.Count, Part: "PEN1", Pieces: n(1)})
	p.do(walk.Input{Do: walk.Damage, Part: "LMP1", Pieces: n(1), Fate: walk.Replace, Text: "drowned"}, walk.Input{Do: walk.Damage, Part: "BOX1", Pieces: n(1), Fate: walk.Mend, Text: "lid torn"})
	p.do(walk.Input{Do: walk.Damage, Part: "REG1", Pieces: n(1), Fate: walk.Mend, Text: "loose"}, walk.Input{Do: walk.Damage, Part: "REG1", Pieces: n(0), Fate: walk.Mend})
	p.refused(walk.Input{Do: walk.Damage, Part: "BOX1", Pieces: n(1), Text: "x"}, "what is to become").refused(walk.Input{Do: walk.Damage, Part: "BOX1", Pieces: n(2), Fate: walk.Mend, Text: "x"}, "how many")
	p.do(walk.Input{Do: walk.Count, Part: "GAS1", Pieces: n(0)})
	stock := map[string]walk.Stock{}
	for _, s := range p.Stock() {
		stock[s.Part] = s
	}
	for _, want := range []walk.Stock{
		{Part: "PEN1", Out: 3, Back: 1, Lost: 2, Sound: 1}, {Part: "LMP1", Out: 2, Back: 2, Replace: 1, Sound: 1}, {Part: "BOX1", Out: 1, Back: 1, Mend: 1, Sound: 1},
		{Part: "BAT1", Out: 2, Back: 2, Sound: 2}, {Part: "GAS1", Out: 1, Back: 0, Lost: 1, Sound: 0}, {Part: "REG1", Out: 1, Back: 1, Sound: 1},
	} {
		if got := stock[want.Part]; got != want {
			t.Errorf("got %+v, want %+v", got, want)
		}
	}
	if _, ok := stock["ENV1"]; ok {
		t.Error("a balloon that nobody counted is in the stock")
	}
}

func TestPartsInNoBoxAreCountedToo(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{"parts": {"CHG1": {"packed_in": null}}}`), walk.Recovery).do(join("Ada", "", true))
	it := p.item("walk.count-loose")
	if len(it.Tally) != 1 || it.Tally[0].Part != "CHG1" {
		t.Errorf("loose are %+v", it.Tally)
	}
	p.through("walk.count-loose").is(walk.NotComplete).do(walk.Input{Do: walk.Count, Part: "CHG1", Pieces: n(1)}).through("").is(walk.Complete)
}

func TestARecoveryAlone(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Recovery).do(join("Ada", "", true))
	p.do(walk.Input{Do: walk.Up, Time: at(6, 0)}).is(walk.NotComplete, "no time is recorded at which it came down")
	p.do(walk.Input{Do: walk.Down, Time: at(6, 31)}).through("").is(walk.Complete)
	p.refused(walk.Input{Do: walk.Recover}, "open already").do(walk.Input{Do: walk.Close})
}
