package rules

import (
	"slices"
	"strings"
)

// An Alert is a caution for one kit and one subject, its texts in the reader's units.
type Alert struct {
	ID, Pack    string
	Subject     string
	Signal      Signal
	Hazard      string
	Consequence string
	Avoidance   string
	Before      []string
	Source      []string
	Gear        []Tool
	Calls       []string
}

// Precedes reports whether the alert is printed before a list as a whole ("preflight") or before one of its phases
// ("preflight/Fill the balloon").
func (a Alert) Precedes(place string) bool { return slices.Contains(a.Before, place) }

// Concerns reports whether the alert is printed before a list or before any phase of it.
func (a Alert) Concerns(list string) bool {
	return slices.ContainsFunc(a.Before, func(place string) bool { return place == list || strings.HasPrefix(place, list+"/") })
}

// Cautions returns the cautions of the packs in force, the gravest signal word first and otherwise in the order of the
// packs. One whose guard cannot be decided stays in.
func Cautions(packs Packs, facts Facts, o Options) []Alert {
	var alerts []Alert
	for _, p := range packs.InForce(o.Regions) {
		for _, c := range p.Cautions {
			for _, subject := range subjects(facts, c.ForEach) {
				s := scope{facts, subject, o.System, o.Say}
				if s.run(c.plan.when).outcome != NotMet {
					alerts = append(alerts, c.alert(s))
				}
			}
		}
	}
	gravity := []Signal{SignalDanger, SignalWarning, SignalCaution, SignalNotice}
	slices.SortStableFunc(alerts, func(a, b Alert) int { return slices.Index(gravity, a.Signal) - slices.Index(gravity, b.Signal) })
	return alerts
}

func (c *Caution) alert(s scope) Alert {
	return Alert{
		ID: c.ID, Pack: c.pack.ID, Subject: s.subject, Signal: c.Signal, Hazard: s.text(c.plan.hazard),
		Consequence: s.text(c.plan.consequence), Avoidance: s.text(c.plan.avoidance), Before: c.Before, Source: c.plan.sources,
		Gear: s.tools(c.Gear), Calls: c.Calls,
	}
}
