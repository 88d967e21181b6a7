package jsontree

import (
	"reflect"
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
	enum     []string
}

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
			fs.byName[name] = field{i, options != "omitempty", enumOf(sf.Tag.Get("jsonschema"))}
		}
	}
	known.Store(t, fs)
	return fs
}

// enumOf lists the words of a tag such as "enum=must,enum=should".
func enumOf(tag string) []string {
	var words []string
	for option := range strings.SplitSeq(tag, ",") {
		if word, ok := strings.CutPrefix(option, "enum="); ok {
			words = append(words, word)
		}
	}
	return words
}
