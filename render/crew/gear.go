package crew

import (
	"slices"

	"hoistbook/kits/manifest"
	"hoistbook/rules"
)

// A Box is a box or bag of field gear, with what travels in it.
type Box struct {
	Name string
	Gear []rules.Tool
}

// Field is the gear that steps and cautions ask for, box by box, in the order in which they do; the same thing for two steps is
// taken once.
func Field(steps []rules.Step, alerts []rules.Alert) []Box {
	var boxes []Box
	for _, s := range steps {
		for _, t := range s.Gear {
			boxes = carry(boxes, t)
		}
	}
	for _, a := range alerts {
		for _, t := range a.Gear {
			boxes = carry(boxes, t)
		}
	}
	return boxes
}

func carry(boxes []Box, t rules.Tool) []Box {
	i := slices.IndexFunc(boxes, func(b Box) bool { return b.Name == t.Box })
	if i < 0 {
		boxes = append(boxes, Box{Name: t.Box})
		i = len(boxes) - 1
	}
	b := &boxes[i]
	k := slices.IndexFunc(b.Gear, func(g rules.Tool) bool { return g.What == t.What })
	if k < 0 {
		b.Gear = append(b.Gear, t)
		return boxes
	}
	b.Gear[k].Count, b.Gear[k].Each = max(b.Gear[k].Count, t.Count), b.Gear[k].Each || t.Each
	return boxes
}

// Calls are those whom the crew may have to call, in the order of the lists and cautions, with their numbers where the manifest has
// them.
func Calls(m *manifest.Manifest, steps []rules.Step, alerts []rules.Alert) []Call {
	var calls []Call
	add := func(who []string) {
		for _, w := range who {
			if !slices.ContainsFunc(calls, func(c Call) bool { return c.Who == w }) {
				calls = append(calls, Call{w, number(m, w)})
			}
		}
	}
	for _, s := range steps {
		add(s.Calls)
	}
	for _, a := range alerts {
		add(a.Calls)
	}
	if st := m.Station; st != nil && st.Site != nil {
		for who := range manifest.Sorted(st.Site.Contacts) {
			add([]string{string(who)})
		}
	}
	return calls
}

// A Call is whom the crew may have to call, and the number; an empty one is left for a pen.
type Call struct{ Who, Number string }

func number(m *manifest.Manifest, who string) string {
	if m.Station == nil || m.Station.Site == nil {
		return ""
	}
	return m.Station.Site.Contacts[manifest.Callee(who)]
}
