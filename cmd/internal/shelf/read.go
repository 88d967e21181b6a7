package shelf

import (
	"bytes"
	"fmt"
	"os"
	"strings"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
)

// The beginnings of the formats of our files, and of manifests among them.
const (
	ours      = "hoistbook-"
	manifests = "hoistbook-manifest/"
)

// Read reads a file if it is a manifest, or means to be one: it says so, or it names a kit and has parts, or it is broken so
// that nobody can tell. Overlays, rule packs, schemas and whatever else is JSON are none.
func Read(path string) (s manifest.Source, is bool, err error) {
	info, err := os.Stat(path)
	if err != nil {
		return s, true, err
	}
	if info.Size() > jsontree.MaxBytes {
		return s, true, fmt.Errorf("%s: the file has %d bytes; at most %d are read", path, info.Size(), jsontree.MaxBytes)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return s, true, err
	}
	s = manifest.Source{Name: path, Data: data}
	if saysFirst(data) {
		return s, true, nil
	}
	tree, err := jsontree.Parse(path, data)
	if err != nil {
		return s, true, err
	}
	named := tree.At("/kit/id") != nil && tree.Get("parts") != nil
	if format := tree.Get("format"); format != nil && format.Kind == jsontree.String {
		return s, strings.HasPrefix(format.Text, manifests) || !strings.HasPrefix(format.Text, ours) && named, nil
	}
	return s, named, nil
}

// saysFirst spares most files a second reading: the first format that is named in them is that of manifests.
func saysFirst(data []byte) bool {
	_, rest, ok := bytes.Cut(data, []byte(`"format"`))
	rest = bytes.TrimLeft(rest, " \t\r\n:")
	return ok && bytes.HasPrefix(rest, []byte(`"`+manifests))
}
