package crew_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

const pack = `{"format": "hoistbook-pack/1", "id": "p", "title": "P",
	"checklist": [
		{"id": "a", "list": "preflight", "phase": "First", "order": 1, "role": "r", "challenge": "c", "response": "d", "source": [{"work": "practice"}]},
		{"id": "z", "list": "preflight", "phase": "Then", "order": 2, "role": "r", "challenge": "c", "response": "d", "source": [{"work": "practice"}]},
		{"id": "b", "list": "recovery", "phase": "First", "order": 1, "role": "r", "challenge": "c", "response": "d", "source": [{"work": "practice"}]},
		{"id": "n", "list": "recovery", "phase": "Count", "order": 2, "role": "r", "challenge": "c", "response": "d", "reading": {"name": "pieces", "dimension": "count", "plausible": ["0", "9"]}, "source": [{"work": "practice"}]},
		{"id": "h", "list": "recovery", "phase": "Last", "order": 3, "role": "r", "challenge": "c", "response": "d", "hold": true, "critical": true, "source": [{"work": "practice"}]}],
	"cautions": [{"id": "w", "signal": "warning", "hazard": "h", "consequence": "c", "avoidance": "a", "before": ["preflight"], "source": [{"work": "practice"}]}]}`

const kit = `{"format": "hoistbook-manifest/1", "kit": {"id": "k", "name": "K", "revision": "1.0.0"}, "parts": {"A": {"name": "a"}},
	"station": {"rules": ["us"]}, "waivers": {"mass.weighed": "no scale at hand"},
	"steps": {"preflight": [{"id": "brake", "text": "Brake holds.", "roles": ["winch hand", "helper"], "hold": true}], "recovery": [{"id": "dry", "text": "Line dry."}]},
	"cautions": [{"signal": "notice", "hazard": "n", "consequence": "c", "avoidance": "a"}, {"signal": "danger", "hazard": "d", "consequence": "c", "avoidance": "a", "before": ["preflight"]}]}`

func load(t *testing.T) (*manifest.Manifest, rules.Packs, *kits.Facts) {
	t.Helper()
	m, err := manifest.Load(manifest.Source{Name: "kit.json", Data: []byte(kit)})
	if err != nil {
		t.Fatal(err)
	}
	packs, err := rules.Load(kits.Catalogue{}, rules.Text{Name: "pack.json", JSON: []byte(pack)})
	if err != nil {
		t.Fatal(err)
	}
	return m, packs, kits.Assess(m)
}

// A kit's own steps come behind the first phase before a launch; on the way home they come before the count. In no pack do they come
// behind the last hold point.
func TestOwnStepsStandInTheirPlace(t *testing.T) {
	m, packs, facts := load(t)
	own := crew.Own{Phase: "own", Done: "done", Anybody: "anybody"}
	for list, want := range map[string][]string{"preflight": {"a", "kit.brake", "z"}, "recovery": {"b", "kit.dry", "n", "h"}} {
		if ids := ids(crew.Checklist(m, packs, facts, crew.Options(m, unit.SI), list, own)); !slices.Equal(ids, want) {
			t.Errorf("%s: got %q, want %q", list, ids, want)
		}
	}
	for name, one := range map[string]struct{ list, items, want string }{
		"one phase with its hold":  {"preflight", item("preflight", "One", "a", "") + "," + item("preflight", "One", "h", `"hold": true,`), "kit.brake a h"},
		"one phase without a hold": {"preflight", item("preflight", "One", "a", ""), "a kit.brake"},
		"nothing counted":          {"recovery", item("recovery", "One", "a", "") + "," + item("recovery", "Two", "h", `"hold": true,`), "a kit.dry h"},
		"counted after the hold":   {"recovery", item("recovery", "One", "h", `"hold": true,`) + "," + item("recovery", "Two", "n", counts), "kit.dry h n"},
		"an empty list":            {"recovery", item("preflight", "One", "a", ""), "kit.dry"},
	} {
		packs := packOf(t, one.items)
		got := strings.Join(ids(crew.Checklist(m, packs, facts, crew.Options(m, unit.SI), one.list, own)), " ")
		if got != one.want {
			t.Errorf("%s: got %q, want %q", name, got, one.want)
		}
	}
	brake := own.Steps(m, "preflight")[0]
	if brake.Role != "winch hand, helper" || !brake.Hold || brake.Response != "done" || brake.Phase != "own" || own.Steps(m, "recovery")[0].Role != "anybody" {
		t.Errorf("the kit's own step came out as %+v", brake)
	}
}

const counts = `"reading": {"name": "pieces", "dimension": "count", "plausible": ["0", "9"]},`

func item(list, phase, id, more string) string {
	return fmt.Sprintf(`{"id": %q, "list": %q, "phase": %q, "order": 1, "role": "r", "challenge": "c", "response": "d", %s "source": [{"work": "practice"}]}`, id, list, phase, more)
}

func packOf(t *testing.T, items string) rules.Packs {
	t.Helper()
	packs, err := rules.Load(kits.Catalogue{}, rules.Text{Name: "pack.json", JSON: []byte(`{"format": "hoistbook-pack/1", "id": "p", "title": "P", "checklist": [` + items + `]}`)})
	if err != nil {
		t.Fatal(err)
	}
	return packs
}

func ids(steps []rules.Step) []string {
	var all []string
	for _, s := range steps {
		all = append(all, s.ID)
	}
	return all
}

func TestGravestFirst(t *testing.T) {
	m, packs, facts := load(t)
	alerts := crew.Gravest(append(rules.Cautions(packs, facts, crew.Options(m, unit.SI)), crew.Cautions(m)...))
	var signals []rules.Signal
	for _, a := range alerts {
		signals = append(signals, a.Signal)
	}
	if want := []rules.Signal{rules.SignalDanger, rules.SignalWarning, rules.SignalNotice}; !slices.Equal(signals, want) {
		t.Errorf("got %q, want %q", signals, want)
	}
	if !alerts[0].Precedes("preflight") {
		t.Error("the kit's own danger is not read before the launch")
	}
}

func TestOptionsOfTheManifest(t *testing.T) {
	m, _, _ := load(t)
	o := crew.Options(m, unit.US)
	if !slices.Equal(o.Regions, []string{"us"}) || o.Waived["mass.weighed"] != "no scale at hand" || o.System != unit.US {
		t.Errorf("got %+v", o)
	}
}
