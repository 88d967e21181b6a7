package main

import (
	"reflect"

	"github.com/invopop/jsonschema"

	"hoistbook/rules"
)

// A limit is read by its own code, so its schema is written by hand: what rules.Limit reads, and nothing else.
func limitSchema() *jsonschema.Schema {
	fact := jsonschema.NewProperties()
	fact.Set("fact", &jsonschema.Schema{Type: "string", MinLength: one(), Title: "fact", Description: "The fact that gives the limit.", Examples: []any{"lift.neck_needed_kg"}})
	fact.Set("times", &jsonschema.Schema{Type: "number", Title: "times", Description: "A factor, above zero.", Examples: []any{number("0.8")}})
	return &jsonschema.Schema{
		Description: "A quantity with its unit, a plain number for a count, a word, true or false, an exact decimal for money, or another fact.",
		AnyOf: []*jsonschema.Schema{
			{Type: "string"}, {Type: "number"}, {Type: "boolean"},
			{Type: "object", Properties: fact, Required: []string{"fact"}, AdditionalProperties: jsonschema.FalseSchema, PatternProperties: notes()},
		},
	}
}

// conditionForms says what the type rules.Condition cannot: one form, and beside a fact one relation.
func conditionForms(def *jsonschema.Schema) {
	forms := []string{"all", "any", "not", "fact"}
	relations := []string{"at_least", "at_most", "within", "is", "present"}
	for _, form := range forms[:3] {
		def.OneOf = append(def.OneOf, &jsonschema.Schema{Required: []string{form}, Not: having(relations)})
	}
	compared := &jsonschema.Schema{Required: forms[3:]}
	for _, relation := range relations {
		compared.OneOf = append(compared.OneOf, &jsonschema.Schema{Required: []string{relation}})
	}
	def.OneOf = append(def.OneOf, compared)
}

// having is met by an object with any of the keys.
func having(keys []string) *jsonschema.Schema {
	schema := &jsonschema.Schema{}
	for _, key := range keys {
		schema.AnyOf = append(schema.AnyOf, &jsonschema.Schema{Required: []string{key}})
	}
	return schema
}

func one() *uint64 { n := uint64(1); return &n }

var (
	limitType     = reflect.TypeFor[rules.Limit]()
	conditionType = reflect.TypeFor[rules.Condition]()
)
