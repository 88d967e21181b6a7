// Package schemas holds the published JSON Schemas (2020-12) of every kind of file, and validates against them. They are
// generated from the Go types by cmd/dev, and so is a lean form of each: the same decisions without the words for people,
// in the older draft-07, which the validator compiles in less than half the time. Each is compiled once, when it is
// first needed.
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

//go:embed *.schema.json lean/*.json
var files embed.FS

const suffix = ".schema.json"

// Names lists the schemas in the order of their names.
func Names() []string {
	entries, err := files.ReadDir("lean")
	if err != nil {
		panic("schemas: " + err.Error()) // the folder is part of the program
	}
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = strings.TrimSuffix(e.Name(), ".json")
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

func compile(name string) *jsonschema.Schema {
	text, err := files.ReadFile("lean/" + name + ".json")
	if err != nil {
		panic(fmt.Sprintf("schemas: there is no schema %q, only %q", name, Names()))
	}
	return compileText(home+name, text)
}

// home is where the schemas say they live. Nothing is ever fetched from there, or from anywhere else.
const home = "https://hoistbook.example/schemas/"

func compileText(address string, text []byte) *jsonschema.Schema {
	compiler := jsonschema.NewCompiler()
	compiler.LoadURL = func(url string) (io.ReadCloser, error) {
		return nil, fmt.Errorf("%s refers to %s outside itself", address, url)
	}
	if err := compiler.AddResource(address, bytes.NewReader(text)); err != nil {
		panic("schemas: " + err.Error())
	}
	return compiler.MustCompile(address)
}
