package kits

import (
	"regexp"
	"strings"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
)

// policy is the authority of what the kits decide for themselves or merely restate.
var policy = []source.Ref{source.At("policy", "")}

// at is the JSON pointer of a key of the manifest.
func at(names ...any) string {
	texts := make([]string, len(names))
	for i, n := range names {
		switch n := n.(type) {
		case string:
			texts[i] = n
		case manifest.Ref:
			texts[i] = string(n)
		}
	}
	return jsontree.Pointer(texts...)
}

// An attempt is what a computation answered.
type attempt[T any] struct {
	value T
	err   error
}

// topic is the name of a package before what it says: readers know packages by no name.
var topic = regexp.MustCompile(`^[a-z]+: `)

func try[T any](value T, err error) attempt[T] { return attempt[T]{value, err} }

// in hands out the value, or makes the fact unknown for the computation's reason. Where an input was unknown already, that
// is reason enough.
func (a attempt[T]) in(c *frame) T {
	if a.err != nil && c.known() {
		c.missing("%s", topic.ReplaceAllString(a.err.Error(), ""))
	}
	return a.value
}

// station is the deployment, empty where the manifest has none: then every value in it is missing, each with its name.
func station(c *frame) *manifest.Station {
	if s := c.run.manifest.Station; s != nil {
		return s
	}
	return &manifest.Station{}
}

func site(c *frame) *manifest.Site {
	if s := station(c).Site; s != nil {
		return s
	}
	return &manifest.Site{}
}

// A facet is one facet of one part, with its pointer.
type facet[T any] struct {
	f       *T
	ref     manifest.Ref
	part    manifest.Part
	pointer string
}

// every lists the parts that have a facet, in the order of their references.
func every[T any](c *frame, name string, get func(manifest.Part) *T) []facet[T] {
	var found []facet[T]
	for ref, part := range manifest.Sorted(c.run.manifest.Parts) {
		if f := get(part); f != nil {
			found = append(found, facet[T]{f, ref, part, at("parts", ref, name)})
		}
	}
	return found
}

// only is the one part that has a facet; none or several make the fact unknown, and the facet returned is empty.
func only[T any](c *frame, name, what string, get func(manifest.Part) *T) facet[T] {
	found := every(c, name, get)
	switch len(found) {
	case 1:
		return found[0]
	case 0:
		c.missing("no part is %s (%q)", what, name)
	default:
		refs := make([]string, len(found))
		for i, f := range found {
			refs[i] = string(f.ref)
		}
		c.missing("%s are each %s, and one is wanted", strings.Join(refs, ", "), what)
	}
	return facet[T]{f: new(T), pointer: "/parts/?/" + name}
}

func envelope(c *frame) facet[manifest.Envelope] {
	e := only(c, "envelope", "the envelope", func(p manifest.Part) *manifest.Envelope { return p.Envelope })
	if q := e.part.Quantity; q != nil && *q != 1 {
		c.missing("%s is there %d times, and the lift is computed for one balloon", e.ref, *q)
	}
	return e
}

func tetherPart(c *frame) facet[manifest.Tether] {
	return only(c, "tether", "the tether", func(p manifest.Part) *manifest.Tether { return p.Tether })
}
