package schemas

import (
	"encoding/json"
	"errors"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// A Violation is one keyword of a schema that a value does not satisfy.
type Violation struct {
	Pointer string // JSON pointer (RFC 6901) to the value
	Key     bool   // it is the key at the pointer that is wrong, not its value
	Keyword string // "pattern", "required", …
	Schema  string // JSON pointer into the schema, to the keyword
}

// Validate holds a value, as encoding/json decodes it with UseNumber, against the schema of this name, and returns what
// it violates, in the order of pointers; none means that the value is valid. Of anyOf and oneOf only the choice itself is
// told, not what kept each way from fitting. Numbers must have been bounded before: 1e10000000 would exhaust the memory.
func Validate(name string, value any) []Violation {
	err := compiled(name).Validate(value)
	if err == nil {
		return nil
	}
	var root *jsonschema.ValidationError
	if !errors.As(err, &root) {
		panic("schemas: " + err.Error()) // a loop in the schema, or a value that is not JSON
	}
	var found []Violation
	leaves(root, func(leaf *jsonschema.ValidationError) {
		found = append(found, violations(name, value, leaf)...)
	})
	slices.SortFunc(found, func(a, b Violation) int {
		return strings.Compare(a.Pointer+"\x00"+a.Schema, b.Pointer+"\x00"+b.Schema)
	})
	return slices.Compact(found)
}

// leaves visits the errors that say something themselves.
func leaves(e *jsonschema.ValidationError, visit func(*jsonschema.ValidationError)) {
	switch keyword := e.AbsoluteKeywordLocation[strings.LastIndexByte(e.AbsoluteKeywordLocation, '/')+1:]; {
	case len(e.Causes) == 0, keyword == "anyOf", keyword == "oneOf":
		visit(e)
	default:
		for _, cause := range e.Causes {
			leaves(cause, visit)
		}
	}
}

func violations(name string, value any, leaf *jsonschema.ValidationError) []Violation {
	_, at, _ := strings.Cut(leaf.AbsoluteKeywordLocation, "#")
	v := Violation{
		Pointer: plain(leaf.InstanceLocation),
		Key:     strings.Contains(leaf.KeywordLocation, "/propertyNames"),
		Schema:  strings.Replace(plain(at), "/definitions/", "/$defs/", 1),
	}
	v.Keyword = v.Schema[strings.LastIndexByte(v.Schema, '/')+1:]
	if v.Keyword != "additionalProperties" {
		return []Violation{v}
	}
	var each []Violation
	for _, key := range unknownKeys(name, strings.TrimSuffix(v.Schema, "/additionalProperties"), follow(value, v.Pointer)) {
		each = append(each, Violation{v.Pointer + "/" + escape.Replace(key), true, v.Keyword, v.Schema})
	}
	return each
}

// plain undoes the percent signs that the validator puts into its pointers.
func plain(pointer string) string {
	if text, err := url.PathUnescape(pointer); err == nil {
		return text
	}
	return pointer
}

var (
	escape   = strings.NewReplacer("~", "~0", "/", "~1")
	unescape = strings.NewReplacer("~1", "/", "~0", "~")
)

// unknownKeys lists the keys of an object that the schema at a pointer knows neither by name nor by pattern: the
// validator tells them in a sentence only.
func unknownKeys(name, schema string, object any) []string {
	text, _ := Text(name)
	var document any
	if json.Unmarshal(text, &document) != nil {
		return nil
	}
	at, _ := follow(document, schema).(map[string]any)
	known, _ := at["properties"].(map[string]any)
	patterns, _ := at["patternProperties"].(map[string]any)
	members, _ := object.(map[string]any)
	var unknown []string
keys:
	for key := range members {
		if _, ok := known[key]; ok {
			continue
		}
		for pattern := range patterns {
			if regexp.MustCompile(pattern).MatchString(key) {
				continue keys
			}
		}
		unknown = append(unknown, key)
	}
	return unknown
}

// follow walks a JSON pointer through maps and lists, or returns nil.
func follow(value any, pointer string) any {
	for token := range strings.SplitSeq(strings.TrimPrefix(pointer, "/"), "/") {
		if pointer == "" {
			break
		}
		switch v := value.(type) {
		case map[string]any:
			value = v[unescape.Replace(token)]
		case []any:
			value = item(v, token)
		default:
			return nil
		}
	}
	return value
}

func item(list []any, token string) any {
	for i := range list {
		if token == strconv.Itoa(i) {
			return list[i]
		}
	}
	return nil
}
