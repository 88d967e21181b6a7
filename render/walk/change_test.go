package walk_test

import (
	"testing"

	"hoistbook/render/walk"
)

// On station the list of a change is gone over to. The balloon comes down, gets a fresh set, is weighed, and goes up again only by
// a GO; after that the list asks for what can be seen from below.
func TestAChangeOfBatteryOnStation(t *testing.T) {
	p := aloft(t).do(walk.Input{Do: walk.Swap}).is(walk.ToCheck)
	if v := p.view(); v.List != walk.Change || v.Next != "change.told" || !v.Aloft {
		t.Fatalf("%s, next %s, aloft %v", v.List, v.Next, v.Aloft)
	}
	p.through("")
	if it := p.item("change.fresh/BAT1"); it.Barred != "the balloon is up; record when it is down first" {
		t.Errorf("a battery is changed in the air: %+v", it)
	}
	p.refused(walk.Input{Do: walk.Up}, "the balloon is up since").do(walk.Input{Do: walk.Down}).through("change.fresh/BAT1")
	p.do(walk.Input{Do: walk.Read, Item: "change.fresh", Subject: "BAT1", Label: "B", Text: "11.1 V"}).is(walk.NoGo, "reads 11.1 V")
	p.refused(walk.Input{Do: walk.Up}, "the verdict is NO-GO")
	p.do(walk.Input{Do: walk.Read, Item: "change.fresh", Subject: "BAT1", Label: "B", Text: "12.5 V"}).through("change.neck-scale")
	p.do(read("change.neck-scale", "1.7 kg")).is(walk.NoGo, "reads 1.7 kg").do(read("change.neck-scale", "3.7 kg")).through("change.launch").is(walk.GO)
	p.refused(walk.Input{Do: walk.Up}, "the balloon has not been let go")
	if it := p.item("change.line-out"); it.Barred == "" {
		t.Error("line is out before the launch")
	}
	p.do(walk.Input{Do: walk.Done, Item: "change.launch"}, walk.Input{Do: walk.Up}).through("").is(walk.GO)
	if it := p.item("change.line-out"); it.State != "settled" {
		t.Errorf("the line that is out is %s", it.State)
	}
	sets := p.view().Sets
	if len(sets) != 2 || sets[1].Label != "B" || sets[0].Until == "" || sets[1].Due == "" {
		t.Errorf("sets in use: %+v", sets)
	}
	p.do(read("change.wind", "6 m/s")).is(walk.NoGo, "6 m/s")
}

// What was answered at one change is asked anew at the next, and a record says again all that it has led to.
func TestEveryChangeIsAskedAnew(t *testing.T) {
	p := aloft(t).do(walk.Input{Do: walk.Swap}).through("").do(walk.Input{Do: walk.Down}).through("change.launch")
	p.do(walk.Input{Do: walk.Done, Item: "change.launch"}, walk.Input{Do: walk.Up}).through("").is(walk.GO)
	p.do(walk.Input{Do: walk.Swap}).is(walk.ToCheck)
	for _, key := range []string{"change.told", "change.fresh/BAT1", "change.launch", "change.line-out"} {
		if it := p.item(key); it.State != "open" || it.Answer != "" {
			t.Errorf("%s is %s, answered %q", key, it.State, it.Answer)
		}
	}
	if it := p.item("change.line-out"); it.Barred == "" {
		t.Error("line is out before this launch")
	}
	p.do(walk.Input{Do: walk.Recover}).refused(walk.Input{Do: walk.Swap}, "on its way home")
	again, differs, err := walk.Again(p.Kit(), p.entries)
	if err != nil || len(differs) > 0 || again.List != walk.Recovery {
		t.Errorf("again: %s, %q, %v", again.List, differs, err)
	}
}

// The list can be walked in a record of its own, and a kit whose battery and gas last has none.
func TestAChangeByItself(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Change).do(join("Ada", "", true)).through("change.launch").is(walk.GO)
	p.do(walk.Input{Do: walk.Done, Item: "change.launch"}, walk.Input{Do: walk.Up}).through("").is(walk.GO)
	lasting := kitOf(t, "fen-relay", `{"station": {"duration": "10 h"}}`)
	if _, _, err := walk.Start(lasting, walk.Change, morning); err == nil {
		t.Error("a battery that lasts is changed")
	}
	start(t, lasting, walk.Preflight).do(join("Ada", "", true)).refused(walk.Input{Do: walk.Swap}, "nothing is changed in the station time")
}
