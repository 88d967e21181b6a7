// Package licences carries the licences of everything that is linked into the program, because most of them ask that their
// text goes wherever the program goes.
package licences

import _ "embed"

// Notices are the licences in full. They are written by go run ./cmd/dev licences.
//
//go:embed notices.txt
var Notices string
