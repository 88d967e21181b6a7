package crew_test

import (
	"slices"
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
		{"id": "b", "list": "recovery", "phase": "Last", "order": 1, "role": "r", "challenge": "c", "response": "d", "source": [{"work": "practice"}]}],
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

// A kit's own steps come behind the first phase before a launch and last on the way home.
func TestOwnStepsStandInTheirPlace(t *testing.T) {
	m, packs, facts := load(t)
	own := crew.Own{Phase: "own", Done: "done", Anybody: "anybody"}
	for list, want := range map[string][]string{"preflight": {"a", "kit.brake", "z"}, "recovery": {"b", "kit.dry"}} {
		steps := crew.Checklist(m, packs, facts, crew.Options(m, unit.SI), list, own)
		var ids []string
		for _, s := range steps {
			ids = append(ids, s.ID)
		}
		if !slices.Equal(ids, want) {
			t.Errorf("%s: got %q, want %q", list, ids, want)
		}
	}
	brake := own.Steps(m, "preflight")[0]
	if brake.Role != "winch hand, helper" || !brake.Hold || brake.Response != "done" || brake.Phase != "own" || own.Steps(m, "recovery")[0].Role != "anybody" {
		t.Errorf("the kit's own step came out as %+v", brake)
	}
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
