package manifest_test

import (
	"slices"
	"testing"

	"hoistbook/kits/manifest"
)

func TestOverlaidListsWhatOverlaysSay(t *testing.T) {
	m := load(t, full(t), overlay(`{"kit": {"name": "ours"}, "parts": {"ZZ9": {"name": "new", "place": "ground"}}}`))
	want := []string{"/kit/name", "/parts/ZZ9/name", "/parts/ZZ9/place"}
	if got := m.Overlaid(); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := load(t, full(t)).Overlaid(); len(got) != 0 {
		t.Errorf("without an overlay: got %q, want none", got)
	}
}

// What was measured at one site says nothing about another one, whatever the file it is read from later.
func TestAMovedKitLeavesTheDistancesOfItsSiteBehind(t *testing.T) {
	const power, field = "/station/site/nearest_power_line", "/station/site/nearest_airfield"
	for name, c := range map[string]struct {
		overlays []string
		gone     []string
	}{
		"not moved":                 {[]string{`{"kit": {"name": "ours"}}`}, nil},
		"the same name":             {[]string{`{"station": {"site": {"name": "the old landing stage"}}}`}, nil},
		"another name":              {[]string{`{"station": {"site": {"name": "the hill"}}}`}, []string{power, field}},
		"another elevation":         {[]string{`{"station": {"site": {"elevation": "480 m"}}}`}, []string{power, field}},
		"the name taken away":       {[]string{`{"station": {"site": {"name": null}}}`}, []string{power, field}},
		"one said again":            {[]string{`{"station": {"site": {"name": "the hill", "nearest_power_line": "300 m"}}}`}, []string{field}},
		"said by a later overlay":   {[]string{`{"station": {"site": {"name": "the hill"}}}`, `{"station": {"site": {"nearest_power_line": "400 m"}}}`}, []string{field}},
		"said by an earlier one":    {[]string{`{"station": {"site": {"nearest_power_line": "400 m"}}}`, `{"station": {"site": {"name": "the hill"}}}`}, []string{power, field}},
		"a later overlay elsewhere": {[]string{`{"station": {"site": {"name": "the hill"}}}`, `{"kit": {"name": "ours"}}`}, []string{power, field}},
	} {
		var overlays []manifest.Source
		for _, text := range c.overlays {
			overlays = append(overlays, overlay(text))
		}
		m := load(t, full(t), overlays...)
		again := load(t, manifest.Source{Name: "merged.json", Data: m.JSON()})
		for _, pointer := range []string{power, field} {
			if want := !slices.Contains(c.gone, pointer); m.Has(pointer) != want || again.Has(pointer) != want {
				t.Errorf("%s: %s: is there %v, merged and read again %v, want %v", name, pointer, m.Has(pointer), again.Has(pointer), want)
			}
			if by, left := m.LeftBehind(pointer); left == m.Has(pointer) || left && by == "" {
				t.Errorf("%s: %s: left behind %v by %q", name, pointer, left, by)
			}
		}
	}
}

// A reason to do without something was given for a place: at another one it is given again or does not count.
func TestAMovedKitLeavesTheWaiversOfItsSiteBehind(t *testing.T) {
	const waived = "/waivers/balloon.comes-down"
	base := manifest.Source{Name: "base.json", Data: load(t, full(t), overlay(`{"waivers": {"balloon.comes-down": "nobody walks in this marsh"}}`)).JSON()}
	for name, c := range map[string]struct {
		overlays []string
		stays    bool
	}{
		"not moved":        {[]string{`{"kit": {"name": "ours"}}`}, true},
		"moved":            {[]string{`{"station": {"site": {"name": "the quarry"}}}`}, false},
		"given again":      {[]string{`{"station": {"site": {"name": "the quarry"}}, "waivers": {"balloon.comes-down": "the quarry is fenced"}}`}, true},
		"given afterwards": {[]string{`{"station": {"site": {"name": "the quarry"}}}`, `{"waivers": {"balloon.comes-down": "the quarry is fenced"}}`}, true},
	} {
		var overlays []manifest.Source
		for _, text := range c.overlays {
			overlays = append(overlays, overlay(text))
		}
		if m := load(t, base, overlays...); m.Has(waived) != c.stays {
			t.Errorf("%s: the waiver is there %v, want %v", name, m.Has(waived), c.stays)
		}
	}
}
