package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"

	"hoistbook/kits/manifest"
)

// A published schema: the Go type it is made from, and where it goes.
type published struct {
	name  string // schemas/NAME.schema.json
	title string
	root  reflect.Type
}

// publications lists every schema. Comments of the types' package become descriptions.
var publications = []published{
	{"manifest", "Build manifest of a moored-balloon radio relay", reflect.TypeFor[manifest.Document]()},
}

func generateSchemas() error {
	for _, p := range publications {
		text, err := p.text(root())
		if err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
		if err := os.WriteFile(filepath.Join(root(), p.file()), text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

func (p published) file() string { return "schemas/" + p.name + ".schema.json" }

// text makes the schema, indented, with the folder of the module to read comments from.
func (p published) text(module string) ([]byte, error) {
	schema, err := schemaOf(p.root, "https://hoistbook.example/"+p.file(), p.title, module)
	if err != nil {
		return nil, err
	}
	var text bytes.Buffer
	out := json.NewEncoder(&text)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	err = out.Encode(schema)
	return text.Bytes(), err
}

// kebab turns a Go name into the name of a definition: "LinearMass" into "linear-mass", "LiFePO4" stays readable.
func kebab(name string) string {
	var out strings.Builder
	for i, r := range name {
		if r >= 'A' && r <= 'Z' {
			if i > 0 && name[i-1] >= 'a' && name[i-1] <= 'z' {
				out.WriteByte('-')
			}
			r += 'a' - 'A'
		}
		out.WriteRune(r)
	}
	return out.String()
}
