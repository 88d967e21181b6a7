package walk

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

// A Kit is what is walked through, by what rules, in which units.
type Kit struct {
	Manifest *manifest.Manifest
	Packs    rules.Packs
	System   unit.System
	Program  string // the program and its version, for the record
}

// The lists. Those that end with the balloon in the air decide by the rules; the way home only asks whether everything is done.
const (
	Preflight = "preflight"
	Change    = crew.Change // down for a fresh battery or gas, and up again
	Recovery  = "recovery"
)

var units = map[unit.System]string{unit.SI: "si", unit.US: "us"}

func (k *Kit) opening() (*Opening, error) {
	digest, err := Digest(k.Packs)
	m := k.Manifest
	return &Opening{
		Format: Format, Program: k.Program, Units: units[k.System], Rules: digest, Kit: string(m.Kit.ID), Name: m.Kit.Name,
		Revision: string(m.Kit.Revision), Digest: m.Digest(), Manifest: m.JSON(),
	}, err
}

// Digest identifies packs by all that they say: records are gone on with by the rules they were begun with.
func Digest(packs rules.Packs) (string, error) {
	h := sha256.New()
	for _, p := range packs {
		text, err := p.Node.Canonical()
		if err != nil {
			return "", fmt.Errorf("pack %s: %w", p.ID, err)
		}
		h.Write(text)
		h.Write([]byte{0})
	}
	return "sha256:" + hex.EncodeToString(h.Sum(nil)), nil
}

// KitOf takes the kit out of a record's opening. The packs must be those that the record was begun with.
func KitOf(o *Opening, packs rules.Packs, program string) (*Kit, error) {
	m, err := manifest.Load(manifest.Source{Name: "the record's manifest", Data: o.Manifest})
	if err != nil {
		return nil, err
	}
	if m.Digest() != o.Digest {
		return nil, fmt.Errorf("the record's manifest has the digest %s, and the record says %s", m.Digest(), o.Digest)
	}
	digest, err := Digest(packs)
	if err != nil {
		return nil, err
	}
	if digest != o.Rules {
		return nil, fmt.Errorf("the record was begun with other rules (%.19s) than those at hand (%.19s); go on with the program (%s) and the packs that began it, or begin a new record",
			o.Rules, digest, o.Program)
	}
	system, err := unit.ParseSystem(o.Units)
	return &Kit{Manifest: m, Packs: packs, System: system, Program: program}, err
}
