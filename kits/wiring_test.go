package kits

import (
	"strings"
	"testing"

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
			if strings.HasPrefix(f.ID, "power.") && !strings.HasSuffix(f.ID, "_count") && f.Value.Known() {
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
			for _, battery := range facts.Subjects("power.batteries") {
				if on := "power.batteries." + battery + ".greatest_a"; !facts.Depends(on, current) {
					t.Errorf("%s: %s does not depend on %s", id, on, current)
				}
				if on, cells := "power.loads."+string(ref)+".lowest_v", "/parts/"+battery+"/battery/cells_in_series"; !facts.Depends(on, cells) {
					t.Errorf("%s: %s does not depend on %s", id, on, cells)
				}
			}
		}
	}
}
