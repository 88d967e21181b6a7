// Package packs holds the built-in packs: rules, checklist items, cautions and notices as JSON, one topic a file. The
// regional ones are paraphrases of dated copies of the law; each of their entries says to verify it against the current
// text.
package packs

import (
	"embed"
	"fmt"
	"slices"

	"hoistbook/rules"
)

//go:embed *.json
var files embed.FS

// order is that of findings and documents: first what flies, then what it carries, then the law of the land.
var order = []string{
	"complete", "claims", "mass-and-lift", "tether-and-wind", "power", "endurance", "radio", "exposure", "cost", "generic", "us", "uk", "de", "au",
}

// BuiltIn reports whether the pack with this id is one of them, and not a club's own.
func BuiltIn(id string) bool { return slices.Contains(order, id) }

// Texts returns the built-in packs in their order, as they stand in their files.
func Texts() []rules.Text {
	texts := make([]rules.Text, len(order))
	for i, id := range order {
		name := id + ".json"
		text, err := files.ReadFile(name)
		if err != nil {
			panic(fmt.Sprintf("packs: %v", err)) // the files are part of the program
		}
		texts[i] = rules.Text{Name: "rules/packs/" + name, JSON: text}
	}
	return texts
}
