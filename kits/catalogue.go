package kits

import (
	"slices"

	"hoistbook/kits/fact"
)

// catalogue is every fact, in the order of reports.
var catalogue = slices.Concat(stationFacts, airFacts, massFacts, liftFacts, greatestFacts, tetherFacts, powerFacts, batteryFacts, signalFacts, radioFacts, planFacts, costFacts, countFacts, crewFacts, stepFacts, hazardFacts, claimFacts, overlayFacts)

// families is every family of subjects.
var families = []*family{rails, loads, converters, fuses, batteries, signals, transmitters, receivers, exposures, links, releases, packing}

// Catalogue is what can be said of the facts before there is a manifest.
type Catalogue struct{}

// Entries lists the catalogue in the order of reports. The caller may not change it.
func (Catalogue) Entries() []*Entry { return catalogue }

// Describe finds the description of a fact by its id, with a star or with a subject in place of it.
func (Catalogue) Describe(id string) (fact.Description, bool) {
	for _, e := range catalogue {
		if e.ID == id {
			return e.Description, true
		}
	}
	for _, e := range catalogue {
		if _, ok := fact.Match(e.ID, id); ok && e.family != nil {
			return e.Description, true
		}
	}
	return fact.Description{}, false
}

// IDs lists the ids, with stars.
func (Catalogue) IDs() []string {
	ids := make([]string, len(catalogue))
	for i, e := range catalogue {
		ids[i] = e.ID
	}
	return ids
}

// Families lists the names of the families.
func (Catalogue) Families() []string {
	ids := make([]string, len(families))
	for i, f := range families {
		ids[i] = f.id
	}
	return ids
}
