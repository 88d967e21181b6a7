package jsontree

import (
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// fields says how a struct type is written in JSON.
type fields struct {
	self   int      // index of the field that receives the object itself, or -1
	names  []string // in the order of the struct
	byName map[string]field
}

type field struct {
	index    int
	required bool
	bounds   *bounds
}

// bounds are the words of a jsonschema tag that Bind holds too, so that the published schema and Bind agree. Texts are
// counted in characters, lists and maps in entries.
type bounds struct {
	enum                 []string
	pattern              *regexp.Regexp
	minLength, maxLength int
	minItems, maxItems   int
	minKeys, maxKeys     int
	minimum, maximum     float64
	unique               bool
	example              string // for messages only
}

var unbounded = &bounds{maxLength: MaxBytes, maxItems: MaxValues, maxKeys: MaxValues, minimum: math.Inf(-1), maximum: math.Inf(1)}

// known keeps what has been found out about struct types; it depends on nothing but the types.
var known sync.Map

func fieldsOf(t reflect.Type) *fields {
	if found, ok := known.Load(t); ok {
		return found.(*fields)
	}
	fs := &fields{self: -1, byName: map[string]field{}}
	for i := range t.NumField() {
		sf := t.Field(i)
		name, options, _ := strings.Cut(sf.Tag.Get("json"), ",")
		switch {
		case name == "-" && sf.Type == nodeType:
			fs.self = i
		case name != "-" && name != "" && sf.IsExported():
			fs.names = append(fs.names, name)
			fs.byName[name] = field{i, options != "omitempty", boundsOf(sf.Tag.Get("jsonschema"))}
		}
	}
	known.Store(t, fs)
	return fs
}

// boundsOf reads a tag such as "minLength=1,enum=must,enum=should"; a comma in a value is written with a backslash.
func boundsOf(tag string) *bounds {
	b := *unbounded
	for option := range strings.SplitSeq(strings.ReplaceAll(tag, `\,`, "\x00"), ",") {
		key, value, _ := strings.Cut(strings.ReplaceAll(option, "\x00", ","), "=")
		switch key {
		case "enum":
			b.enum = append(b.enum, value)
		case "pattern":
			b.pattern = regexp.MustCompile(value)
		case "minLength":
			b.minLength = whole(value)
		case "maxLength":
			b.maxLength = whole(value)
		case "minItems":
			b.minItems = whole(value)
		case "maxItems":
			b.maxItems = whole(value)
		case "minProperties":
			b.minKeys = whole(value)
		case "maxProperties":
			b.maxKeys = whole(value)
		case "minimum":
			b.minimum = float64(whole(value))
		case "maximum":
			b.maximum = float64(whole(value))
		case "uniqueItems":
			b.unique = value == "true"
		case "example":
			b.example = value
		}
	}
	return &b
}

// words lists what a text of type t may be, or returns nil when it may be anything.
func (b *bounds) words(t reflect.Type) []string {
	if b.enum != nil {
		return b.enum
	}
	return wordsOf(t)
}

// whole reads a number of a tag; a tag that holds none is a mistake in the program, and every use of it would panic.
func whole(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		panic("jsontree: tag: " + err.Error())
	}
	return n
}
