package kits

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/fact"
)

// suffixes are the units that the ids of facts end with.
var suffixes = map[string]string{
	"_pa": "Pa", "_kg_m3": "kg/m3", "_m3": "m3", "_kg": "kg", "_m_s": "m/s", "_n": "N", "_m": "m", "_deg": "deg", "_w": "W", "_wh": "Wh", "_h": "h",
	"_v": "V", "_a": "A", "_km": "km", "_db": "dB", "_min": "min", "_k": "K", "_d": "d", "_mhz": "MHz", "_j": "J",
}

func TestCatalogueIsComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range catalogue {
		if seen[e.ID] {
			t.Errorf("%s stands twice", e.ID)
		}
		seen[e.ID] = true
		if e.Title == "" || e.Formula == "" || len(e.Sources) == 0 {
			t.Errorf("%s: a fact has a title, a formula and a source; got %q, %q, %v", e.ID, e.Title, e.Formula, e.Sources)
		}
		if strings.Contains(e.ID, "*") != (e.family != nil) {
			t.Errorf("%s: a star and a family go together", e.ID)
		}
		if e.family != nil && !slices.Contains(families, e.family) {
			t.Errorf("%s: its family %q is not in the list of families", e.ID, e.family.id)
		}
		if e.Kind != fact.Number {
			continue
		}
		if e.Unit != "" && e.Unit != "%" && suffixOf(e.ID) != e.Unit {
			t.Errorf("%s is given in %q, and its name says %q", e.ID, e.Unit, suffixOf(e.ID))
		}
		if e.Unit != "" && !slices.Contains(e.Dim.Symbols(), e.Unit) {
			t.Errorf("%s: %s is not given in %q", e.ID, e.Dim, e.Unit)
		}
	}
}

// suffixOf finds the unit that an id ends with: that of its longest known ending.
func suffixOf(id string) string {
	best := ""
	for s := range suffixes {
		if strings.HasSuffix(id, s) && len(s) > len(best) {
			best = s
		}
	}
	return suffixes[best]
}

// The names that the reports promise.
var promised = strings.Fields(`
	air.pressure_pa air.density_hot_kg_m3 air.density_cold_kg_m3 gas.density_hot_kg_m3 gas.fill_m3 gas.cylinders
	mass.aloft_kg mass.aloft_worst_kg mass.envelope_worst_kg mass.tether_worst_kg
	lift.gross_kg lift.gross_end_kg lift.neck_kg lift.neck_needed_kg lift.free_kg lift.free_end_kg
	wind.at_balloon_m_s wind.balloon_drag_n wind.greatest_m_s
	tether.height_m tether.drift_m tether.lean_deg tether.tension_top_n tether.tension_ground_n tether.tension_peak_n tether.working_load_n
	anchor.mass_needed_kg power.average_w power.usable_wh power.endurance_h power.battery_changes
	power.rails.*.lowest_v power.rails.*.highest_v power.rails.*.greatest_a power.loads.*.lowest_v power.loads.*.highest_v
	power.converters.*.greatest_a power.converters.*.dissipation_w
	radio.horizon_km radio.coverage_km radio.links.*.up_km radio.links.*.down_km radio.isolation_needed_db radio.isolation_available_db
	radio.exposure.*.public_m radio.exposure.*.trained_m cost.kit cost.budget`)

func TestCataloguePromises(t *testing.T) {
	for _, id := range promised {
		if _, ok := (Catalogue{}).Describe(id); !ok {
			t.Errorf("%s is missing", id)
		}
	}
}

// A fact that is defined and not listed would be computed for others and never shown.
func TestEveryFactIsListed(t *testing.T) {
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	makers := []string{"quantity", "member", "word", "yesNo", "money", "counting"}
	defined := 0
	for _, name := range names {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, decl := range file.Decls {
			vars, ok := decl.(*ast.GenDecl)
			if !ok || vars.Tok != token.VAR {
				continue
			}
			for _, spec := range vars.Specs {
				for _, value := range spec.(*ast.ValueSpec).Values {
					if call, ok := value.(*ast.CallExpr); ok {
						if name, ok := call.Fun.(*ast.Ident); ok && slices.Contains(makers, name.Name) {
							defined++
						}
					}
				}
			}
		}
	}
	if defined != len(catalogue) {
		t.Errorf("%d facts are defined and %d are in the catalogue", defined, len(catalogue))
	}
}

func TestDescribe(t *testing.T) {
	for id, want := range map[string]bool{
		"lift.gross_kg": true, "power.loads.*.lowest_v": true, "power.loads.TX1.lowest_v": true, "power.loads.TX1.X.lowest_v": false,
		"power.loads..lowest_v": false, "lift.gross": false, "": false, "gas.kind": true,
	} {
		if _, ok := (Catalogue{}).Describe(id); ok != want {
			t.Errorf("%q: got %v, want %v", id, ok, want)
		}
	}
}
