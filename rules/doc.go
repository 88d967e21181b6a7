// Package rules judges facts. It knows no balloon: a pack is JSON that holds rules, checklist items and cautions; the facts
// come through an interface; findings go out. Adding a rule is adding one object to a pack.
//
// What is assumed: a fact's value is either right or unknown, and whoever computes it says which. A comparison with an
// unknown value is neither met nor not met but not shown (Kleene's strong three-valued logic), a rule whose guard cannot be
// decided is not shown, and a MUST that is not met, for whatever reason, makes the verdict NO-GO. A rule cannot compute: where
// one seems to need arithmetic, a fact is missing. Conditions are structure and not a language, so nothing in a pack can
// loop, and every fact, unit and number in it is checked when it loads.
package rules

//go:generate go run hoistbook/cmd/dev schemas
