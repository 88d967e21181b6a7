package manifest

import (
	"cmp"
	"iter"
	"maps"
	"slices"

	"hoistbook/kits/unit"
)

// Ref is the name by which one thing of a manifest is called in another: a part, a rail, a supplier, a signal. It has no
// dots, because the names of facts are built of it, and does not start with "x-", which marks a note.
type Ref string

// Pattern is what a reference may look like.
func (Ref) Pattern() string { return `[A-Za-z0-9][A-Za-z0-9_-]{0,31}` }

// Form says so in words.
func (Ref) Form() string {
	return "a name of at most 32 letters, digits, \"-\" and \"_\", starting with a letter or a digit"
}

// Pin is the name of a pin of a plug.
type Pin string

// Pattern is what the name of a pin may look like.
func (Pin) Pattern() string { return `[A-Za-z0-9+-]{1,16}` }

// Form says so in words.
func (Pin) Form() string { return "at most 16 letters, digits, \"+\" and \"-\"" }

// PackID is the name of a rule pack.
type PackID string

// Pattern is what the name of a rule pack may look like.
func (PackID) Pattern() string { return `[a-z][a-z0-9-]{0,31}` }

// Form says so in words.
func (PackID) Form() string { return "lower-case letters, digits and \"-\", such as \"us\"" }

// RuleID is the name of a rule.
type RuleID string

// Pattern is what the name of a rule may look like.
func (RuleID) Pattern() string { return `[a-z][a-z0-9_-]{0,31}(\.[a-z0-9][a-z0-9_-]{0,31}){0,4}` }

// Form says so in words.
func (RuleID) Form() string { return "the id of a rule, such as \"tether.margin\"" }

// Revision is a revision number by Semantic Versioning 2.0.0.
type Revision string

// Pattern is the grammar of Semantic Versioning 2.0.0.
func (Revision) Pattern() string {
	const number, word = `(0|[1-9][0-9]{0,8})`, `(0|[1-9][0-9]*|[0-9]*[A-Za-z-][0-9A-Za-z-]*)`
	return number + `\.` + number + `\.` + number + `(-` + word + `(\.` + word + `)*)?(\+[0-9A-Za-z-]+(\.[0-9A-Za-z-]+)*)?`
}

// Form says so in words.
func (Revision) Form() string { return "three numbers with points between, such as \"1.2.0\"" }

// Packs is a whole number of packs, in digits.
type Packs string

// Pattern is what a number of packs may look like.
func (Packs) Pattern() string { return `[1-9][0-9]{0,5}` }

// Form says so in words.
func (Packs) Form() string { return "a whole number in digits, such as \"10\"" }

// Breaks are prices of a pack by the number of packs from which they hold.
type Breaks map[Packs]unit.Decimal

// Waivers are reasons by rule.
type Waivers map[RuleID]Reason

// Reason is why a rule is not followed. It is printed, and somebody answers for it.
type Reason string

// Pattern is any text of two words or more: a letter that stops a tool from asking is no reason.
func (Reason) Pattern() string { return `.*\S{2,}\s+\S{2,}.*` }

// Form says so in words.
func (Reason) Form() string { return "the reason in a few words, as it is to be printed" }

// Pins say what is on each pin of a plug: a rail, a signal, GND.
type Pins map[Pin]Ref

// Colours say which colour the conductor has that carries a rail, a signal or GND.
type Colours map[Ref]string

// Callee is whom a crew calls, as the lists call them.
type Callee string

// Pattern is what whom a crew calls may be called.
func (Callee) Pattern() string { return `[a-z][a-z -]{0,59}` }

// Form says so in words.
func (Callee) Form() string { return "lower-case words, such as \"landowner\"" }

// Contacts say where whom a crew calls is reached.
type Contacts map[Callee]string

// Map is a table of things by reference.
type Map[T any] map[Ref]T

// Sorted visits a map in the order of its keys: map order must never reach a document.
func Sorted[K cmp.Ordered, V any](m map[K]V) iter.Seq2[K, V] {
	return func(yield func(K, V) bool) {
		for _, k := range slices.Sorted(maps.Keys(m)) {
			if !yield(k, m[k]) {
				return
			}
		}
	}
}
