package kits

import (
	"hoistbook/kits/manifest"
)

// The power analysis looks at the whole kit at once. What one of its results depends on is found along the wires: voltages come
// down from the batteries, currents come up from the modules. These record it for the reader of the fact. No wire runs in a
// circle: such a manifest is refused when it is read.

// see records another fact as an input, without making this one unknown: the analysis says better why it has no number.
func (c *frame) see(e *Entry, subject string) {
	f := c.run.fact(e, subject)
	c.read(Input{Name: f.ID, Value: f.Value, Symbol: e.Unit})
}

// citeFeeders records what decides the voltages of a rail: the cells on it, or the converters into it and what feeds those. (By
// the values of the manifest and not by the facts of the other rails: a fact cannot read another one of its own kind.)
func (c *frame) citeFeeders(rail manifest.Ref) { c.citeAbove(rail, map[manifest.Ref]bool{}) }

// citeAbove looks at each rail once, however many ways lead to it.
func (c *frame) citeAbove(rail manifest.Ref, seen map[manifest.Ref]bool) {
	if seen[rail] {
		return
	}
	seen[rail] = true
	for ref, p := range manifest.Sorted(c.run.manifest.Parts) {
		if p.Battery != nil && p.Battery.Rail == rail {
			c.citeOf(ref, "battery", "chemistry", "cells_in_series")
		}
		if p.Converter != nil && p.Converter.To == rail {
			c.citeOf(ref, "converter", "kind", "output", "tolerance", "headroom")
			c.citeAbove(p.Converter.From, seen)
		}
	}
}

// citeTakers records what decides the current of a rail: the modules on it, and the converters that it feeds with what they feed.
func (c *frame) citeTakers(rail manifest.Ref) {
	c.citeBelow(rail, map[manifest.Ref]bool{}, map[manifest.Ref]bool{})
}

func (c *frame) citeBelow(rail manifest.Ref, seen, above map[manifest.Ref]bool) {
	if seen[rail] {
		return
	}
	seen[rail] = true
	for ref, p := range manifest.Sorted(c.run.manifest.Parts) {
		if p.Load != nil && p.Load.Rail == rail {
			c.citeLoad(ref)
		}
		if p.Converter != nil && p.Converter.From == rail {
			c.citeOf(ref, "converter", "output", "efficiency", "quiescent")
			c.citeBelow(p.Converter.To, seen, above)
			c.citeAbove(rail, above)
		}
	}
}

// citeLoad records the currents of a module.
func (c *frame) citeLoad(ref manifest.Ref) {
	for _, state := range manifest.States {
		c.cite(at("parts", ref, "load", "current", string(state)))
	}
	c.cite(at("parts", ref, "quantity"))
}

func (c *frame) citeOf(ref manifest.Ref, facet string, keys ...string) {
	for _, key := range keys {
		c.cite(at("parts", ref, facet, key))
	}
}

// seeRail records facts of a rail, if there is such a rail.
func (c *frame) seeRail(rail manifest.Ref, entries ...*Entry) {
	for _, id := range c.run.members(rails) {
		if id == string(rail) {
			for _, e := range entries {
				c.see(e, id)
			}
		}
	}
}
