// Package starter has what people begin with: a manifest with notes that say what belongs where, an overlay for a club's own
// site, prices and masses, a rule pack of its own, and the schemas with which an editor completes all of them.
//
// A designer begins with a manifest of his own: the example of a demonstration kit, or the same without its numbers. A club
// that was given a kit begins with that kit as it is, byte for byte, so that a signature stays good, and with an overlay.
package starter

import (
	"embed"
	"path/filepath"

	"hoistbook/cmd/internal/whole"
	"hoistbook/kits/manifest"
	"hoistbook/schemas"
)

//go:embed files
var files embed.FS

// The names of the files in a starter folder.
const (
	Manifest = "kit.json"
	Overlay  = "our-club.json"
	Pack     = "our-rules.json"
)

// Answers are what somebody says of the kit to be. Empty is not said.
type Answers struct {
	ID, Name, Maintainer, Licence, Currency, Region string
	Site, PowerLine, Airfield                       string // what the place is called, and how far away these are
	Blank                                           bool   // without the example's numbers
}

// Begin makes the files of somebody's own kit from the example of a demonstration kit.
func Begin(dir string, example manifest.Source, a Answers) ([]whole.File, error) {
	text, err := own(example, a)
	if err != nil {
		return nil, err
	}
	return folder(dir, manifest.Source{Name: Manifest, Data: text}, a, false)
}

// Adopt makes the files of a club that was given a kit; signature is nil where there was none.
func Adopt(dir string, kit manifest.Source, signature []byte, a Answers) ([]whole.File, error) {
	list, err := folder(dir, manifest.Source{Name: Manifest, Data: kit.Data}, a, true)
	if err == nil && signature != nil {
		list = append(list, whole.File{Path: filepath.Join(dir, Manifest+".sig"), Data: signature})
	}
	return list, err
}

// folder lists the files of a starter folder.
func folder(dir string, kit manifest.Source, a Answers, shared bool) ([]whole.File, error) {
	m, err := manifest.Load(kit)
	if err != nil {
		return nil, err
	}
	overlay, err := overlay(m, a, shared)
	if err != nil {
		return nil, err
	}
	pack, err := files.ReadFile("files/" + Pack)
	if err != nil {
		return nil, err
	}
	list := []whole.File{{Path: filepath.Join(dir, Manifest), Data: kit.Data}, {Path: filepath.Join(dir, Overlay), Data: overlay}, {Path: filepath.Join(dir, Pack), Data: pack}}
	for _, name := range []string{"manifest", "overlay", "pack"} { // what people write; the others are of what programs print
		text, _ := schemas.Text(name)
		list = append(list, whole.File{Path: filepath.Join(dir, name+".schema.json"), Data: text})
	}
	return list, nil
}
