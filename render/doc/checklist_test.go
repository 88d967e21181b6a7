package doc

import (
	"fmt"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
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

// Who decides signs on the ground: between what was checked and the launch, whatever else the packs add.
func TestDecisionComesBeforeTheLaunch(t *testing.T) {
	all := builtIn(t)
	for _, id := range kits.Demos() {
		in := Gather(demo(t, id), all, unit.SI, words(t, "en"))
		list, err := preflight.Compose(in)
		text := dumped(t, list, err)
		decision, launch := strings.Index(text, `"Decision"`), strings.Index(text, `"Launch"`)
		last := ""
		for _, step := range in.Preflight {
			if step.ID == launchItem {
				break
			}
			last = step.Challenge
		}
		if above := strings.LastIndex(text[:max(decision, 0)], last[:min(len(last), 12)]); decision < 0 || launch < decision || above < 0 {
			t.Errorf("%s: the decision stands at %d, the launch at %d, and %q above it at %d", id, decision, launch, last, above)
		}
	}
	none := Gather(demo(t, kits.FirstDemo), nil, unit.SI, words(t, "en"))
	list, err := preflight.Compose(none)
	if text := dumped(t, list, err); strings.Count(text, `text`) == 0 || !strings.Contains(text, `"Decision"`) {
		t.Error("without a launch in the list nobody is asked to decide")
	}
}

// In a checklist bold is what is critical: numbers, challenges and responses, in the type that only they have.
func TestOnlyCriticalItemsAreBold(t *testing.T) {
	all := builtIn(t)
	in := Gather(demo(t, kits.FirstDemo), all, unit.SI, words(t, "en"))
	critical := map[string]bool{}
	for i, step := range in.Preflight {
		critical[fmt.Sprintf("%02d", i+1)] = step.Critical
	}
	list, err := preflight.Compose(in)
	if err != nil {
		t.Fatal(err)
	}
	bold, plain := 0, 0
	for _, p := range list.Pages {
		now := ""
		for it := range p.All() {
			w, ok := it.(page.Text)
			if !ok || w.Size != page.Afield.Check.Size {
				continue
			}
			if _, number := critical[w.Text]; number {
				now = w.Text
			}
			if unit := w.Face == page.Sans && w.Text != now; unit && critical[now] && len([]rune(w.Text)) <= 4 {
				continue // behind a reading line
			}
			if is := w.Face == page.Bold; is != critical[now] {
				t.Errorf("item %s: %q is bold: %v, and the item is critical: %v", now, w.Text, is, critical[now])
			} else if is {
				bold++
			} else {
				plain++
			}
		}
	}
	if bold < 50 || plain < 20 {
		t.Errorf("only %d bold and %d plain texts were looked at", bold, plain)
	}
}

// Other rules make another paper of the same manifest, and every page says so.
func TestPagesTellTheRules(t *testing.T) {
	facts, all := demo(t, kits.FirstDemo), builtIn(t)
	foot := func(in *Input) string {
		d, err := cautions.Compose(in)
		if err != nil {
			t.Fatal(err)
		}
		for it := range d.Pages[0].All() {
			if w, ok := it.(page.Text); ok && strings.Contains(w.Text, "digest") {
				return w.Text
			}
		}
		return ""
	}
	one, other := foot(Gather(facts, all, unit.SI, words(t, "en"))), foot(Gather(facts, all[1:], unit.SI, words(t, "en")))
	if !strings.Contains(one, "rules ") || one == other {
		t.Errorf("the pages say %q, and with fewer rules %q", one, other)
	}
}
