// Package manifest turns the text of a build manifest, and of the overlays that a club lays over it, into a checked
// Manifest that knows the place of every value.
//
// What the schema requires is only what identifies a thing or ties it to another. Anything else may be missing: then a
// fact cannot be shown, which is for a rule to judge and is no error of the file. Nothing here computes or judges.
package manifest
