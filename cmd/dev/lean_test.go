package main

import (
	"strings"
	"testing"
)

func TestLeanKeepsWhatDecides(t *testing.T) {
	got, err := lean([]byte(`{
		"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": "x", "title": "T",
		"$defs": {"title": {"type": "string", "pattern": "^a$", "description": "d"}},
		"properties": {"title": {"$ref": "#/$defs/title", "title": "title", "examples": ["a"]}},
		"patternProperties": {"^x-": true}, "additionalProperties": false, "required": ["title"]
	}`))
	want := `{"$schema":"http://json-schema.org/draft-07/schema#","additionalProperties":false,` +
		`"definitions":{"title":{"pattern":"^a$","type":"string"}},"patternProperties":{"^x-":true},` +
		`"properties":{"title":{"$ref":"#/definitions/title"}},"required":["title"]}`
	if err != nil || string(got) != want {
		t.Errorf("lean = %s, %v\nwant %s", got, err, want)
	}
}

func TestLeanRefusesWhatTheDraftsReadDifferently(t *testing.T) {
	for schema, want := range map[string]string{
		`{"properties": {"a": {"$ref": "#/$defs/b", "maxLength": 3}}}`: "beside the $ref",
		`{"anyOf": [{"prefixItems": []}]}`:                             "prefixItems",
		`{"items": {"unevaluatedProperties": false}}`:                  "unevaluatedProperties",
		`{"$defs": {"a": {"dependentRequired": {}}}}`:                  "dependentRequired",
	} {
		if got, err := lean([]byte(schema)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("lean(%s) = %s, %v; want an error about %s", schema, got, err, want)
		}
	}
}

func TestKebab(t *testing.T) {
	for name, want := range map[string]string{"Mass": "mass", "LinearMass": "linear-mass", "RuleID": "rule-id", "GroundStation": "ground-station"} {
		if got := kebab(name); got != want {
			t.Errorf("kebab(%s) = %s, want %s", name, got, want)
		}
	}
}
