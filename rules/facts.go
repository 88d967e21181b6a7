package rules

import "hoistbook/kits/fact"

// Facts answers what the engine asks of one kit.
type Facts interface {
	// Lookup returns a fact's value by its id, without a star; ok is false when this kit has no such fact.
	Lookup(id string) (value fact.Value, ok bool)
	// Subjects lists the members of a family in a fixed order: the loads of "power.loads".
	Subjects(family string) []string
}

// A Catalogue says what facts there can be, before any kit is looked at. Packs are checked against it when they load.
type Catalogue interface {
	// Describe finds a fact by its id, with a star for the subject ("power.loads.*.lowest_v") or with a subject's own name.
	Describe(id string) (description fact.Description, ok bool)
	// IDs lists the ids, those of families with their star.
	IDs() []string
	// Families lists what for_each can run over.
	Families() []string
}
