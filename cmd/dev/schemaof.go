package main

import (
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"github.com/invopop/jsonschema"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// schemaOf makes the JSON Schema (2020-12) of a Go type as jsontree.Bind reads it: json tags name the keys, those without
// omitempty are required, jsonschema tags bound the values, comments explain them. A type with a Words method is one of
// those words, one with a Pattern method has that form, a quantity has its number and units. Keys that start with "x-"
// are free everywhere.
func schemaOf(root reflect.Type, id, title, module string) (*jsonschema.Schema, error) {
	g := generator{defs: jsonschema.Definitions{}, done: map[reflect.Type]bool{}}
	g.reflector = jsonschema.Reflector{ExpandedStruct: true, Anonymous: true, Namer: defName, Mapper: g.special}
	for _, of := range packages(root) {
		if err := addComments(&g.reflector, of, module); err != nil {
			return nil, err
		}
	}
	schema := g.reflector.ReflectFromType(root)
	for name, def := range schema.Definitions {
		g.defs[name] = def
	}
	g.finish(root, schema)
	schema.ID, schema.Title, schema.Definitions = jsonschema.ID(id), title, g.defs
	return schema, nil
}

// packages finds a type of each of our packages that a type is made of.
func packages(root reflect.Type) []reflect.Type {
	var found []reflect.Type
	seen := map[reflect.Type]bool{}
	var visit func(t reflect.Type)
	visit = func(t reflect.Type) {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
			t = t.Elem()
		}
		if seen[t] || t.Kind() != reflect.Struct || !strings.HasPrefix(t.PkgPath(), "hoistbook") {
			return
		}
		seen[t] = true
		if !slices.ContainsFunc(found, func(have reflect.Type) bool { return have.PkgPath() == t.PkgPath() }) {
			found = append(found, t)
		}
		for i := range t.NumField() {
			visit(t.Field(i).Type)
		}
	}
	visit(root)
	return found
}

// addComments reads the comments of the package that a type belongs to.
func addComments(r *jsonschema.Reflector, of reflect.Type, module string) error {
	dir := filepath.Join(module, strings.TrimPrefix(of.PkgPath(), "hoistbook"))
	if err := r.AddGoComments("", dir, jsonschema.WithFullComment()); err != nil {
		return err
	}
	for key, text := range r.CommentMap { // the reflector knows the folder and not the import path
		if rest, ok := strings.CutPrefix(key, dir+"."); ok {
			r.CommentMap[of.PkgPath()+"."+rest] = sentence(rest, strings.Join(strings.Fields(text), " "))
		}
	}
	return nil
}

// sentence takes the Go name off the front of a comment: "Anchor is the facet …" becomes "The facet …", and "ID names the
// rule" becomes "Names the rule".
func sentence(name, comment string) string {
	name = name[strings.LastIndexByte(name, '.')+1:]
	for _, article := range []string{"A ", "An "} {
		if rest, ok := strings.CutPrefix(comment, article); ok && strings.HasPrefix(rest, name+" ") {
			comment = rest
		}
	}
	for _, front := range []string{" is ", " are ", " "} {
		if rest, ok := strings.CutPrefix(comment, name+front); ok {
			return strings.ToUpper(rest[:1]) + rest[1:]
		}
	}
	return comment
}

// A generator adds to what the reflector knows.
type generator struct {
	reflector jsonschema.Reflector
	defs      jsonschema.Definitions
	done      map[reflect.Type]bool
}

// A form is a type of text with a pattern.
type form interface {
	Pattern() string
	Form() string
}

type vocabulary interface{ Words() []string }

// special gives the schema of types that the reflector would take for plain texts and structs. It must return a new one
// each time: the reflector writes the field's own keywords into it.
func (g *generator) special(t reflect.Type) *jsonschema.Schema {
	if t == reflect.TypeFor[jsontree.Node]() {
		return &jsonschema.Schema{} // anything
	}
	def := g.text(t)
	if def == nil {
		return nil
	}
	if def.Description == "" {
		def.Description = g.reflector.CommentMap[t.PkgPath()+"."+t.Name()]
	}
	name := defName(t)
	g.defs[name] = def
	return &jsonschema.Schema{Ref: "#/$defs/" + name}
}

// text returns the schema of a type of text that has a form, or nil.
func (g *generator) text(t reflect.Type) *jsonschema.Schema {
	if t == limitType {
		return limitSchema()
	}
	switch v := reflect.Zero(t).Interface().(type) {
	case vocabulary:
		def := &jsonschema.Schema{Type: "string"}
		for _, word := range v.Words() {
			def.Enum = append(def.Enum, word)
		}
		return def
	case form:
		return matching(v.Pattern(), "")
	case unit.Decimal:
		return matching(unit.DecimalPattern, "an exact decimal number, without sign and exponent")
	case unit.Currency:
		return matching(unit.CurrencyPattern, "a currency code of ISO 4217")
	case interface{ Dimension() unit.Dimension }:
		return matching(v.Dimension().Pattern(), v.Dimension().Info().Name+unitsOf(v.Dimension()))
	}
	if d, ok := rangeOf(t); ok {
		return matching(d.Pattern()+" to "+d.Pattern(), d.Info().Name+unitsOf(d)+" to another, the lower first")
	}
	return nil
}

func matching(pattern, description string) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "string", Pattern: "^(" + pattern + ")$", Description: description}
}

// unitsOf says in which units a dimension is written, for a sentence.
func unitsOf(d unit.Dimension) string {
	symbols := d.Symbols()
	if len(symbols) == 0 {
		return ""
	}
	last := len(symbols) - 1
	if last == 0 {
		return " in " + symbols[0]
	}
	return " in " + strings.Join(symbols[:last], ", ") + " or " + symbols[last]
}

// rangeOf returns the dimension of a unit.Range.
func rangeOf(t reflect.Type) (unit.Dimension, bool) {
	if t.PkgPath() != reflect.TypeFor[unit.Mass]().PkgPath() || !strings.HasPrefix(t.Name(), "Range[") {
		return 0, false
	}
	low, _ := t.FieldByName("Low")
	d, ok := reflect.Zero(low.Type).Interface().(interface{ Dimension() unit.Dimension })
	return d.Dimension(), ok
}

// defName names a type's definition.
func defName(t reflect.Type) string {
	if d, ok := rangeOf(t); ok {
		return kebab(d.Info().Type) + "-range"
	}
	base, of, generic := strings.Cut(t.Name(), "[")
	if !generic {
		return kebab(base)
	}
	of = strings.TrimSuffix(of, "]")
	return kebab(of[strings.LastIndexAny(of, "./")+1:]) + "-" + kebab(base)
}
