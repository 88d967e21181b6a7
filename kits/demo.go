package kits

import (
	"embed"
	"path"
	"strings"

	"hoistbook/kits/manifest"
)

//go:embed demos/*.json
var demos embed.FS

// FirstDemo is the demonstration kit that commands take when they are given no manifest.
const FirstDemo = "fen-relay"

// Demos lists the ids of the embedded demonstration kits.
func Demos() []string {
	entries, err := demos.ReadDir("demos")
	if err != nil {
		panic("kits: " + err.Error()) // the folder is part of the program
	}
	ids := make([]string, len(entries))
	for i, e := range entries {
		ids[i] = strings.TrimSuffix(e.Name(), ".json")
	}
	return ids
}

// Demo returns a demonstration kit as the file that a club would share; ok is false when there is none of this id.
func Demo(id string) (s manifest.Source, ok bool) {
	data, err := demos.ReadFile(path.Join("demos", id+".json"))
	return manifest.Source{Name: "demo:" + id, Data: data}, err == nil
}
