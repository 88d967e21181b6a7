package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// lean writes a schema again for the program's own use: only what decides, and in the words of draft-07, because the
// validator compiles that in less than half the time of 2020-12. The two must mean the same, so a keyword whose meaning
// changed between the drafts, or that draft-07 does not know, is refused here, and the published schema does without it.
func lean(published []byte) ([]byte, error) {
	var schema map[string]any
	if err := json.Unmarshal(published, &schema); err != nil {
		return nil, err
	}
	out, err := leaner(schema)
	if err != nil {
		return nil, err
	}
	out.(map[string]any)["$schema"] = "http://json-schema.org/draft-07/schema#"
	return json.Marshal(out)
}

// forPeople are the keywords that decide nothing.
var forPeople = []string{"$schema", "$id", "title", "description", "examples", "default", "deprecated", "$comment"}

// The keywords that mean the same in both drafts, by what they hold.
var (
	holdsValue   = []string{"type", "enum", "const", "pattern", "minimum", "maximum", "minLength", "maxLength", "minItems", "maxItems", "uniqueItems", "minProperties", "maxProperties", "required"}
	holdsSchema  = []string{"items", "additionalProperties", "propertyNames", "not"}
	holdsSchemas = []string{"allOf", "anyOf", "oneOf"}
	holdsNamed   = []string{"properties", "patternProperties", "$defs"}
)

func leaner(schema any) (any, error) {
	keywords, ok := schema.(map[string]any)
	if !ok {
		return schema, nil // true or false
	}
	out := map[string]any{}
	for _, keyword := range slices.Sorted(maps.Keys(keywords)) {
		value, err := leanValue(keyword, keywords[keyword])
		switch {
		case err != nil:
			return nil, err
		case keyword == "$defs":
			out["definitions"] = value
		case value != nil:
			out[keyword] = value
		}
	}
	if out["$ref"] != nil && len(out) > 1 {
		return nil, fmt.Errorf("draft-07 ignores what stands beside the $ref to %v", out["$ref"])
	}
	return out, nil
}

// leanValue returns what a keyword holds, or nil for a keyword that decides nothing.
func leanValue(keyword string, value any) (any, error) {
	is := func(list []string) bool { return slices.Contains(list, keyword) }
	switch {
	case is(forPeople):
		return nil, nil
	case keyword == "$ref":
		return strings.Replace(value.(string), "#/$defs/", "#/definitions/", 1), nil
	case is(holdsValue):
		return value, nil
	case is(holdsSchema):
		return leaner(value)
	case is(holdsSchemas):
		var all []any
		for _, one := range value.([]any) {
			inner, err := leaner(one)
			if err != nil {
				return nil, err
			}
			all = append(all, inner)
		}
		return all, nil
	case is(holdsNamed):
		all := map[string]any{}
		for name, one := range value.(map[string]any) {
			inner, err := leaner(one)
			if err != nil {
				return nil, err
			}
			all[name] = inner
		}
		return all, nil
	}
	return nil, fmt.Errorf("the keyword %q is not one that both drafts understand alike", keyword)
}
