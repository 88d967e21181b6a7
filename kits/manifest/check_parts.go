package manifest

import (
	"fmt"
	"strconv"
)

// parts checks what parts say about each other, and that what the model has one of is there once.
func (c checker) parts() {
	all := keys(c.Parts)
	antennas := c.named(func(p Part) bool { return p.Antenna != nil })
	receivers := c.named(func(p Part) bool { return p.Receiver != nil })
	batteries := c.named(func(p Part) bool { return p.Battery != nil })
	for ref, p := range Sorted(c.Parts) {
		at := func(names ...string) []string { return append([]string{"parts", string(ref)}, names...) }
		if p.Transmitter != nil {
			c.referPart(at("transmitter", "antenna"), p.Transmitter.Antenna, "antenna", antennas, all)
		}
		if p.Receiver != nil {
			c.referPart(at("receiver", "antenna"), p.Receiver.Antenna, "antenna", antennas, all)
		}
		if p.Filter != nil {
			c.referPart(at("filter", "protects"), p.Filter.Protects, "receiver", receivers, all)
		}
		if p.Charger != nil {
			c.referPart(at("charger", "battery"), p.Charger.Battery, "battery", batteries, all)
		}
		if p.Envelope != nil && p.Place == OnGround {
			c.say(at("place"), "the part holds the gas and stays on the ground", `write "aloft"`)
		}
	}
	c.few("converter", func(p Part) bool { return p.Converter != nil })
	c.few("transmitter", func(p Part) bool { return p.Transmitter != nil })
	c.few("receiver", func(p Part) bool { return p.Receiver != nil })
	c.once("envelope", "tether the balloon of another kit with a manifest of its own", func(p Part) bool { return p.Envelope != nil })
	c.once("tether", "keep spare line as a part without the facet", func(p Part) bool { return p.Tether != nil })
	c.once("anchor", "give the mass of the whole deadweight in one part", func(p Part) bool { return p.Anchor != nil })
	c.single("envelope", func(p Part) bool { return p.Envelope != nil })
	c.single("tether", func(p Part) bool { return p.Tether != nil })
}

// mostLinked bounds the converters, the transmitters and the receivers of a kit, each of which is held against the others.
const mostLinked = 50

// few tells that too many parts have a facet.
func (c checker) few(facet string, has func(Part) bool) {
	if n := len(c.named(has)); n > mostLinked {
		c.say([]string{"parts"}, fmt.Sprintf("%d parts have the facet %q", n, facet), fmt.Sprintf("write at most %d", mostLinked))
	}
}

// referPart is refer for a part that must have a facet; a part without it is another mistake than no part at all.
func (c checker) referPart(at []string, to Ref, facet string, having, all []string) {
	if p, ok := c.Parts[to]; ok && !contains(having, to) {
		c.say(at, fmt.Sprintf("the part %q (%s) has no facet %q", to, p.Name, facet), orNone(having, "point to a part that has one: ", "give it one"))
		return
	}
	if to == "" || contains(having, to) {
		return
	}
	c.refer(at, to, "part", all)
}

func contains(names []string, ref Ref) bool {
	for _, name := range names {
		if name == string(ref) {
			return true
		}
	}
	return false
}

func orNone(names []string, before, none string) string {
	if len(names) == 0 || len(names) > 12 {
		return none
	}
	return before + andList(names)
}

// once notes every part after the first that has a facet of which a kit has one.
func (c checker) once(facet, fix string, has func(Part) bool) {
	refs := c.named(has)
	for _, ref := range refs[min(1, len(refs)):] {
		c.say([]string{"parts", ref, facet}, fmt.Sprintf("the part %q is a second %s; the first is %q", ref, facet, refs[0]), fix)
	}
}

// single notes a part that flies once in every model and is there several times.
func (c checker) single(facet string, has func(Part) bool) {
	for _, ref := range c.named(has) {
		if n := c.Parts[Ref(ref)].Quantity; n != nil && *n > 1 {
			c.say([]string{"parts", ref, "quantity"}, strconv.Itoa(*n)+" pieces of the one "+facet+" stand here", `write 1, and "spares" for what is bought on top`)
		}
	}
}
