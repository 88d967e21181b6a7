package doc

import (
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/unit"
)

// What is looked at before anything is done may be looked at in any order, so what forbids flying stands first (Degani and Wiener, NASA
// CR-177549, guidelines: the most critical items as near as possible to the beginning). In the other phases the order is that of the work.
func TestCriticalItemsFirst(t *testing.T) {
	all := builtIn(t)
	const phase = "Go or no go"
	for _, id := range kits.Demos() {
		lesser, seen := "", 0
		for _, step := range Gather(demo(t, id), all, unit.SI, words(t, "en")).Preflight {
			if step.Phase != phase || step.Hold {
				continue
			}
			seen++
			switch {
			case !step.Critical:
				lesser = step.ID
			case lesser != "":
				t.Errorf("%s: %s is critical and stands below %s, which is not", id, step.ID, lesser)
			}
		}
		if seen < 10 {
			t.Errorf("%s: only %d items in %q", id, seen, phase)
		}
	}
}

// Every phase with a decision ends with the person in charge, and no hold stands where nobody has anything to look at.
func TestHoldPointsAskSomebody(t *testing.T) {
	all := builtIn(t)
	for _, id := range kits.Demos() {
		in := Gather(demo(t, id), all, unit.SI, words(t, "en"))
		holds := 0
		for _, step := range append(in.Preflight, in.Recovery...) {
			if step.Challenge == "" || step.Response == "" || step.Role == "" {
				t.Errorf("%s: %s has the challenge %q, the response %q and the role %q; each is needed", id, step.ID, step.Challenge, step.Response, step.Role)
			}
			if step.Hold {
				holds++
			}
		}
		if holds < 4 {
			t.Errorf("%s: only %d hold points", id, holds)
		}
	}
}
