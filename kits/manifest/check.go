package manifest

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
)

// A checker looks at what the schema cannot see: whether names lead anywhere, and whether values fit each other. What is
// only missing is no error: a fact is then not shown.
type checker struct {
	*Manifest
	problems *diag.Problems
	told     map[diag.Place]bool // what is wrong already; nothing follows from it
}

func (m *Manifest) check(problems *diag.Problems) {
	c := checker{m, problems, places(*problems)}
	c.bounds()
	c.station()
	c.parts()
	c.rails()
	c.together()
	c.signals()
	c.offers()
	c.steps()
}

func places(problems diag.Problems) map[diag.Place]bool {
	all := map[diag.Place]bool{}
	for _, p := range problems {
		all[p.Place] = true
	}
	return all
}

// say notes a problem with the value at a pointer, given as its names.
func (c checker) say(at []string, what, fix string) {
	if place := c.ValuePlace(jsontree.Pointer(at...)); !c.told[place] {
		c.problems.Add(place, what, fix)
	}
}

// refer notes a reference that leads nowhere: kind is the singular of what it should lead to, known are the right names.
func (c checker) refer(at []string, to Ref, kind string, known []string) {
	if to == "" || slices.Contains(known, string(to)) {
		return
	}
	var otherwise string
	switch n := len(known); {
	case n == 0:
		otherwise = fmt.Sprintf("there is no %s at all", kind)
	case n == 1:
		otherwise = fmt.Sprintf("the only %s is %s", kind, known[0])
	case n <= 12:
		otherwise = fmt.Sprintf("the %ss are %s", kind, andList(known))
	default: // a longer list helps nobody
		otherwise = fmt.Sprintf("name one of the %d %ss that there are", n, kind)
	}
	if place, found := c.takenOut(kind, to); found {
		c.say(at, fmt.Sprintf("there is no %s %q any more: %s takes it out", kind, to, place), "leave it in, or let the overlay change what points to it too")
		return
	}
	c.say(at, fmt.Sprintf("there is no %s %q", kind, to), diag.DidYouMean(string(to), known, otherwise))
}

// takenOut finds where an overlay takes something out that others point to: a supplier, or a part of any kind.
func (c checker) takenOut(kind string, ref Ref) (place diag.Place, found bool) {
	table := "parts"
	switch kind {
	case "supplier":
		table = "suppliers"
	case "rail":
		return place, false
	}
	for _, l := range c.laid {
		if m, there := l.patch.Get(table).Member(string(ref)); there && m.Value.Kind == jsontree.Null {
			return m.Place(), true
		}
	}
	return place, false
}

// named lists the references of the parts that pass.
func (c checker) named(pass func(Part) bool) []string {
	var refs []string
	for ref, part := range Sorted(c.Parts) {
		if pass(part) {
			refs = append(refs, string(ref))
		}
	}
	return refs
}

func keys[T any](m Map[T]) []string {
	names := make([]string, 0, len(m))
	for _, ref := range slices.Sorted(maps.Keys(m)) {
		names = append(names, string(ref))
	}
	return names
}

func andList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
