package kits

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/manifest"
)

// reference is every computed fact of the demonstration kits, and of variations of them, as testdata/facts/reference.py
// calculates it: a script with its own reader of units, its own formulas from the published sources and scipy's integrator
// and root finder.
type reference struct {
	Kits map[string]struct {
		SHA256 string
		Facts  map[string]any
	}
	VariationsSHA256 string `json:"variations_sha256"`
	Variations       map[string]struct {
		Kit   string
		Facts map[string]any // those that differ; null for one that is no more
	}
}

const factsFolder = "../testdata/facts/"

func readReference(t *testing.T) reference {
	t.Helper()
	var r reference
	if err := json.Unmarshal(read(t, factsFolder+"reference.json"), &r); err != nil {
		t.Fatal(err)
	}
	fresh := func(name, recorded string, data []byte) {
		if sum := sha256.Sum256(data); recorded != hex.EncodeToString(sum[:]) {
			t.Fatalf("testdata/facts/reference.json is stale: %s has changed; run: go run ./cmd/dev reference", name)
		}
	}
	for _, id := range Demos() {
		source, _ := Demo(id)
		fresh("kits/demos/"+id+".json", r.Kits[id].SHA256, source.Data)
	}
	fresh("testdata/facts/variations.json", r.VariationsSHA256, read(t, factsFolder+"variations.json"))
	return r
}

