package manifest

import (
	"fmt"
	"slices"
	"strings"
)

// rails checks the tree of power: every rail has one source, and no circle.
func (c checker) rails() {
	feeds := map[Ref][]string{} // the parts that feed a rail, in order
	for ref, p := range Sorted(c.Parts) {
		if p.Battery != nil && p.Battery.Rail != "" {
			feeds[p.Battery.Rail] = append(feeds[p.Battery.Rail], string(ref))
		}
		if p.Converter != nil && p.Converter.To != "" {
			feeds[p.Converter.To] = append(feeds[p.Converter.To], string(ref))
		}
	}
	var known []string
	for rail := range Sorted(feeds) {
		known = append(known, string(rail))
	}
	for ref, p := range Sorted(c.Parts) {
		at := func(names ...string) []string { return append([]string{"parts", string(ref)}, names...) }
		if p.Converter != nil {
			c.refer(at("converter", "from"), p.Converter.From, "rail", known)
		}
		if p.Load != nil {
			c.refer(at("load", "rail"), p.Load.Rail, "rail", known)
		}
		if p.Fuse != nil {
			c.refer(at("fuse", "rail"), p.Fuse.Rail, "rail", known)
		}
	}
	for rail, sources := range Sorted(feeds) {
		c.oneSource(rail, sources)
	}
	c.circles()
}

// oneSource notes a second source of a rail. Batteries may share one when their cells and their number are the same.
func (c checker) oneSource(rail Ref, sources []string) {
	first := c.Parts[Ref(sources[0])]
	for _, ref := range sources[1:] {
		p := c.Parts[Ref(ref)]
		switch {
		case p.Converter != nil && p.Converter.To == rail:
			c.say([]string{"parts", ref, "converter", "to"}, fmt.Sprintf("the rail %q has two sources: %q and %q", rail, sources[0], ref), "give each converter a rail of its own")
		case first.Battery == nil || first.Battery.Rail != rail:
			c.say([]string{"parts", ref, "battery", "rail"}, fmt.Sprintf("the rail %q has two sources: %q and %q", rail, sources[0], ref), "give the battery a rail of its own")
		case p.Battery.Chemistry != first.Battery.Chemistry:
			c.say([]string{"parts", ref, "battery", "chemistry"},
				fmt.Sprintf("%q is %s and %q is %s, on one rail %q", ref, p.Battery.Chemistry, sources[0], first.Battery.Chemistry, rail), "put one chemistry on a rail")
		case differ(p.Battery.CellsInSeries, first.Battery.CellsInSeries):
			c.say([]string{"parts", ref, "battery", "cells_in_series"},
				fmt.Sprintf("%q has %d cells in series and %q has %d, on one rail %q", ref, *p.Battery.CellsInSeries, sources[0], *first.Battery.CellsInSeries, rail),
				"packs in parallel need the same number")
		}
	}
}

func differ(a, b *int) bool { return a != nil && b != nil && *a != *b }

// circles notes each circle of converters once, at the first of its parts, with the way round.
func (c checker) circles() {
	converters := map[Ref]Ref{} // the part that feeds a rail
	for ref, p := range Sorted(c.Parts) {
		if p.Converter != nil && p.Converter.To != "" && converters[p.Converter.To] == "" {
			converters[p.Converter.To] = ref
		}
	}
	done := map[Ref]bool{}
	for start := range Sorted(converters) {
		var way []Ref
		for rail := start; converters[rail] != "" && !done[rail]; rail = c.Parts[converters[rail]].Converter.From {
			if at := slices.Index(way, rail); at >= 0 {
				c.circle(way[at:], converters)
				break
			}
			way = append(way, rail)
		}
		for _, rail := range way {
			done[rail] = true
		}
	}
}

// circle tells a circle of rails, each fed from the next.
func (c checker) circle(rails []Ref, converters map[Ref]Ref) {
	slices.Reverse(rails)
	parts := make([]Ref, len(rails)) // parts[i] feeds rails[i] from the rail before
	text := &strings.Builder{}
	fmt.Fprint(text, rails[len(rails)-1])
	for i, rail := range rails {
		parts[i] = converters[rail]
		fmt.Fprintf(text, " → %s → %s", parts[i], rail)
	}
	c.say([]string{"parts", string(slices.Min(parts)), "converter", "from"}, "the rails feed each other in a circle: "+text.String(), "feed one of them from a battery")
}
