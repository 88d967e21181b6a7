package starter

import (
	"bytes"
	"reflect"
	"slices"
	"strings"

	"hoistbook/kits/jsontree"
)

// exampleKey holds what an example says and a blank manifest does not: what to write, and how.
const exampleKey = "x-example"

// kept are keys that say what a thing is and not how much of it there is.
var kept = []string{"$schema", "place"}

// blank takes the numbers and texts out of an example, and leaves what the format demands: names, kinds, references. In every
// object they stand under a key that is a note, ready to be written anew.
func blank(n *jsontree.Node, t reflect.Type) *jsontree.Node {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	out := *n
	out.Members = nil
	if t.Kind() == reflect.Map {
		for _, m := range n.Members {
			m.Value = blank(m.Value, t.Elem())
			out.Members = append(out.Members, m)
		}
		return &out
	}
	example := &jsontree.Node{Kind: jsontree.Object}
	for _, m := range n.Members {
		field, required := fieldOf(t, m.Name)
		switch {
		case field == nil:
		case holdsObjects(field):
			m.Value = blank(m.Value, field)
			out.Members = append(out.Members, m)
		case required || slices.Contains(kept, m.Name):
			out.Members = append(out.Members, m)
		default:
			example.Members = append(example.Members, m)
		}
	}
	if len(example.Members) > 0 {
		out.Members = append(out.Members, jsontree.Member{Name: exampleKey, Value: example})
	}
	return &out
}

// fieldOf finds the type of a key; required reports whether the format demands it.
func fieldOf(t reflect.Type, key string) (of reflect.Type, required bool) {
	for i := range t.NumField() {
		name, options, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name == key {
			return t.Field(i).Type, options != "omitempty"
		}
	}
	return nil, false
}

// holdsObjects reports whether values of a type are objects of our types, or tables of such.
func holdsObjects(t reflect.Type) bool {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch t.Kind() {
	case reflect.Map:
		return holdsObjects(t.Elem())
	case reflect.Struct:
		for i := range t.NumField() {
			if t.Field(i).Tag.Get("json") != "" {
				return true
			}
		}
	}
	return false
}

// lineLength is how long an object may be to stand on one line.
const lineLength = 110

// pretty writes a tree for people: short objects on one line, others a key a line.
func pretty(n *jsontree.Node) []byte {
	var b bytes.Buffer
	write(&b, n, "", 0)
	b.WriteByte('\n')
	return b.Bytes()
}

func write(b *bytes.Buffer, n *jsontree.Node, indent string, before int) {
	short := string(n.JSON())
	if n.Kind != jsontree.Object && n.Kind != jsontree.Array || len(indent)+before+len(short) < lineLength && indent != "" {
		b.WriteString(spaced(n))
		return
	}
	inner := indent + "  "
	brackets := "{}"
	if n.Kind == jsontree.Array {
		brackets = "[]"
	}
	b.WriteByte(brackets[0])
	for i := range max(len(n.Members), len(n.Items)) {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n" + inner)
		if n.Kind == jsontree.Array {
			write(b, n.Items[i], inner, 0)
			continue
		}
		key := quoted(n.Members[i].Name) + ": "
		b.WriteString(key)
		write(b, n.Members[i].Value, inner, len(key))
	}
	b.WriteString("\n" + indent + brackets[1:])
}

// spaced is a value on one line, with spaces where people put them.
func spaced(n *jsontree.Node) string {
	var parts []string
	switch n.Kind {
	case jsontree.Object:
		for _, m := range n.Members {
			parts = append(parts, quoted(m.Name)+": "+spaced(m.Value))
		}
		return "{ " + strings.Join(parts, ", ") + " }"
	case jsontree.Array:
		for _, item := range n.Items {
			parts = append(parts, spaced(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case jsontree.String:
		return quoted(n.Text)
	}
	return string(n.JSON())
}
