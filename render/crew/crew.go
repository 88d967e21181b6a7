// Package crew gathers what a crew reads: the checklists and cautions of the packs, and those that a kit brings along in its
// manifest. Paper and walk-through both take them from here, so that they are the same.
package crew

import (
	"cmp"
	"slices"
	"strings"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// Options are the rules that a manifest asks for: its regions and its waivers.
func Options(m *manifest.Manifest, system unit.System) rules.Options {
	o := rules.Options{System: system, Waived: map[string]string{}}
	if m.Station != nil {
		for _, region := range m.Station.Rules {
			o.Regions = append(o.Regions, string(region))
		}
	}
	for id, reason := range m.Waivers {
		o.Waived[string(id)] = string(reason)
	}
	return o
}

// Checklist is a list of the packs in force together with the kit's own steps. Before a launch these are about its hardware, and
// come behind the first phase, in which the crew is named and the day is judged. On the way home they come before the parts are
// counted into their boxes: what is still to be wiped or folded is not packed. They never come behind the last hold point, at which
// the balloon is let go and the station closed.
func Checklist(m *manifest.Manifest, packs rules.Packs, facts rules.Facts, o rules.Options, list string, own Own) []rules.Step {
	if list == Change && !comesDown(facts) {
		return nil
	}
	steps := rules.Checklist(packs, facts, o, list)
	at := phaseEnd(steps)
	if list == "recovery" {
		at = counting(steps)
	}
	return slices.Insert(steps, min(at, Closing(steps)), own.Steps(m, list)...)
}

// Change is the list by which a balloon comes down while the station lasts, is given a fresh battery or gas, and goes up again.
const Change = "change"

// comesDown reports whether the plan of the station brings the balloon down before its end; where that is not known, it may.
func comesDown(facts rules.Facts) bool {
	for _, id := range []string{"power.battery_changes", "plan.gas_top_ups"} {
		if v, _ := facts.Lookup(id); !v.Known() || v.Quantity.SI > 0 {
			return true
		}
	}
	return false
}

// Closing is the place before the phase with the last hold point; without hold points it is the end.
func Closing(steps []rules.Step) int {
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i].Hold {
			return phaseStart(steps, i)
		}
	}
	return len(steps)
}

// counting is the place before the first phase in which pieces are counted.
func counting(steps []rules.Step) int {
	i := slices.IndexFunc(steps, func(s rules.Step) bool { return s.Reading != nil && s.Reading.Dim == unit.DimCount })
	if i < 0 {
		return len(steps)
	}
	return phaseStart(steps, i)
}

func phaseStart(steps []rules.Step, i int) int {
	for i > 0 && steps[i-1].Phase == steps[i].Phase {
		i--
	}
	return i
}

// phaseEnd is the place behind the first phase.
func phaseEnd(steps []rules.Step) int {
	i := slices.IndexFunc(steps, func(s rules.Step) bool { return s.Phase != steps[0].Phase })
	if i < 0 {
		return len(steps)
	}
	return i
}

// Own are the words with which a kit's own steps stand in a checklist: their heading, the answer that is expected, and who
// answers when the manifest names nobody.
type Own struct{ Phase, Done, Anybody string }

// Steps are the steps of a list ("preflight", "recovery") that the kit itself brings along, without the full stop of a sentence: a leader
// follows.
func (o Own) Steps(m *manifest.Manifest, list string) []rules.Step {
	if m.Steps == nil || list == Change {
		return nil
	}
	own := m.Steps.Preflight
	if list == "recovery" {
		own = m.Steps.Recovery
	}
	steps := make([]rules.Step, len(own))
	for i, s := range own {
		steps[i] = rules.Step{
			ID: "kit." + string(s.ID), Pack: "kit", List: list, Phase: o.Phase, Challenge: strings.TrimSuffix(s.Text, "."), Response: o.Done,
			Role: cmp.Or(strings.Join(s.Roles, ", "), o.Anybody), Hold: s.Hold, Notes: s.Note,
		}
	}
	return steps
}

// Cautions are those that the kit itself brings along.
func Cautions(m *manifest.Manifest) []rules.Alert {
	alerts := make([]rules.Alert, len(m.Cautions))
	for i, c := range m.Cautions {
		alerts[i] = rules.Alert{
			ID: "kit", Pack: "kit", Signal: rules.Signal(c.Signal), Hazard: c.Hazard, Consequence: c.Consequence, Avoidance: c.Avoidance,
		}
		for _, list := range c.Before {
			alerts[i].Before = append(alerts[i].Before, string(list))
		}
	}
	return alerts
}

// Gravest puts cautions in order, the gravest signal word first, and changes nothing else.
func Gravest(alerts []rules.Alert) []rules.Alert {
	gravity := []rules.Signal{rules.SignalDanger, rules.SignalWarning, rules.SignalCaution, rules.SignalNotice}
	slices.SortStableFunc(alerts, func(a, b rules.Alert) int {
		return cmp.Compare(slices.Index(gravity, a.Signal), slices.Index(gravity, b.Signal))
	})
	return alerts
}
