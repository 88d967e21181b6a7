package manifest

import (
	"cmp"
	"iter"
	"maps"
	"slices"

	"hoistbook/kits/unit"
)

// Ref is the name by which one thing of a manifest is called in another: of a part, a rail, a supplier. RefPattern says what it may look like; names of facts are built of it, hence no dots.
type Ref string

// RefPattern is what a reference may look like.
const RefPattern = `^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$`

// Pin is the name of a pin of a plug.
type Pin string

// PackID is the name of a rule pack.
type PackID string

// Revision is a revision number by Semantic Versioning 2.0.0.
type Revision string

// Breaks are prices of a pack by the number of packs from which they hold, a whole number in digits.
type Breaks map[string]unit.Decimal

// Waivers are reasons by rule.
type Waivers map[string]string

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
