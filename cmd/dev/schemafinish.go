package main

import (
	"encoding"
	"encoding/json"
	"reflect"
	"strconv"
	"strings"

	"github.com/invopop/jsonschema"

	"hoistbook/kits/unit"
)

// notes lets keys that start with "x-" hold anything.
func notes() map[string]*jsonschema.Schema {
	return map[string]*jsonschema.Schema{"^x-": jsonschema.TrueSchema}
}

// finish walks the Go types along their definitions and adds what the reflector leaves out: notes, the form of a map's
// keys, and the tags of fields that refer to a definition.
func (g *generator) finish(t reflect.Type, def *jsonschema.Schema) {
	if g.done[t] {
		return
	}
	g.done[t] = true
	switch t.Kind() {
	case reflect.Struct:
		def.PatternProperties = notes()
		if t == conditionType {
			conditionForms(def)
		}
		for i := range t.NumField() {
			f := t.Field(i)
			name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			if property, ok := def.Properties.Get(name); ok {
				g.field(f, name, property)
			}
		}
	case reflect.Map:
		def.PatternProperties = notes()
		if key := g.text(t.Key()); key != nil && key.Enum != nil {
			def.PropertyNames = &jsonschema.Schema{AnyOf: []*jsonschema.Schema{{Enum: key.Enum}, {Pattern: "^x-"}}}
		} else if key != nil {
			def.PropertyNames = &jsonschema.Schema{Pattern: "^(x-.*|" + strings.TrimPrefix(key.Pattern, "^(")}
		}
		g.inside(t.Elem())
	}
}

// inside finishes what a type is made of.
func (g *generator) inside(t reflect.Type) {
	for t.Kind() == reflect.Pointer || t.Name() == "" && (t.Kind() == reflect.Slice || t.Kind() == reflect.Map) {
		t = t.Elem()
	}
	if def, ok := g.defs[defName(t)]; ok && def.Pattern == "" && def.Enum == nil && t != limitType {
		g.finish(t, def)
	}
}

// field adds a field's title, its tags and the units in which it is written.
func (g *generator) field(f reflect.StructField, name string, property *jsonschema.Schema) {
	g.inside(f.Type)
	property.Title = strings.ReplaceAll(strings.TrimPrefix(name, "$"), "_", " ")
	for tag := range strings.SplitSeq(strings.ReplaceAll(f.Tag.Get("jsonschema"), `\,`, "\x00"), ",") {
		key, value, _ := strings.Cut(strings.ReplaceAll(tag, "\x00", ","), "=")
		switch key {
		case "example":
			property.Examples = []any{example(f.Type, value)}
			if property.Items != nil { // the reflector takes a list's example for one of its items
				property.Items.Examples = nil
			}
		case "minProperties":
			g.table(f.Type, property).MinProperties = count(value)
		case "maxProperties":
			g.table(f.Type, property).MaxProperties = count(value)
		}
	}
	t := f.Type
	if t.Kind() == reflect.Map && t.Name() == "" {
		property.PatternProperties = notes()
	}
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	d, ok := rangeOf(t)
	if v, is := reflect.Zero(t).Interface().(interface{ Dimension() unit.Dimension }); is {
		d, ok = v.Dimension(), true
	}
	for _, bound := range []struct{ tag, words string }{{"above", "More than"}, {"least", "At least"}, {"most", "At most"}} {
		if limit, ok := f.Tag.Lookup(bound.tag); ok {
			property.Description += " " + bound.words + " " + limit + "."
		}
	}
	if ok && len(d.Symbols()) > 0 {
		property.Description += " Unit: " + strings.TrimPrefix(unitsOf(d), " in ") + "."
	}
}

// table is where the bounds of a map go: in its definition when it has one, for nothing that decides may stand beside a $ref.
func (g *generator) table(t reflect.Type, property *jsonschema.Schema) *jsonschema.Schema {
	if t.Name() == "" {
		return property
	}
	return g.defs[defName(t)]
}

// example gives an example its JSON type. That of a list or an object is written as JSON.
func example(t reflect.Type, text string) any {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch t.Kind() {
	case reflect.Int, reflect.Int64:
		return number(text)
	case reflect.Float64:
		if !reflect.PointerTo(t).Implements(textType) {
			return number(text)
		}
	case reflect.Bool:
		return text == "true"
	case reflect.Struct, reflect.Slice, reflect.Map:
		if strings.HasPrefix(text, "{") || strings.HasPrefix(text, "[") {
			return json.RawMessage(text)
		}
	}
	return text
}

// number writes a tag's number as JSON.
func number(text string) json.Number { return json.Number(text) }

func count(text string) *uint64 {
	n, err := strconv.ParseUint(text, 10, 32)
	if err != nil {
		panic("dev: tag: " + err.Error())
	}
	return &n
}

var textType = reflect.TypeFor[encoding.TextUnmarshaler]()
