package asbuilt

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A Copy is one built copy of a kit by its serial number.
type Copy struct {
	Serial   string
	Readings []Reading
}

// Overlay is the overlay of a copy on a manifest, as people read it.
func (c Copy) Overlay(m *manifest.Manifest) (manifest.Source, error) {
	name := FileName(c.Serial)
	parts := map[string]any{}
	for _, r := range c.Readings {
		if m.Parts[r.Ref].Tether != nil {
			parts[string(r.Ref)] = map[string]any{"tether": map[string]any{"linear_mass": written(r.Mass, "g/m")}, "mass_basis": manifest.Weighed, "x-read": r.Text}
			continue
		}
		parts[string(r.Ref)] = map[string]any{"mass": written(r.Mass, "g"), "mass_basis": manifest.Weighed, "mass_allowance": nil, "x-read": r.Text}
		if m.Parts[r.Ref].MassAllowance == nil {
			delete(parts[string(r.Ref)].(map[string]any), "mass_allowance")
		}
	}
	patch := map[string]any{"kit": map[string]any{"serial": c.Serial}, "parts": parts}
	text, err := json.Marshal(patch)
	if err != nil {
		return manifest.Source{}, err
	}
	tree, err := jsontree.Parse(name, text)
	if err != nil {
		return manifest.Source{}, err
	}
	made := m.Shared()
	made.Values = m.Said(tree)
	text, err = json.MarshalIndent(struct {
		Schema  string                 `json:"$schema"`
		Format  manifest.OverlayFormat `json:"format"`
		Note    string                 `json:"x-note"`
		MadeFor manifest.MadeFor       `json:"made_for"`
		Kit     any                    `json:"kit"`
		Parts   any                    `json:"parts"`
	}{"overlay.schema.json", manifest.OverlayFormat1, "the masses of copy " + c.Serial + ", from the scale", made, patch["kit"], parts}, "", "  ")
	return manifest.Source{Name: name, Data: append(text, '\n')}, err
}

// FileName is what the overlay of a copy is called.
func FileName(serial string) string { return "as-built-" + serial + ".json" }

// CheckSerial refuses a serial number that no file can be named after.
func CheckSerial(serial string) error {
	for _, r := range serial {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_' || r == '.') {
			return fmt.Errorf("the serial number %q names a file; write letters, digits, \"-\", \"_\" and \".\"", serial)
		}
	}
	if serial == "" || serial[0] == '.' || serial[0] == '-' || len(serial) > 40 {
		return fmt.Errorf("%q is no serial number; write one of at most 40 letters and digits, such as 0007", serial)
	}
	return nil
}

// written is a mass in the unit that scales show, to six figures: more than any of them has.
func written(q unit.Quantity, symbol string) string {
	n := q.In(symbol)
	decimals := max(0, 5-int(math.Floor(math.Log10(n))))
	text := strconv.FormatFloat(n, 'f', min(decimals, 9), 64)
	short, err := strconv.ParseFloat(text, 64)
	if err == nil {
		text = strconv.FormatFloat(short, 'f', -1, 64)
	}
	return text + " " + symbol
}
