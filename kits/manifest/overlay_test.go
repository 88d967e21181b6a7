package manifest_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/schemas"
)

// shared is a revision that clubs have, and later the one after it.
func shared(revision, mass, rest string) manifest.Source {
	return manifest.Source{Name: "kit.json", Data: []byte(`{
  "format": "hoistbook-manifest/1", "kit": { "id": "reed", "name": "Reed", "revision": "` + revision + `" },
  "parts": { "BAT1": { "name": "pack", "mass": "` + mass + `" }` + rest + ` }
}`)}
}

const ours = `{
  "format": "hoistbook-overlay/1",
  "made_for": { "id": "reed", "revision": "1.0.0", "values": { "/parts/BAT1/mass": "85 g", "/kit/maintainer": "" } },
  "kit": { "maintainer": "ours" },
  "parts": { "BAT1": { "mass": "95 g" } }
}`

func TestTheHeadOfAnOverlayIsNotLaid(t *testing.T) {
	base := shared("1.0.0", "85 g", "")
	headed := load(t, base, overlay(ours))
	bare := load(t, base, overlay(`{"kit": {"maintainer": "ours"}, "parts": {"BAT1": {"mass": "95 g"}}}`))
	if headed.Digest() != bare.Digest() {
		t.Errorf("the head is in the manifest: %s", headed.JSON())
	}
	layer := headed.Layers()[0]
	if layer.Name != "club.json" || layer.MadeFor.Revision != "1.0.0" || len(layer.Stale) != 0 {
		t.Errorf("the layer is %+v", layer)
	}
	var got []string
	for _, c := range layer.Changes {
		got = append(got, c.Pointer)
	}
	if want := []string{"/kit/maintainer", "/parts/BAT1/mass"}; !slices.Equal(got, want) {
		t.Errorf("the overlay changes %q, want %q", got, want)
	}
	if headed.Below("/parts/BAT1/mass").Text != "85 g" || headed.Below("/kit/maintainer") != nil || headed.Shared().Digest != manifest.Hash(load(t, base).Digest()) {
		t.Error("what lies below the overlay is gone")
	}
	if len(bare.Layers()[0].Stale) != 0 || bare.Layers()[0].MadeFor != nil || len(load(t, base).Layers()) != 0 {
		t.Error("an overlay that says nothing of itself is called stale")
	}
}

func TestOverlaysForAnotherRevision(t *testing.T) {
	for name, c := range map[string]struct {
		base manifest.Source
		want []string
	}{
		"the same":        {shared("1.0.0", "85 g", ""), nil},
		"another number":  {shared("1.1.0", "85 g", ""), []string{"made for revision 1.0.0, and this is 1.1.0"}},
		"the mass is new": {shared("1.1.0", "99 g", ""), []string{"made for revision 1.0.0", `said "85 g" here and says "99 g" now; decide whether "95 g" still holds`}},
		"it was adopted":  {shared("1.1.0", "95 g", ""), []string{"made for revision 1.0.0", `said "85 g" here and says "95 g" now`}},
	} {
		stale := load(t, c.base, overlay(ours)).Layers()[0].Stale
		if len(stale) != len(c.want) {
			t.Errorf("%s: got %q, want %q", name, stale, c.want)
			continue
		}
		for i, want := range c.want {
			if !strings.Contains(stale[i].String(), want) || stale[i].Place.File != "club.json" {
				t.Errorf("%s: got %q, want %q", name, stale[i], want)
			}
		}
	}
	again := overlay(`{"made_for": {"id": "reed", "revision": "1.0.0"}, "parts": {"BAT1": {"mass": "95 g"}}}`)
	if stale := load(t, shared("1.2.0", "95 g", ""), again).Layers()[0].Stale; len(stale) != 2 || !strings.Contains(stale[1].What, "says \"95 g\" itself now") {
		t.Errorf("what the shared kit says itself is told as %q", stale)
	}
	other := overlay(`{"made_for": {"id": "reed", "revision": "1.0.0", "digest": "sha256:` + strings.Repeat("0", 64) + `"}}`)
	if stale := load(t, shared("1.0.0", "85 g", ""), other).Layers()[0].Stale; len(stale) != 1 || !strings.Contains(stale[0].What, "without a new number") {
		t.Errorf("a revision that was changed without a new number is told as %q", stale)
	}
}