func read(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// byStatics are the beginnings of the ids of facts that a march along the line and a search lead to; they agree to a
// thousandth, all others to a millionth.
var byStatics = []string{
	"tether.height", "tether.drift", "tether.lean", "tether.tension", "wind.", "anchor.", "lift.neck_needed", "lift.neck_most", "gas.fill_needed", "gas.top_up",
}

func startsWith(id string, starts []string) bool {
	return slices.ContainsFunc(starts, func(start string) bool { return strings.HasPrefix(id, start) })
}

// A comparison gathers how far facts lie from the reference.
type comparison struct {
	compared        int
	statics, others struct {
		id         string
		difference float64
	}
}

// compare holds one fact against the reference; nil is a fact that there is none of.
func (c *comparison) compare(t *testing.T, kit string, facts *Facts, id string, want any) {
	t.Helper()
	got, ok := facts.Find(id)
	c.compared++
	switch want := want.(type) {
	case nil:
		if ok && got.Value.Known() {
			t.Errorf("%s: %s: got %+v, want none", kit, id, got.Value)
		}
	case bool:
		if !ok || !got.Value.Known() || got.Value.Yes != want {
			t.Errorf("%s: %s: got %v (%s), want %v", kit, id, got.Value.Yes, got.Value.Unknown, want)
		}
	case string:
		if got.Value.Text != want {
			t.Errorf("%s: %s: got %s (%s), want %s", kit, id, got.Value.Text, got.Value.Unknown, want)
		}
	case float64:
		if !ok || !got.Value.Known() {
			t.Errorf("%s: %s: got nothing (%s), want %v", kit, id, got.Value.Unknown, want)
			return
		}
		have := got.Value.Quantity.In(got.Entry.Unit)
		difference := math.Abs(have - want)
		if want != 0 {
			difference = math.Abs(have/want - 1)
		}
		t.Logf("%-22s %-44s %-16.10g %-16.10g %.0e", kit, id, have, want, difference)
		tolerance, group := 1e-6, &c.others
		if startsWith(id, byStatics) {
			tolerance, group = 1e-3, &c.statics
		}
		if difference > group.difference {
			group.id, group.difference = kit+": "+id, difference
		}
		if !(difference <= tolerance) {
			t.Errorf("%s: %s: got %.9g, want %.9g: %.1e apart, at most %.0e", kit, id, have, want, difference, tolerance)
		}
	}
}

func (c comparison) report(t *testing.T) {
	t.Helper()
	t.Logf("%d facts agree; the worst of statics differs by %.1e (%s), the worst of all others by %.1e (%s)",
		c.compared, c.statics.difference, c.statics.id, c.others.difference, c.others.id)
}

// Every fact of every demonstration kit against the independent calculation; -v prints the table.
func TestFactsAgainstAnIndependentCalculation(t *testing.T) {
	r := readReference(t)
	var c comparison
	for _, kit := range Demos() {
		facts := demo(t, kit)
		for _, id := range slices.Sorted(maps.Keys(r.Kits[kit].Facts)) {
			c.compare(t, kit, facts, id, r.Kits[kit].Facts[id])
		}
	}
	c.report(t)
}

// The same of kits with what the demonstration kits have not: hydrogen, frost, storm, other country, antennas side by side,
// a harmonic on the channel, packs in parallel, a boost converter, other cells, a rope. What the reference does not list as
// changed must not have changed.
func TestVariationsAgainstAnIndependentCalculation(t *testing.T) {
	r := readReference(t)
	var changes map[string]struct{ Change json.RawMessage }
	if err := json.Unmarshal(read(t, factsFolder+"variations.json"), &changes); err != nil {
		t.Fatal(err)
	}
	var c comparison
	for _, name := range slices.Sorted(maps.Keys(r.Variations)) {
		variation := r.Variations[name]
		source, _ := Demo(variation.Kit)
		m, err := manifest.Load(source, manifest.Source{Name: name, Data: changes[name].Change})
		if err != nil {
			t.Error(err)
			continue
		}
		facts := Assess(m)
		want := maps.Clone(r.Kits[variation.Kit].Facts)
		maps.Copy(want, variation.Facts)
		for _, id := range slices.Sorted(maps.Keys(want)) {
			c.compare(t, name, facts, id, want[id])
		}
	}
	c.report(t)
}

// crewByHand is what is held against most facts of facts_crew.go.
const crewByHand = "manifests read by hand in TestWhatTheCrewIsTold"

// otherwiseChecked are the facts that the reference leaves out and that are not simply what the manifest says, and what is held
// against them; a star at the end stands for any rest.
var otherwiseChecked = map[string]string{
	"plan.*":                        "timetables worked by hand in kits/plan",
	"power.recharge_in_time":        "timetables worked by hand in kits/plan",
	"cost.relabelled":               "overlays counted by hand in TestOverlaysByHand",
	"kit.overlay_count":             "overlays counted by hand in TestOverlaysByHand",
	"kit.stale_overlay_count":       "overlays counted by hand in TestOverlaysByHand",
	"station.site_inherited":        "overlays laid by hand in TestWhatAMovedKitLeavesAsItWas",
	"kit.stale_overlays":            "overlays counted by hand in TestOverlaysByHand",
	"radio.receivers.*.own_channel": crewByHand,
	"power.batteries.*.told":        crewByHand,
	"power.batteries.*.storage_v":   crewByHand,
	"anchor.piece_kg":               crewByHand,
	"anchor.one_load_kg":            crewByHand,
	"anchor.loads":                  crewByHand,
	"anchor.people_a_piece":         crewByHand,
}

// heldOtherwise is what is held against a fact that the reference leaves out; empty when nothing is.
func heldOtherwise(e *Entry) string {
	if e.Formula == asSaid {
		return "it is what the manifest says"
	}
	for id, what := range otherwiseChecked {
		if start, any := strings.CutSuffix(id, "*"); id == e.ID || any && strings.HasPrefix(e.ID, start) {
			return what
		}
	}
	return ""
}

// What the reports promise is in the reference wherever it is known; whatever else is computed is there too, or is checked
// in another place that is named.
func TestTheReferenceCoversTheFacts(t *testing.T) {
	r := readReference(t)
	for _, kit := range Demos() {
		for _, f := range demo(t, kit).All {
			_, there := r.Kits[kit].Facts[f.ID]
			switch {
			case there || !f.Value.Known():
			case slices.Contains(promised, f.Entry.ID):
				t.Errorf("%s: the reference leaves out %s", kit, f.ID)
			case heldOtherwise(f.Entry) == "":
				t.Errorf("%s: nothing from outside is held against %s", kit, f.ID)
			}
		}
	}
}
