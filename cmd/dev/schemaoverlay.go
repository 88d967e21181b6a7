package main

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"

	"github.com/invopop/jsonschema"

	"hoistbook/kits/manifest"
)

// documentType is what the schema of overlays is made from; what is its own stands in manifest.OverlayHead.
var documentType = reflect.TypeFor[manifest.Document]()

// overlaySchema turns the schema of manifests into that of the overlays that are laid over them (RFC 7396): nothing is
// required, every value may be taken away by null, and the head is the overlay's own. Lists are replaced whole, so what
// stands in them stays as it is.
func overlaySchema(module string) (*jsonschema.Schema, error) {
	schema, err := schemaOf(documentType, "", "", module)
	if err != nil {
		return nil, err
	}
	head, err := schemaOf(reflect.TypeFor[manifest.OverlayHead](), "", "", module)
	if err != nil {
		return nil, err
	}
	o := overlayer{from: schema.Definitions, to: jsonschema.Definitions{}}
	o.soften(schema)
	for name, def := range head.Definitions {
		if o.to[name] == nil {
			o.to[name] = def
		}
	}
	for pair := head.Properties.Oldest(); pair != nil; pair = pair.Next() {
		schema.Properties.Set(pair.Key, pair.Value)
	}
	schema.Definitions = o.to
	return schema, o.complete(schema)
}

// An overlayer copies the definitions that are changed under names of their own.
type overlayer struct{ from, to jsonschema.Definitions }

const changeSuffix = "-change"

// soften lets an object be said in part.
func (o *overlayer) soften(object *jsonschema.Schema) {
	object.Required, object.MinProperties = nil, nil
	if object.Properties != nil {
		for pair := object.Properties.Oldest(); pair != nil; pair = pair.Next() {
			pair.Value = o.orNull(pair.Value)
		}
	}
	if object.AdditionalProperties != nil && object.AdditionalProperties.Ref != "" {
		object.AdditionalProperties = o.orNull(object.AdditionalProperties)
	}
}

// orNull is a value that may be taken away. What is said of a property for people stays beside the choice.
func (o *overlayer) orNull(value *jsonschema.Schema) *jsonschema.Schema {
	either := &jsonschema.Schema{Title: value.Title, Description: value.Description, Examples: value.Examples}
	inner := *value
	inner.Title, inner.Description, inner.Examples = "", "", nil
	if name, ok := strings.CutPrefix(inner.Ref, "#/$defs/"); ok {
		inner.Ref = "#/$defs/" + o.change(name)
	} else {
		o.soften(&inner)
	}
	either.AnyOf = []*jsonschema.Schema{{Type: "null"}, &inner}
	return either
}

// change names the definition that says a thing in part, and makes it; a text can only be said whole.
func (o *overlayer) change(name string) string {
	def := o.from[name]
	if def.Type != "object" && def.Properties == nil && def.AdditionalProperties == nil {
		o.to[name] = def
		return name
	}
	changed := name + changeSuffix
	if o.to[changed] == nil {
		part := clone(def)
		o.to[changed] = part
		o.soften(part)
	}
	return changed
}

// complete adds the definitions that those which are kept refer to, until nothing is missing.
func (o *overlayer) complete(schema *jsonschema.Schema) error {
	for added := true; added; {
		text, err := json.Marshal(schema)
		if err != nil {
			return err
		}
		added = false
		for name, def := range o.from {
			if o.to[name] == nil && bytes.Contains(text, []byte(`"#/$defs/`+name+`"`)) {
				o.to[name], added = def, true
			}
		}
	}
	return nil
}

// clone copies a definition and its properties.
func clone(def *jsonschema.Schema) *jsonschema.Schema {
	copied := *def
	if def.Properties != nil {
		copied.Properties = jsonschema.NewProperties()
		for pair := def.Properties.Oldest(); pair != nil; pair = pair.Next() {
			value := *pair.Value
			copied.Properties.Set(pair.Key, &value)
		}
	}
	return &copied
}