func TestOverlaysThatCannotBeLaid(t *testing.T) {
	for text, want := range map[string]string{
		`{"made_for": {"id": "fen", "revision": "1.0.0"}}`: `club.json:1:21: this overlay was made for the kit "fen", and the manifest is of the kit "reed"`,
		`{"made_for": {"id": "reed"}}`:                     `club.json:1:14: the key "revision" is missing`,
		`{"format": "hoistbook-overlay/2"}`:                `club.json:1:12: "hoistbook-overlay/2" is not one of the words that may stand here; did you mean "hoistbook-overlay/1"?`,
		`{"made_for": {"id": "reed", "revision": "0.9.0"}, "parts": {"BAT2": {"mass": "1 g"}}}`: `club.json:1:61: there is no part "BAT2" to change, and this overlay was made for revision 0.9.0; ` +
			`did you mean "BAT1"?`,
		`{"parts": {"PSU7": {"mass": "1 g"}}}`:                               `there is no part "PSU7" to change; take it out, or describe it whole`,
		`{"made_for": {"id": "reed", "revision": "1.0.0", "digest": "abc"}}`: `"abc" does not have the form that belongs here; write "sha256:" and 64`,
	} {
		_, err := manifest.Load(shared("1.0.0", "85 g", ""), overlay(text))
		if err == nil || !strings.Contains(err.Error(), want) || strings.Count(err.Error(), "\n") > 0 {
			t.Errorf("%s: got %v, want %s", text, err, want)
		}
	}
}

func TestIsOverlay(t *testing.T) {
	for text, want := range map[string]bool{
		ours: true, `{"parts": {}}`: true, `{"format": "hoistbook-manifest/1"}`: false, `{"kit": {"id": "a"}, "parts": {}}`: false,
		`{"format": "hoistbook-pack/1"}`: false, `[]`: false, `{`: false,
	} {
		if got := manifest.IsOverlay(overlay(text)); got != want {
			t.Errorf("%s: got %v, want %v", text, got, want)
		}
	}
}

// What a new overlay notes of the kit is what it takes to tell later that nothing has changed.
func TestSaidIsEnoughToTellChanges(t *testing.T) {
	m := load(t, full(t))
	text := `{"kit": {"name": "ours", "x-note": "n"}, "parts": {"TX1": {"mass": "1 g", "load": {"rated": "4 V to 6 V"}}, "ZZ1": {"name": "z"}}, "cautions": []}`
	patch, err := jsontree.Parse("patch", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	values := m.Said(patch)
	if len(values) != 3 || values["/kit/name"] != m.Kit.Name {
		t.Errorf("got %q", values)
	}
	head, err := json.Marshal(map[string]any{"made_for": manifest.MadeFor{ID: m.Kit.ID, Revision: "9.9.9", Values: values}})
	if err != nil {
		t.Fatal(err)
	}
	laid := load(t, full(t), overlay(strings.TrimSuffix(string(head), "}")+","+text[1:]))
	if stale := laid.Layers()[0].Stale; len(stale) != 1 {
		t.Errorf("only the revision is another one, and yet: %q", stale)
	}
}

func TestTheSchemaOfOverlays(t *testing.T) {
	for text, want := range map[string]bool{
		ours: true, `{}`: true, `{"parts": {"TX1": null}}`: true, `{"parts": {"TX1": {"mass": null, "x-a": 1}}}`: true,
		`{"station": {"site": {"hottest": "30 degC"}}}`: true, `{"station": {"wind": null}, "kit": {"serial": "7"}}`: true,
		`{"parts": {"TX1": {"mass": "1 m"}}}`: false, `{"parts": {"TX1": {"mas": "1 g"}}}`: false, `{"format": "hoistbook-manifest/1"}`: false,
		`{"parts": {"TX1": {"offers": [{"supplier": "S1", "price": "1.00"}]}}}`: true, `{"parts": {"TX1": {"offers": [{"supplier": "S1"}]}}}`: false,
		`{"made_for": {"id": "reed"}}`: false, `{"made_for": {"id": "reed", "revision": "1.0.0", "values": {"mass": "1 g"}}}`: false,
	} {
		tree, err := jsontree.Parse("club.json", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if wrong := schemas.Validate("overlay", tree.Any()); (len(wrong) == 0) != want {
			t.Errorf("%s: %v, want it to pass: %v", text, wrong, want)
		}
	}
}
