package rules

import (
	"fmt"
	"maps"

	"hoistbook/kits/fact"
)

// In returns the packs with the checklist items and cautions that people read in another language. say has what stands for a text of an
// entry, by the entry's id and the key ("preflight.wind", "response"), or nothing. A text that lacks a number of the original, or has one
// more, does not stand for it, and neither does one that cannot be read: the original is printed then, which is never less.
func (ps Packs) In(say func(id, key string) string) Packs {
	out := make(Packs, len(ps))
	for i, p := range ps {
		other := *p
		other.Checklist, other.Cautions = make([]*Item, len(p.Checklist)), make([]*Caution, len(p.Cautions))
		for k, original := range p.Checklist {
			item := *original
			into(&item.plan.challenge, say(item.ID, "challenge"))
			into(&item.plan.response, say(item.ID, "response"))
			into(&item.plan.beyond, say(item.ID, "beyond"))
			into(&item.plan.notes, say(item.ID, "notes"))
			if name := say(item.ID, "reading"); name != "" && item.Reading != nil {
				reading := *item.Reading
				reading.Name, item.Reading = name, &reading
			}
			item.Gear = gearIn(item.Gear, item.ID, say)
			other.Checklist[k] = &item
		}
		for k, original := range p.Cautions {
			caution := *original
			into(&caution.plan.hazard, say(caution.ID, "hazard"))
			into(&caution.plan.consequence, say(caution.ID, "consequence"))
			into(&caution.plan.avoidance, say(caution.ID, "avoidance"))
			caution.Gear = gearIn(caution.Gear, caution.ID, say)
			other.Cautions[k] = &caution
		}
		out[i] = &other
	}
	return out
}

// gearIn is gear in another language: the keys are gear-1, gear-2 and so on.
func gearIn(gear []*Gear, id string, say func(id, key string) string) []*Gear {
	all := make([]*Gear, len(gear))
	for i, original := range gear {
		g := *original
		into(&g.what, say(id, fmt.Sprintf("gear-%d", i+1)))
		all[i] = &g
	}
	return all
}

// into puts a text in the place of another one.
func into(original *template, text string) {
	if text == "" {
		return
	}
	if t, err := parseTemplate(text); err == nil && maps.Equal(t.holes(), original.holes()) {
		*original = t
	}
}

// hole is what stands in braces, with the side to which a limit is rounded.
type hole struct {
	word, fact string
	side       int
	each       [2]string
}

func (t template) holes() map[hole]bool {
	all := map[hole]bool{}
	for _, p := range t {
		h := hole{word: p.word, fact: p.fact}
		if p.side != nil {
			h.side = 1 + int(*p.side)
		}
		if p.each != nil {
			h.each = *p.each
		}
		if h != (hole{}) {
			all[h] = true
		}
	}
	return all
}

// printed writes a fact's value in the reader's language, as far as there is a word for it.
func (s scope) printed(v fact.Value, text string) string {
	if s.say != nil && (v.Kind == fact.Word || !v.Known()) {
		return s.say(text)
	}
	return text
}
