package starter

import (
	"bytes"
	"cmp"
	"encoding/json"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
)

// about is the note in a starter overlay.
const about = "An overlay (JSON merge patch, RFC 7396): only what differs from kit.json. Lay it on with --with our-club.json; null takes a value away. " +
	"Your own price of a part: \"parts\": { \"BAT1\": { \"offers\": [{ \"supplier\": \"S1\", \"price\": \"31.00\" }] } } — a list is replaced whole. " +
	"Your own mass: \"parts\": { \"BAT1\": { \"mass\": \"301 g\", \"mass_basis\": \"weighed\" } } — or let hoistbook weigh write it. " +
	"Your own site: \"station\": { \"site\": { \"name\": \"the mill meadow\", \"nearest_power_line\": \"350 m\", \"nearest_airfield\": \"11 km\" } } — the distances of the shared kit's site stay behind with it, and without yours the verdict is NO-GO."

// overlay is a club's overlay on a kit, with its head: which revision it was made for, and what the kit said where it says something
// else. On a shared kit it knows the digest too; one's own kit changes every day.
func overlay(m *manifest.Manifest, a Answers, shared bool) ([]byte, error) {
	maintainer := "our club"
	if shared {
		maintainer = cmp.Or(a.Maintainer, maintainer)
	}
	patch, station := map[string]any{"kit": map[string]string{"maintainer": maintainer}}, map[string]any{}
	if site := a.site(); shared && site != nil {
		station["site"] = site
	}
	if shared && a.Region != "" {
		station["rules"] = []string{a.Region}
	}
	if len(station) > 0 {
		patch["station"] = station
	}
	text, err := json.Marshal(patch)
	if err != nil {
		return nil, err
	}
	tree, err := jsontree.Parse(Overlay, text)
	if err != nil {
		return nil, err
	}
	made := m.Shared()
	made.Values = m.Said(tree)
	if !shared {
		made.Digest = ""
	}
	var b bytes.Buffer
	out := json.NewEncoder(&b)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	err = out.Encode(struct {
		Schema  string                 `json:"$schema"`
		Format  manifest.OverlayFormat `json:"format"`
		Note    string                 `json:"x-note"`
		MadeFor manifest.MadeFor       `json:"made_for"`
		Kit     any                    `json:"kit"`
		Station any                    `json:"station,omitempty"`
	}{"overlay.schema.json", manifest.OverlayFormat1, about, made, patch["kit"], patch["station"]})
	return b.Bytes(), err
}
