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

	"hoistbook/kits/fact"
)

// reference is every computed fact of the demonstration kits as testdata/facts/reference.py calculates it: a script with its
// own reader of units, its own formulas from the published sources and scipy's integrator and root finder.
type reference struct {
	Kits map[string]struct {
		SHA256 string
		Facts  map[string]any
	}
}

func readReference(t *testing.T) reference {
	t.Helper()
	text, err := os.ReadFile("../testdata/facts/reference.json")
	if err != nil {
		t.Fatal(err)
	}
	var r reference
	if err := json.Unmarshal(text, &r); err != nil {
		t.Fatal(err)
	}
	for _, id := range Demos() {
		source, _ := Demo(id)
		sum := sha256.Sum256(source.Data)
		if r.Kits[id].SHA256 != hex.EncodeToString(sum[:]) {
			t.Fatalf("testdata/facts/reference.json is stale: kits/demos/%s.json has changed; run: go run ./cmd/dev reference", id)
		}
	}
	return r
}

// byStatics are the beginnings of the ids of facts that a march along the line and a search lead to; they agree to a
// thousandth, all others to a millionth.
var byStatics = []string{
	"tether.height", "tether.drift", "tether.lean", "tether.tension", "wind.", "anchor.", "lift.neck_needed", "gas.fill_needed", "gas.top_up",
}

func startsWith(id string, starts []string) bool {
	return slices.ContainsFunc(starts, func(start string) bool { return strings.HasPrefix(id, start) })
}

// Every fact of every demonstration kit against the independent calculation; -v prints the table.
func TestFactsAgainstAnIndependentCalculation(t *testing.T) {
	type worst struct {
		id         string
		difference float64
	}
	var statics, others worst
	compared := 0
	reference := readReference(t)
	for _, kit := range Demos() {
		want := reference.Kits[kit]
		facts := demo(t, kit)
		for _, id := range slices.Sorted(maps.Keys(want.Facts)) {
			value := want.Facts[id]
			got, ok := facts.Find(id)
			if !ok || !got.Value.Known() {
				t.Errorf("%s: %s: got nothing (%s), want %v", kit, id, got.Value.Unknown, value)
				continue
			}
			compared++
			number, ok := value.(float64)
			if !ok {
				if got.Value.Text != value {
					t.Errorf("%s: %s: got %s, want %v", kit, id, got.Value.Text, value)
				}
				continue
			}
			have := got.Value.Quantity.In(got.Entry.Unit)
			difference := math.Abs(have/number - 1)
			if number == 0 {
				difference = math.Abs(have)
			}
			t.Logf("%-13s %-44s %-16.10g %-16.10g %.0e", kit, id, have, number, difference)
			tolerance, group := 1e-6, &others
			if startsWith(id, byStatics) {
				tolerance, group = 1e-3, &statics
			}
			if difference > group.difference {
				*group = worst{kit + ": " + id, difference}
			}
			if !(difference <= tolerance) {
				t.Errorf("%s: %s: got %.9g, want %.9g: %.1e apart, at most %.0e", kit, id, have, number, difference, tolerance)
			}
		}
	}
	t.Logf("%d facts agree; the worst of statics differs by %.1e (%s), the worst of all others by %.1e (%s)",
		compared, statics.difference, statics.id, others.difference, others.id)
}

// otherwiseChecked are beginnings of the ids of facts that the reference leaves out, and what is held against them.
var otherwiseChecked = map[string]string{
	"plan.":                  "timetables worked by hand in kits/plan",
	"power.sets_in_rotation": "a number of the manifest",
	"power.spare_sets":       "a number of the manifest, less one",
	"power.load_count":       "a count of parts", "power.battery_count": "a count of parts", "power.fuse_count": "a count of parts",
	"power.unfed_count": "a count of parts", "radio.transmitter_count": "a count of parts", "radio.receiver_count": "a count of parts",
	"radio.link_count": "a count of stations", "packing.": "a count of parts", "markers.": "a value of the manifest",
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
			case f.Value.Kind != fact.Number || f.Entry.Formula == asSaid || strings.HasPrefix(f.ID, "station."):
			default:
				known := false
				for start := range otherwiseChecked {
					known = known || strings.HasPrefix(f.ID, start)
				}
				if !known {
					t.Errorf("%s: nothing from outside is held against %s", kit, f.ID)
				}
			}
		}
	}
}
