// Package schemas holds the published JSON Schemas (2020-12) of every kind of file, and validates against them. They are
// generated from the Go types by cmd/dev. Each is compiled once, when it is first needed.
package schemas

import (
	"bytes"
	"embed"
	"fmt"
	"io"
	"strings"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

//go:embed *.schema.json
var files embed.FS

const suffix = ".schema.json"

// Names lists the schemas in the order of their names.
func Names() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		panic("schemas: " + err.Error()) // the folder is part of the program
	}
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = strings.TrimSuffix(e.Name(), suffix)
	}
	return names
}

// Text returns a schema as it is published; ok is false when there is none of this name.
func Text(name string) (text []byte, ok bool) {
	text, err := files.ReadFile(name + suffix)
	return text, err == nil
}

// Prepare starts to compile a schema while the caller does something else.
func Prepare(name string) { go compiled(name) }

var (
	lock sync.Mutex
	once = map[string]func() *jsonschema.Schema{}
)

// compiled returns a schema ready for use. It panics on a name that is not in Names, and on a schema that does not
// compile: both are mistakes in the program, which tests find.
func compiled(name string) *jsonschema.Schema {
	lock.Lock()
	ready, ok := once[name]
	if !ok {
		ready = sync.OnceValue(func() *jsonschema.Schema { return compile(name) })
		once[name] = ready
	}
	lock.Unlock()
	return ready()
}

// home is where the schemas say they live. Nothing is ever fetched from there, or from anywhere else.
const home = "https://hoistbook.example/schemas/"

func compile(name string) *jsonschema.Schema {
	text, ok := Text(name)
	if !ok {
		panic(fmt.Sprintf("schemas: there is no schema %q, only %q", name, Names()))
	}
	compiler := jsonschema.NewCompiler()
	compiler.LoadURL = func(url string) (io.ReadCloser, error) {
		return nil, fmt.Errorf("%s refers to %s outside itself", name, url)
	}
	if err := compiler.AddResource(home+name+suffix, bytes.NewReader(text)); err != nil {
		panic("schemas: " + err.Error())
	}
	return compiler.MustCompile(home + name + suffix)
}
