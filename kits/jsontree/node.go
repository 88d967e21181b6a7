// Package jsontree reads JSON into a tree that knows where every key and every value stands in its file, so that whatever
// is said later about a value can say where. It also has what is done to such trees: lookups by pointer (RFC 6901), merge
// patches (RFC 7396) that keep the places, the canonical form (RFC 8785), and binding to Go structs.
//
// A tree is never changed after Parse has returned it; Merge makes a new one that shares what did not change.
package jsontree

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"hoistbook/kits/diag"
)

// Kind is the JSON type of a value.
type Kind uint8

// The kinds of values.
const (
	Null Kind = iota
	Bool
	Number
	String
	Array
	Object
)

// String names the kind as a sentence does, with its article.
func (k Kind) String() string {
	return [...]string{"null", "true or false", "a number", "a text", "a list", "an object"}[k]
}

// A Node is one JSON value and its place.
type Node struct {
	Kind    Kind
	Yes     bool     // of a Bool
	Text    string   // of a String, what it says; of a Number, its digits as written
	Members []Member // of an Object, in the order written; no name stands twice
	Items   []*Node  // of an Array

	file *file
	at   int
	// index is where the keys of a large object as it was read stand among its members. An object that was made from it may have
	// others, so what is found there is looked at, and what is not is looked for.
	index map[string]int
}

// A Member is a key of an object and its value.
type Member struct {
	Name  string
	Value *Node

	file *file
	at   int
}

// Place is where the value begins: for an object, its opening brace.
func (n *Node) Place() diag.Place { return n.file.place(n.at) }

// Place is where the key begins.
func (m Member) Place() diag.Place { return m.file.place(m.at) }

// Get returns the value of a key, or nil when the key or the object is missing.
func (n *Node) Get(name string) *Node {
	if m, ok := n.Member(name); ok {
		return m.Value
	}
	return nil
}

// Member returns a key with its value.
func (n *Node) Member(name string) (Member, bool) {
	if n == nil {
		return Member{}, false
	}
	if i, ok := n.index[name]; ok && i < len(n.Members) && n.Members[i].Name == name {
		return n.Members[i], true
	}
	for _, m := range n.Members {
		if m.Name == name {
			return m, true
		}
	}
	return Member{}, false
}

// Names lists an object's keys in the order written.
func (n *Node) Names() []string {
	names := make([]string, len(n.Members))
	for i, m := range n.Members {
		names[i] = m.Name
	}
	return names
}

var (
	escape   = strings.NewReplacer("~", "~0", "/", "~1")
	unescape = strings.NewReplacer("~1", "/", "~0", "~")
)

// Pointer joins names to a JSON pointer.
func Pointer(names ...string) string {
	var text strings.Builder
	for _, name := range names {
		text.WriteByte('/')
		if strings.ContainsAny(name, "~/") {
			name = escape.Replace(name)
		}
		text.WriteString(name)
	}
	return text.String()
}

// SplitPointer takes a JSON pointer apart; ok is false for a text that is none.
func SplitPointer(pointer string) (names []string, ok bool) {
	if pointer == "" {
		return nil, true
	}
	rest, ok := strings.CutPrefix(pointer, "/")
	if !ok {
		return nil, false
	}
	names = strings.Split(rest, "/")
	if strings.Contains(rest, "~") {
		for i, name := range names {
			names[i] = unescape.Replace(name)
		}
	}
	return names, true
}

// At follows a JSON pointer to a value, or returns nil when there is none.
func (n *Node) At(pointer string) *Node {
	names, ok := SplitPointer(pointer)
	if !ok {
		return nil
	}
	for _, name := range names {
		if n = n.child(name); n == nil {
			return nil
		}
	}
	return n
}

func (n *Node) child(name string) *Node {
	switch n.Kind {
	case Object:
		return n.Get(name)
	case Array:
		i, err := strconv.Atoi(name)
		if err != nil || i < 0 || i >= len(n.Items) || strconv.Itoa(i) != name {
			return nil
		}
		return n.Items[i]
	}
	return nil
}

// PlaceOf returns the best place for something said about a pointer: the key when the pointer ends at one, the value in
// a list, or else the nearest object or list that exists on the way.
func (n *Node) PlaceOf(pointer string) diag.Place {
	place := n.Place()
	names, _ := SplitPointer(pointer)
	for _, name := range names {
		next := n.child(name)
		if next == nil {
			return place
		}
		place = next.Place()
		if m, ok := n.Member(name); ok {
			place = m.Place()
		}
		n = next
	}
	return place
}

// file turns offsets into places; trees hold offsets because almost none of them is ever printed.
type file struct {
	name   string
	starts []int // offset of the first byte of each line
}

func newFile(name string, text []byte) *file {
	f := &file{name: name, starts: make([]int, 1, 1+bytes.Count(text, []byte("\n")))}
	for at := 0; ; {
		next := bytes.IndexByte(text[at:], '\n')
		if next < 0 {
			return f
		}
		at += next + 1
		f.starts = append(f.starts, at)
	}
}

func (f *file) place(offset int) diag.Place {
	if f == nil {
		return diag.Place{}
	}
	line, found := slices.BinarySearch(f.starts, offset)
	if found {
		line++
	}
	return diag.Place{File: f.name, Line: line, Col: offset - f.starts[line-1] + 1}
}
