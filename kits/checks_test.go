package kits

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

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
	for _, kit := range Demos() {
		facts := Assess(demo(t, kit).Manifest)
		fmt.Fprintf(&table, "\n## %s\n\n| fact | independent | ours | difference | source |\n|---|--:|--:|--:|---|\n", kit)
		for _, id := range slices.Sorted(maps.Keys(r.Kits[kit].Facts)) {
			got, ok := facts.Find(id)
			if !ok || !got.Value.Known() {
				t.Errorf("%s: %s is not shown", kit, id)
				continue
			}
			theirs, ours, apart := fmt.Sprint(r.Kits[kit].Facts[id]), got.Value.Text, "0"
			if want, number := r.Kits[kit].Facts[id].(float64); number {
				have := got.Value.Quantity.In(got.Entry.Unit)
				theirs, ours, apart = fmt.Sprintf("%.8g", want), fmt.Sprintf("%.8g", have), outside.Difference(have, want)
			}
			fmt.Fprintf(&table, "| %s | %s | %s | %s | %s |\n", id, theirs, ours, apart, cited(got.Entry.Sources))
		}
	}
	outside.Golden(t, "../testdata/checks/facts.md", table.Bytes())
}

// cited names the works by their ids in the bibliography.
func cited(refs []source.Ref) string {
	var ids []string
	for _, ref := range refs {
		ids = append(ids, ref.Work)
	}
	return strings.Join(ids, ", ")
}
