package kits

import (
	"strings"
	"testing"

	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
)

// What a reader can follow: every fact of the electrics names what it was computed from, and the modules and cells are among it.
func TestElectricsNameTheirInputs(t *testing.T) {
	for _, id := range Demos() {
		source, _ := Demo(id)
		m, err := manifest.Load(source)
		if err != nil {
			t.Fatal(err)
		}
		facts := Assess(m)
		checked := 0
		for _, f := range facts.All {
			if strings.HasPrefix(f.ID, "power.") && f.Value.Kind == fact.Number && !strings.HasSuffix(f.ID, "_count") && f.Value.Known() {
				checked++
				if len(f.Inputs) == 0 {
					t.Errorf("%s: %s names no input", id, f.ID)
				}
			}
		}
		if checked < 15 {
			t.Errorf("%s: only %d facts were looked at", id, checked)
		}
		for ref, p := range m.Parts {
			if p.Load == nil {
				continue
			}
			current := "/parts/" + string(ref) + "/load/current/transmit"
			on := func(id, pointer string) bool {
				return facts.RestsOn(func(name string) bool { return name == pointer })(id)
			}
			for _, battery := range facts.Subjects("power.batteries") {
				if id := "power.batteries." + battery + ".greatest_a"; !on(id, current) {
					t.Errorf("%s does not rest on %s", id, current)
				}
				if id, cells := "power.loads."+string(ref)+".lowest_v", "/parts/"+battery+"/battery/cells_in_series"; !on(id, cells) {
					t.Errorf("%s does not rest on %s", id, cells)
				}
			}
		}
	}
}
