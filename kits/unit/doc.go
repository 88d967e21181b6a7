// Package unit holds quantities with their units: one Go type per dimension, SI inside.
//
// Most types are named float64s, so that a formula looks like the page it came from and like adds to like; Temperature
// and Level are closed, because adding two of them means nothing. A text is a decimal number and a unit ("85 g",
// "4.75 V to 5.25 V"); exponents, decimal commas and bare numbers are refused: a number without a unit is a question
// to ask, never a default to assume. Conversion factors are those of NIST SP 811 (2008), appendix B.8.
package unit

//go:generate go run hoistbook/cmd/dev units
