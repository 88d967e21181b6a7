package change

import (
	"encoding/json"
	"slices"
	"strings"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// State is what happened to a subject.
type State string

// The states.
const (
	New      State = "new"
	Gone     State = "gone"
	Replaced State = "replaced" // a part that is something else now, or has other ratings
	Altered  State = "changed"
)

// A Subject is a thing that something was changed of: a part, the site, a signal, the budget.
type Subject struct {
	Kind  string // "part", "signal", "site" …
	Ref   string // of a part, a signal, a ground station, a supplier
	Name  string // in running text, of the later kit where it has one
	State State
	Lines []Line
	names []string
}

// A Line is one thing that was changed. Nothing before or nothing after means that nobody says it there.
type Line struct {
	Pointer       string
	What          string
	Before, After string
	Difference    string // of two numbers, with its sign
}

// Title names the subject in a list.
func (s Subject) Title() string {
	if s.Ref != "" {
		return s.Ref
	}
	return s.Kind
}

// tables have entries that are subjects of their own, and what one of them is called.
var tables = map[string]string{"parts": "part", "signals": "signal", "ground": "ground station", "suppliers": "supplier"}

// divided are objects whose own objects are subjects.
var divided = map[string][]string{"station": {"site", "wind", "duty", "upkeep"}}

// Subjects lists what differs between two manifests.
func Subjects(first, second *manifest.Manifest, system unit.System) []Subject {
	var all []Subject
	before, after := read(first), read(second)
	for _, names := range listed(first, second) {
		s := Subject{Kind: strings.ReplaceAll(names[len(names)-1], "_", " "), names: names}
		a, b := part(first, names), part(second, names)
		if kind, ok := tables[names[0]]; ok {
			s.Kind, s.Ref = kind, names[1]
			s.Name = nameOf(b, a)
		}
		s.Lines = lines(a, b, names, before, after, system)
		if len(s.Lines) == 0 {
			continue
		}
		switch {
		case a == nil:
			s.State = New
		case b == nil:
			s.State = Gone
		case s.Kind == "part" && s.rated():
			s.State = Replaced
		default:
			s.State = Altered
		}
		all = append(all, s)
	}
	return all
}

// listed names every subject that either has, in the order of the first.
func listed(before, after *manifest.Manifest) [][]string {
	var all [][]string
	add := func(names ...string) {
		if !slices.ContainsFunc(all, func(have []string) bool { return slices.Equal(have, names) }) {
			all = append(all, names)
		}
	}
	for _, m := range []*manifest.Manifest{before, after} {
		root := m.Node("")
		for _, top := range root.Members {
			switch _, table := tables[top.Name]; {
			case strings.HasPrefix(top.Name, "x-") || top.Name == "$schema":
			case table:
				for _, entry := range top.Value.Members {
					if !strings.HasPrefix(entry.Name, "x-") {
						add(top.Name, entry.Name)
					}
				}
			default:
				add(top.Name)
				for _, inner := range divided[top.Name] {
					add(top.Name, inner)
				}
			}
		}
	}
	return all
}

// part is the value of a subject, without what is a subject of its own.
func part(m *manifest.Manifest, names []string) *jsontree.Node {
	n := m.Node(jsontree.Pointer(names...))
	if inner := divided[names[0]]; n != nil && len(names) == 1 && inner != nil {
		return n.Without(inner...)
	}
	return n
}

func nameOf(nodes ...*jsontree.Node) string {
	for _, n := range nodes {
		if n != nil && n.Get("name") != nil {
			return n.Get("name").Text
		}
	}
	return ""
}

// aside are keys that change what a part costs, weighs and where it travels, and not what it is.
var aside = []string{"offers", "packed_in", "note", "spares", "consumable", "mass", "mass_basis", "mass_allowance"}

// rated reports whether something was changed that a part is or does.
func (s Subject) rated() bool {
	return slices.ContainsFunc(s.Lines, func(l Line) bool {
		names, _ := jsontree.SplitPointer(l.Pointer)
		return len(names) > 2 && !slices.Contains(aside, names[2])
	})
}

// lines lists what differs in one subject. Two ways to write the same number do not.
func lines(a, b *jsontree.Node, names []string, before, after said, system unit.System) []Line {
	was, is := flatten(a, names), flatten(b, names)
	lone := func(l leaf, other []leaf) bool { // of an entry that only one has, one line is enough
		return l.entry != "" && !l.main && !slices.ContainsFunc(other, func(o leaf) bool { return o.entry == l.entry })
	}
	find := func(list []leaf, key string) (leaf, bool) {
		i := slices.IndexFunc(list, func(l leaf) bool { return l.key == key })
		if i < 0 {
			return leaf{}, false
		}
		return list[i], true
	}
	var all []Line
	for _, old := range was {
		now, there := find(is, old.key)
		x, y := before.numbers[old.pointer], after.numbers[now.pointer]
		switch {
		case lone(old, is), there && (now.text == old.text || sameNumbers(x, y)):
			continue
		case !there:
			now.pointer = old.pointer
		}
		all = append(all, line(old.label, now.pointer, old.text, now.text, x, y, system))
	}
	for _, now := range is {
		if _, there := find(was, now.key); !there && !lone(now, was) {
			all = append(all, line(now.label, now.pointer, "", now.text, nil, after.numbers[now.pointer], system))
		}
	}
	return append(all, moved(a, b, names)...)
}

// moved tells lists of steps whose order changed.
func moved(a, b *jsontree.Node, names []string) []Line {
	if a == nil || b == nil || names[0] != "steps" {
		return nil
	}
	var all []Line
	for _, m := range b.Members {
		was, is := ids(a.Get(m.Name)), ids(m.Value)
		kept := func(list, of []string) []string {
			return slices.DeleteFunc(slices.Clone(list), func(id string) bool { return !slices.Contains(of, id) })
		}
		if x, y := kept(was, is), kept(is, was); !slices.Equal(x, y) {
			all = append(all, Line{Pointer: jsontree.Pointer("steps", m.Name), What: "order of the " + m.Name + " steps", Before: strings.Join(x, ", "), After: strings.Join(y, ", ")})
		}
	}
	return all
}

func ids(n *jsontree.Node) []string {
	if n == nil {
		return nil
	}
	var all []string
	for _, item := range n.Items {
		if id := item.Get("id"); id != nil {
			all = append(all, id.Text)
		}
	}
	return all
}

// patch is the merge patch that makes this change alone.
func (s Subject) patch(before, after *manifest.Manifest) manifest.Source {
	a, b := part(before, s.names), part(after, s.names)
	var value any
	switch {
	case b == nil: // taken away
	case a == nil:
		value = json.RawMessage(b.JSON())
	default:
		value = patchOf(a, b)
	}
	for i := len(s.names) - 1; i >= 0; i-- {
		value = map[string]any{s.names[i]: value}
	}
	text, err := json.Marshal(value)
	if err != nil {
		panic("change: " + err.Error()) // maps of JSON that was read
	}
	return manifest.Source{Name: "change", Data: text}
}

// patchOf is the merge patch from one object to another.
func patchOf(a, b *jsontree.Node) map[string]any {
	patch := map[string]any{}
	for _, d := range jsontree.Diff(a, b) {
		names, _ := jsontree.SplitPointer(d.Pointer)
		into := patch
		for _, name := range names[:len(names)-1] {
			inner, ok := into[name].(map[string]any)
			if !ok {
				inner = map[string]any{}
				into[name] = inner
			}
			into = inner
		}
		last := names[len(names)-1]
		switch {
		case strings.HasPrefix(last, "x-"): // a note changes nothing
		case d.After == nil:
			into[last] = nil
		default:
			into[last] = json.RawMessage(d.After.JSON())
		}
	}
	return patch
}
