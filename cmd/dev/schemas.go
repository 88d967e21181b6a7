package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"

	"github.com/invopop/jsonschema"

	"hoistbook/cmd/internal/asbuilt"
	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/purchase"
	"hoistbook/cmd/internal/truth"
	"hoistbook/render/change"
	"hoistbook/rules"
)

// A published schema: the Go type it is made from, and where it goes.
type published struct {
	name  string // schemas/NAME.schema.json
	title string
	root  reflect.Type
	make  func(module string) (*jsonschema.Schema, error) // nil: from the type alone
}

// publications lists every schema. Comments of the types' package become descriptions.
var publications = []published{
	{"manifest", "Build manifest of a moored-balloon radio relay", documentType, nil},
	{"overlay", "Overlay of a club on a shared build manifest", documentType, overlaySchema},
	{"pack", "Pack of rules, checklist items, cautions and notices", reflect.TypeFor[rules.Pack](), nil},
	{"report", "Report on a kit, as check --json prints it, one a line", reflect.TypeFor[assess.Report](), nil},
	{"order", "Order for a number of kits, as order --json prints it", reflect.TypeFor[purchase.Report](), nil},
	{"comparison", "Comparison of two kits, as compare --json prints it", reflect.TypeFor[change.Report](), nil},
	{"weighing", "Readings of built copies against the design, as weigh --json prints it", reflect.TypeFor[asbuilt.Report](), nil},
	{"verification", "Verification of a book, as verify --json prints it", reflect.TypeFor[truth.Verification](), nil},
}

func generateSchemas() error {
	for _, p := range publications {
		files, err := p.files(root())
		if err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
		for name, text := range files {
			if err := os.WriteFile(filepath.Join(root(), name), text, 0o644); err != nil {
				return err
			}
		}
	}
	return nil
}

// files makes the published schema and its lean form, by their names in the module, from whose folder comments are read.
func (p published) files(module string) (map[string][]byte, error) {
	if p.make == nil {
		p.make = func(module string) (*jsonschema.Schema, error) { return schemaOf(p.root, "", "", module) }
	}
	schema, err := p.make(module)
	if err != nil {
		return nil, err
	}
	schema.ID, schema.Title = jsonschema.ID("https://hoistbook.example/schemas/"+p.name+".schema.json"), p.title
	var text bytes.Buffer
	out := json.NewEncoder(&text)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	if err := out.Encode(schema); err != nil {
		return nil, err
	}
	short, err := lean(text.Bytes())
	return map[string][]byte{"schemas/" + p.name + ".schema.json": text.Bytes(), "schemas/lean/" + p.name + ".json": short}, err
}

// kebab turns a Go name into the name of a definition: "LinearMass" into "linear-mass".
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
