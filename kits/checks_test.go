package kits

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/fact"
	"hoistbook/kits/internal/outside"
	"hoistbook/kits/source"
)

// The table of every fact of the demonstration kits beside an independent calculation stands in testdata/checks, for people
// to read; TestFactsAgainstAnIndependentCalculation decides.
func TestTheTableOfFactsIsFresh(t *testing.T) {
	r := readReference(t)
	var table bytes.Buffer
	table.WriteString("# Every fact of the demonstration kits\n\n<!-- Written by the tests of kits: go test ./kits -run TheTableOfFacts -update -->\n\n")
	table.WriteString("Calculated by [reference.py](../facts/reference.py), which shares nothing with this program but the manifests, and by this program.\n")
	table.WriteString("Each kit has its table; at the end stands what every fact of the catalogue is held against.\n")
	all := heldAgainst{}
	for name, v := range r.Variations {
		all.note(r.Kits[v.Kit].Facts, v.Facts, name)
	}
	for _, kit := range Demos() {
		all.note(r.Kits[kit].Facts, nil, kit)
		facts := Assess(demo(t, kit).Manifest)
		fmt.Fprintf(&table, "\n## %s\n\n| fact | independent | ours | difference | source |\n|---|--:|--:|--:|---|\n", kit)
		for _, id := range slices.Sorted(maps.Keys(r.Kits[kit].Facts)) {
			got, ok := facts.Find(id)
			if !ok || !got.Value.Known() {
				t.Errorf("%s: %s is not shown", kit, id)
				continue
			}
			theirs, ours, apart := fmt.Sprint(r.Kits[kit].Facts[id]), got.Value.Text, "0"
			switch want := r.Kits[kit].Facts[id].(type) {
			case bool:
				ours = fmt.Sprint(got.Value.Yes)
			case float64:
				have := got.Value.Quantity.In(got.Entry.Unit)
				theirs, ours, apart = fmt.Sprintf("%.8g", want), fmt.Sprintf("%.8g", have), outside.Difference(have, want)
			}
			fmt.Fprintf(&table, "| %s | %s | %s | %s | %s |\n", id, theirs, ours, apart, cited(got.Entry.Sources))
		}
	}
	table.WriteString("\n## What every fact is held against\n\n| fact | held against | source |\n|---|---|---|\n")
	for _, e := range catalogue {
		against := heldOtherwise(e)
		if n := len(all[e.ID]); n > 0 {
			against = fmt.Sprintf("the independent calculation, in %d of the %d kits and variations", n, len(r.Kits)+len(r.Variations))
		}
		if against == "" {
			t.Errorf("nothing from outside is held against %s", e.ID)
		}
		fmt.Fprintf(&table, "| %s | %s | %s |\n", e.ID, against, cited(e.Sources))
	}
	outside.Golden(t, "../testdata/checks/facts.md", table.Bytes())
}

// heldAgainst are the kits and variations in which the reference has a fact, by its id with a star.
type heldAgainst map[string]map[string]bool

func (h heldAgainst) note(base, changed map[string]any, where string) {
	facts := maps.Clone(base)
	maps.Copy(facts, changed)
	for id, value := range facts {
		if value == nil {
			continue
		}
		for _, e := range catalogue {
			if _, is := fact.Match(e.ID, id); id == e.ID || is && e.family != nil {
				if h[e.ID] == nil {
					h[e.ID] = map[string]bool{}
				}
				h[e.ID][where] = true
			}
		}
	}
}

// cited names the works by their ids in the bibliography.
func cited(refs []source.Ref) string {
	var ids []string
	for _, ref := range refs {
		ids = append(ids, ref.Work)
	}
	return strings.Join(ids, ", ")
}
