package change

import (
	"cmp"
	"slices"

	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

// An Order is something that the crew reads and that differs: a step of a checklist, or a caution. What the manifest itself brings
// along is told as a Subject; these are the packs' own, which change with the kit's numbers.
type Order struct {
	List          string // "preflight", "recovery", "cautions"
	Text          string // the challenge, or the hazard; empty where it is what differs
	Before, After string // the response, or what to do; empty where it is not read
}

// orders lists what the crew reads otherwise, in the order in which the second kit's crew reads it; what is no longer read at the end.
func orders(before, after Side, packs rules.Packs, system unit.System) []Order {
	var all []Order
	for _, list := range []string{"preflight", "recovery"} {
		all = append(all, differing(list, steps(before, packs, system, list), steps(after, packs, system, list))...)
	}
	return append(all, differing("cautions", cautions(before, packs, system), cautions(after, packs, system))...)
}

// An entry is one thing to read, and by what it is known again.
type entry struct{ key, text, answer string }

func steps(s Side, packs rules.Packs, system unit.System, list string) []entry {
	var all []entry
	for _, step := range rules.Checklist(packs, s.Facts, crew.Options(s.Manifest, system), list) {
		all = append(all, entry{step.ID + " " + step.Subject, step.Challenge, step.Response})
	}
	return all
}

func cautions(s Side, packs rules.Packs, system unit.System) []entry {
	var all []entry
	for _, a := range rules.Cautions(packs, s.Facts, crew.Options(s.Manifest, system)) {
		all = append(all, entry{a.ID + " " + a.Subject, a.Hazard, a.Avoidance})
	}
	return all
}

func differing(list string, before, after []entry) []Order {
	var all []Order
	find := func(in []entry, key string) (entry, bool) {
		i := slices.IndexFunc(in, func(r entry) bool { return r.key == key })
		if i < 0 {
			return entry{}, false
		}
		return in[i], true
	}
	for _, now := range after {
		was, there := find(before, now.key)
		switch {
		case !there:
			all = append(all, Order{list, now.text, "", cmp.Or(now.answer, now.text)})
		case was.text != now.text && was.answer == now.answer:
			all = append(all, Order{list, "", was.text, now.text})
		case was.text != now.text:
			all = append(all, Order{list, "", was.text + ": " + was.answer, now.text + ": " + now.answer})
		case was.answer != now.answer:
			all = append(all, Order{list, now.text, was.answer, now.answer})
		}
	}
	for _, was := range before {
		if _, there := find(after, was.key); !there {
			all = append(all, Order{list, was.text, cmp.Or(was.answer, was.text), ""})
		}
	}
	return all
}
