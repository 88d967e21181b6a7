package assess

import (
	"encoding/json"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// Whatever overlay and pack strangers lay over a demonstration kit: it is refused in words, or judged; a MUST that is not met
// is NO-GO, the report is JSON, and nothing in it is a number that is none.
func FuzzAssess(f *testing.F) {
	for _, overlay := range []string{
		`{}`, `{"parts": {"BAT1": null}}`, `{"station": {"wind": {"speed": "50 m/s"}}}`, `{"parts": {"TET1": {"tether": {"linear_mass": "0.000001 g/m", "diameter": "0.000001 mm"}}}}`,
		`{"station": {"site": {"coldest": "-60 degC", "hottest": "60 degC"}}, "parts": {"ENV1": {"envelope": {"fill_volume": "1000 m3", "largest_volume": "1000 m3"}}}}`,
		`{"station": {"duration": "0.001 s", "tether_out": "0.001 mm", "lowest_height": "0 m"}}`, `{"antennas": {"separation": "0.000001 mm"}, "coverage": {"fade_margin": "999999999999 dB"}}`,
		`{"parts": {"REG1": {"converter": {"efficiency": "0.000001 %", "output": "1000 V"}}}}`, `{"budget": {"currency": "JPY"}, "waivers": {"complete.label": "none"}}`,
	} {
		f.Add([]byte(overlay), []byte(`{"format": "hoistbook-pack/1", "id": "x", "title": "x"}`))
	}
	f.Add([]byte(`{}`), []byte(`{"format": "hoistbook-pack/1", "id": "x", "title": "x", "rules": [{"id": "x.x", "title": "x", "level": "must", "message": "{value} {limit} {margin}", "source": [{"work": "policy"}], "check": {"any": [{"fact": "wind.greatest_m_s", "at_least": "0 m/s"}, {"not": {"fact": "cost.kit", "at_most": "1"}}]}}]}`))
	built := packs.Texts()
	base, ok := kits.Demo(kits.FirstDemo)
	if !ok {
		f.Fatal("there is no demonstration kit")
	}
	f.Fuzz(func(t *testing.T, overlay, pack []byte) {
		m, err := manifest.Load(base, manifest.Source{Name: "overlay", Data: overlay})
		if err != nil {
			return // FuzzLoad of the manifest looks at what is said
		}
		ps, err := rules.Load(kits.Catalogue{}, append(built[:len(built):len(built)], rules.Text{Name: "pack", JSON: pack})...)
		if err != nil {
			return
		}
		a, err := Of(m, ps, unit.US)
		if err != nil {
			return
		}
		unmet := 0
		for _, finding := range a.Findings {
			if finding.Level == rules.Must && finding.Outcome != rules.Met {
				unmet++
			}
		}
		if (unmet > 0) == (a.Verdict == rules.Go) {
			t.Fatalf("%s with %d MUSTs that are not met", a.Verdict, unmet)
		}
		text, err := a.JSON()
		if err != nil || !json.Valid(text) {
			t.Fatalf("the report is %q (%v)", text, err)
		}
	})
}
