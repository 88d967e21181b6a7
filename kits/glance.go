package kits

import (
	"slices"
	"strings"
	"sync"

	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
)

// A Glance answers for single facts of a manifest and computes no more than they need, without their pedigree: for searches
// that look at hundreds of variations. Its values are those of Assess. It is for one goroutine at a time.
type Glance struct{ run *run }

// Look makes a Glance at a manifest.
func Look(m *manifest.Manifest) *Glance {
	r := newRun(m)
	r.bare = true
	return &Glance{r}
}

// Lookup returns the value of the fact with this id; ok is false when the catalogue has no such fact for this manifest.
func (g *Glance) Lookup(id string) (value fact.Value, ok bool) {
	if f, done := g.run.facts[id]; done {
		return f.Value, true
	}
	e, subject, ok := entryOf(id)
	if !ok || e.family != nil && !slices.Contains(g.run.members(e.family), subject) {
		return fact.Value{}, false
	}
	return g.run.fact(e, subject).Value, true
}

// Subjects lists the members of a family in this manifest, such as the loads of "power.loads".
func (g *Glance) Subjects(name string) []string {
	for _, f := range families {
		if f.id == name {
			return g.run.members(f)
		}
	}
	return nil
}

// entries is the catalogue by id, with stars.
var entries = sync.OnceValue(func() map[string]*Entry {
	byID := make(map[string]*Entry, len(catalogue))
	for _, e := range catalogue {
		byID[e.ID] = e
	}
	return byID
})

// entryOf finds the entry that a fact's id belongs to, and the subject that stands for its star.
func entryOf(id string) (e *Entry, subject string, ok bool) {
	if e, ok = entries()[id]; ok {
		return e, "", e.family == nil
	}
	for _, f := range families {
		rest, in := strings.CutPrefix(id, f.id+".")
		if subject, tail, cut := strings.Cut(rest, "."); in && cut {
			if e, ok := entries()[f.id+".*."+tail]; ok {
				return e, subject, true
			}
		}
	}
	return nil, "", false
}
