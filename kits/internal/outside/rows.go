package outside

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// A Row is a formula worked elsewhere.
type Row struct {
	t      *testing.T
	inputs []string
	next   int
}

// Text is the next input, a word.
func (r *Row) Text() string {
	r.next++
	return r.inputs[r.next-1]
}

// Number is the next input, a number.
func (r *Row) Number() float64 {
	n, err := strconv.ParseFloat(r.Text(), 64)
	if err != nil {
		r.t.Fatal(err)
	}
	return n
}

// Rows holds formulas against a table in testdata/formulas: each line is the name of a formula, its inputs and its value.
// A formula of the table that is not given fails, and one that the table does not have fails too.
func Rows(t *testing.T, file string, tolerance float64, formulas map[string]func(*Row) float64) {
	t.Helper()
	f, err := os.Open(filepath.Join(root(t), "testdata", "formulas", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	reader := csv.NewReader(f)
	reader.Comment, reader.FieldsPerRecord = '#', -1
	lines, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	used, worst, at := map[string]int{}, 0.0, ""
	for _, line := range lines {
		name, last := line[0], len(line)-1
		formula := formulas[name]
		if formula == nil {
			t.Fatalf("%s: nothing here works %q", file, name)
		}
		want, err := strconv.ParseFloat(line[last], 64)
		if err != nil {
			t.Fatal(err)
		}
		row := &Row{t: t, inputs: line[1:last]}
		got := formula(row)
		if row.next != len(row.inputs) {
			t.Fatalf("%s: %q has %d inputs, and %d were read", file, name, len(row.inputs), row.next)
		}
		off := math.Abs(got - want)
		if want != 0 {
			off /= math.Abs(want)
		}
		if !(off <= tolerance) {
			t.Errorf("%s %v: got %.12g, want %.12g", name, row.inputs, got, want)
		}
		if off > worst {
			worst, at = off, name
		}
		used[name]++
	}
	for name := range formulas {
		if used[name] == 0 {
			t.Errorf("%s has no row for %q", file, name)
		}
	}
	t.Logf("%d values, worst relative difference %.1e, of %s", len(lines), worst, at)
}
