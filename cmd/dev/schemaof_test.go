package main

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// A tray is a type with one of everything that the generator treats in its own way.
type tray struct {
	Mass  *unit.Mass                `json:"mass,omitempty" jsonschema:"example=85 g" most:"2 kg"`
	Span  *unit.Range[unit.Voltage] `json:"span_of_supply,omitempty"`
	Price unit.Decimal              `json:"price" jsonschema:"example=4.20"`
	Raw   *jsontree.Node            `json:"raw,omitempty"`
	Shelf map[string]shelf          `json:"shelf,omitempty" jsonschema:"maxProperties=3"`
	Codes codes                     `json:"codes,omitempty" jsonschema:"minProperties=1"`
	Many  []shelf                   `json:"many,omitempty" jsonschema:"minItems=1"`
	Node  *jsontree.Node            `json:"-"`
}

type shelf struct {
	Lit bool `json:"lit,omitempty" jsonschema:"example=true"`
}

type code string

func (code) Pattern() string { return `[A-Z]|none` }
func (code) Form() string    { return "a letter" }

type state string

func (state) Words() []string { return []string{"on", "off"} }

type codes map[state]code

func TestSchemaOf(t *testing.T) {
	schema, err := schemaOf(reflect.TypeFor[tray](), "https://hoistbook.example/schemas/tray.schema.json", "A tray", root())
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(schema)
	if err != nil {
		t.Fatal(err)
	}
	tree, err := jsontree.Parse("schema", text)
	if err != nil {
		t.Fatal(err)
	}
	for pointer, want := range map[string]string{
		"/$id":                                `"https://hoistbook.example/schemas/tray.schema.json"`,
		"/title":                              `"A tray"`,
		"/required":                           `["price"]`,
		"/additionalProperties":               `false`,
		"/patternProperties":                  `{"^x-":true}`,
		"/properties/mass/$ref":               `"#/$defs/mass"`,
		"/properties/mass/examples":           `["85 g"]`,
		"/properties/mass/description":        `" At most 2 kg. Unit: kg, g, oz or lb."`,
		"/properties/span_of_supply/title":    `"span of supply"`,
		"/$defs/voltage-range/pattern":        `"^(-?[0-9]{1,12}(\\.[0-9]+)? ?(V|mV) to -?[0-9]{1,12}(\\.[0-9]+)? ?(V|mV))$"`,
		"/properties/raw":                     `{"title":"raw"}`,
		"/properties/shelf/maxProperties":     `3`,
		"/properties/shelf/patternProperties": `{"^x-":true}`,
		"/$defs/shelf/patternProperties":      `{"^x-":true}`,
		"/$defs/codes/minProperties":          `1`,
		"/$defs/codes/propertyNames":          `{"anyOf":[{"enum":["on","off"]},{"pattern":"^x-"}]}`,
		"/$defs/code/pattern":                 `"^([A-Z]|none)$"`,
	} {
		got := "nothing"
		if n := tree.At(pointer); n != nil {
			got = string(n.JSON())
		}
		if got != want {
			t.Errorf("%s is %s, want %s", pointer, got, want)
		}
	}
	if strings.Contains(string(text), "Node") {
		t.Error("a field with the tag - is published")
	}
	if _, err := lean(text); err != nil {
		t.Error(err)
	}
}
