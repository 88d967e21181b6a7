// Package starter has what a club begins with: a manifest that flies, an overlay with its own site and prices, a rule
// pack of its own, and the schemas with which an editor completes all of them.
package starter

import (
	"bytes"
	"embed"
	"fmt"
	"path/filepath"

	"hoistbook/cmd/internal/whole"
	"hoistbook/kits"
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

// Files lists the files of a starter folder made from a demonstration kit.
func Files(dir, demo string) ([]whole.File, error) {
	s, ok := kits.Demo(demo)
	if !ok {
		return nil, fmt.Errorf("there is no demonstration kit %q", demo)
	}
	list := []whole.File{{Path: filepath.Join(dir, Manifest), Data: local(s.Data)}}
	for _, name := range []string{Overlay, Pack} {
		data, err := files.ReadFile("files/" + name)
		if err != nil {
			return nil, err
		}
		list = append(list, whole.File{Path: filepath.Join(dir, name), Data: data})
	}
	for _, name := range schemas.Names() {
		text, _ := schemas.Text(name)
		list = append(list, whole.File{Path: filepath.Join(dir, name+".schema.json"), Data: text})
	}
	return list, nil
}

// local makes the manifest point to the schema beside it.
func local(manifest []byte) []byte {
	return bytes.Replace(manifest, []byte(`"../../schemas/`), []byte(`"`), 1)
}
