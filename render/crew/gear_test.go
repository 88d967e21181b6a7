package crew_test

import (
	"fmt"
	"slices"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

const gearPack = `{"format": "hoistbook-pack/1", "id": "g", "title": "G",
	"roles": [{"name": "winch hand", "least": 2}, {"name": "gas handler", "with": "winch hand"}, {"name": "clerk", "with": "gas handler"}],
	"checklist": [
		{"id": "a", "list": "preflight", "phase": "One", "order": 1, "role": "winch hand", "challenge": "c", "response": "d", "source": [{"work": "practice"}],
		 "gear": [{"what": "rope", "box": "bag"}, {"what": "gloves", "box": "worn", "count": 2}], "calls": ["landowner", "emergency"]},
		{"id": "b", "list": "preflight", "phase": "Two", "order": 2, "role": "gas handler, pilot", "challenge": "c", "response": "d", "source": [{"work": "practice"}],
		 "gear": [{"what": "rope", "box": "bag", "count": 3}, {"what": "rope", "box": "case"}], "calls": ["emergency"]},
		{"id": "n", "list": "preflight", "phase": "Two", "order": 3, "role": "clerk", "challenge": "c", "response": "d", "source": [{"work": "practice"}],
		 "when": {"fact": "balloon.deflation", "is": true}, "gear": [{"what": "pin", "box": "bag"}], "calls": ["nobody"]}],
	"cautions": [{"id": "w", "signal": "warning", "hazard": "h", "consequence": "c", "avoidance": "a", "before": ["preflight"], "source": [{"work": "practice"}],
		"gear": [{"what": "gloves", "box": "worn", "each": true}, {"what": "scale for more than {station.tether_out_m}", "box": "bag"}], "calls": ["tower"]}]}`

func gearOf(t *testing.T) (*manifest.Manifest, rules.Packs, []rules.Step, []rules.Alert) {
	t.Helper()
	m, err := manifest.Load(manifest.Source{Name: "kit.json", Data: []byte(`{"format": "hoistbook-manifest/1", "kit": {"id": "k", "name": "K", "revision": "1.0.0"},
		"parts": {"A": {"name": "a"}}, "station": {"tether_out": "40 m", "site": {"contacts": {"landowner": "at the gate", "harbour master": "channel 12"}}}}`)})
	if err != nil {
		t.Fatal(err)
	}
	packs, err := rules.Load(kits.Catalogue{}, rules.Text{Name: "pack.json", JSON: []byte(gearPack)})
	if err != nil {
		t.Fatal(err)
	}
	facts, o := kits.Assess(m), rules.Options{System: unit.SI}
	return m, packs, rules.Checklist(packs, facts, o, "preflight"), rules.Cautions(packs, facts, o)
}

// The same thing for two items is taken once, as many as the one that needs most; what an item needs that is left out is not taken.
func TestGearIsTakenOnce(t *testing.T) {
	_, _, steps, alerts := gearOf(t)
	var got []string
	for _, b := range crew.Field(steps, alerts) {
		for _, g := range b.Gear {
			got = append(got, fmt.Sprint(b.Name, ": ", g.Count, " ", g.What, " ", g.Each))
		}
	}
	want := []string{"bag: 3 rope false", "bag: 1 scale for more than 40 m false", "worn: 2 gloves true", "case: 1 rope false"}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

func TestEverybodyIsCalledOnceWithTheNumberOfTheSite(t *testing.T) {
	m, _, steps, alerts := gearOf(t)
	want := []crew.Call{{Who: "landowner", Number: "at the gate"}, {Who: "emergency"}, {Who: "tower"}, {Who: "harbour master", Number: "channel 12"}}
	if got := crew.Calls(m, steps, alerts); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := crew.Calls(&manifest.Manifest{}, steps, nil); len(got) != 2 || got[0].Number != "" {
		t.Errorf("without a site: %q", got)
	}
}

// Whoever answers an item is on the roll. Two at the winch, one of whom handles the gas, and a pilot whom no pack describes: three.
func TestTheRoll(t *testing.T) {
	_, packs, steps, _ := gearOf(t)
	var got []string
	roll := crew.Roll(packs.Roles(), steps)
	for _, r := range roll {
		got = append(got, fmt.Sprint(r.Name, " ", r.Least, " ", r.With))
	}
	if want := []string{"winch hand 2 ", "gas handler 1 winch hand", "pilot 1 "}; !slices.Equal(got, want) || crew.People(roll) != 3 {
		t.Errorf("got %q of %d people, want %q of 3", got, crew.People(roll), want)
	}
	alone := slices.DeleteFunc(slices.Clone(steps), func(s rules.Step) bool { return s.Role == "winch hand" })
	if roll := crew.Roll(packs.Roles(), alone); crew.People(roll) != 2 {
		t.Errorf("without a winch hand the gas handler counts: %d people, want 2", crew.People(roll))
	}
}

func TestALaterPackSpeaksForARole(t *testing.T) {
	_, packs, _, _ := gearOf(t)
	own, err := rules.Load(kits.Catalogue{}, rules.Text{Name: "own.json", JSON: []byte(`{"format": "hoistbook-pack/1", "id": "own", "title": "O", "roles": [{"name": "winch hand", "least": 3}]}`)})
	if err != nil {
		t.Fatal(err)
	}
	roles := slices.Concat(packs, own).Roles()
	if len(roles) != 3 || roles[0].Least != 3 || roles[1].Least != 1 {
		t.Errorf("roles are %+v", roles)
	}
}
