package kits_test

import (
	"fmt"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
)

// Overlays on the first demonstration kit, which is revision 1.5.0 in GBP, counted by hand.
func TestOverlaysByHand(t *testing.T) {
	for _, c := range []struct {
		name       string
		overlays   []string
		count      string // overlays, stale ones, their names
		relabelled bool
	}{
		{"none", nil, "0 0 none", false},
		{"one of this revision", []string{`{"made_for": {"id": "fen-relay", "revision": "1.5.0"}, "parts": {"BAT1": {"mass": "300 g"}}}`}, "1 0 none", false},
		{"one of another", []string{`{"made_for": {"id": "fen-relay", "revision": "1.3.0"}}`}, "1 1 a.json", false},
		{"this revision with another digest", []string{`{"made_for": {"id": "fen-relay", "revision": "1.5.0", "digest": "sha256:` + strings.Repeat("0", 64) + `"}}`}, "1 1 a.json", false},
		{"two old ones and one that does not say", []string{`{"made_for": {"id": "fen-relay", "revision": "1.0.0"}}`, `{}`, `{"made_for": {"id": "fen-relay", "revision": "2.0.0"}}`}, "3 2 a.json, c.json", false},
		{"another currency and the old prices", []string{`{"budget": {"currency": "EUR"}}`}, "1 0 none", true},
		{"another currency in one and a price in the next", []string{`{"budget": {"currency": "EUR"}}`, `{"budget": {"per_kit": "900.00"}}`}, "2 0 none", true},
		{"the same currency again", []string{`{"budget": {"currency": "GBP"}}`}, "1 0 none", false},
	} {
		source, _ := kits.Demo("fen-relay")
		var overlays []manifest.Source
		for i, text := range c.overlays {
			overlays = append(overlays, manifest.Source{Name: string(rune('a'+i)) + ".json", Data: []byte(text)})
		}
		m, err := manifest.Load(source, overlays...)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		facts := kits.Assess(m)
		text := func(id string) string {
			f, _ := facts.Find(id)
			return f.Value.Text
		}
		number := func(id string) string { return string(rune('0' + int(si(t, facts, id)))) }
		if got := number("kit.overlay_count") + " " + number("kit.stale_overlay_count") + " " + text("kit.stale_overlays"); got != c.count {
			t.Errorf("%s: got %s, want %s", c.name, got, c.count)
		}
		if f, _ := facts.Find("cost.relabelled"); !f.Value.Known() || f.Value.Yes != c.relabelled {
			t.Errorf("%s: relabelled %v, want %v", c.name, f.Value.Yes, c.relabelled)
		}
	}
}

// What belongs to a place and passes from one to the next is named, until an overlay says it; distances are not shown at all.
func TestWhatAMovedKitLeavesAsItWas(t *testing.T) {
	const moved = `{"station": {"site": {"name": "the hill", "elevation": "40 m"}}}`
	for name, c := range map[string]struct {
		overlays []string
		want     string
		known    bool // how far the power line is
	}{
		"at home":           {nil, "none", true},
		"another revision":  {[]string{`{"kit": {"revision": "9.0.0"}}`}, "none", true},
		"moved":             {[]string{moved}, "pressure, coldest air, hottest air, terrain, regional rules", false},
		"moved, and looked": {[]string{moved, `{"station": {"site": {"nearest_power_line": "300 m", "pressure": null}, "wind": {"terrain": "wooded"}, "rules": ["uk"]}}`}, "coldest air, hottest air", true},
	} {
		base, _ := kits.Demo("fen-relay")
		var overlays []manifest.Source
		for i, text := range c.overlays {
			overlays = append(overlays, manifest.Source{Name: fmt.Sprint("overlay ", i), Data: []byte(text)})
		}
		m, err := manifest.Load(base, overlays...)
		if err != nil {
			t.Fatal(err)
		}
		f := kits.Assess(m)
		if got, _ := f.Lookup("station.site_inherited"); got.Text != c.want {
			t.Errorf("%s: got %q, want %q", name, got.Text, c.want)
		}
		if got, _ := f.Lookup("station.nearest_power_line_m"); got.Known() != c.known || !c.known && !strings.Contains(got.Unknown, "overlay 0 moves the kit to another site") {
			t.Errorf("%s: the power line: got %+v", name, got)
		}
	}
}
