// Package outside holds what this program computes against what others have printed or computed. Only tests use it.
//
// Checks are values from publications; they also become the tables in testdata/checks, so that a reader sees published
// value, ours and the difference side by side. Rows are values of the same formulas worked by other software at random
// points; the scripts that made them stand beside the files.
package outside
