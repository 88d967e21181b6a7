package outside

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"hoistbook/kits/source"
)

var update = flag.Bool("update", false, "write the tables of checks anew; then read the difference")

// A Check is a published value and ours.
type Check struct {
	What      string // the quantity and its state
	Source    string // id of a work of the bibliography, or a citation in words
	At        string // page, table or equation
	Published string // the digits as printed
	Unit      string
	Ours      float64
	Within    float64 // how far apart they may be; 0 is half a unit of the last printed digit
	Why       string  // they may be further apart than that
}

// Table holds checks, and holds the table of them in testdata/checks fresh.
func Table(t *testing.T, name, title string, checks []Check) {
	t.Helper()
	var table bytes.Buffer
	fmt.Fprintf(&table, "# %s\n\n<!-- Written by the tests of %s: go test ./%s -update -->\n\n", title, name, name)
	fmt.Fprintf(&table, "| what | published | ours | difference | source |\n|---|--:|--:|--:|---|\n")
	for _, c := range checks {
		published, err := strconv.ParseFloat(strings.ReplaceAll(c.Published, " ", ""), 64)
		if err != nil {
			t.Errorf("%s: %v", c.What, err)
			continue
		}
		within := c.Within
		switch {
		case within == 0:
			within = half(c.Published)
		case c.Why == "":
			t.Errorf("%s: nothing says why %v may be %v off", c.What, c.Published, within)
		}
		if !(math.Abs(c.Ours-published) <= within*(1+1e-9)) {
			t.Errorf("%s: got %v %s, published %s, they may be %v apart", c.What, c.Ours, c.Unit, c.Published, within)
		}
		why := ""
		if c.Why != "" {
			why = "; " + c.Why
		}
		fmt.Fprintf(&table, "| %s | %s | %s | %s | %s |\n", c.What, with(c.Published, c.Unit), with(digits(c.Ours, c.Published), c.Unit),
			Difference(c.Ours, published), cite(c)+why)
	}
	Golden(t, filepath.Join(root(t), "testdata", "checks", filepath.Base(name)+".md"), table.Bytes())
}

// Golden holds a generated file fresh.
func Golden(t *testing.T, file string, want []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(file)
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("%s is stale (%v): run this test with -update and read the difference", file, err)
	}
}

// root finds the folder of the module from that of the test.
func root(t *testing.T) string {
	t.Helper()
	for dir := "."; len(dir) < 40; dir = filepath.Join(dir, "..") {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
	}
	t.Fatal("there is no go.mod above")
	return ""
}

func cite(c Check) string {
	if work, ok := source.Find(c.Source); ok {
		return work.Cite(c.At, "")
	}
	if c.At != "" {
		return c.Source + ", " + c.At
	}
	return c.Source
}

func with(number, unit string) string { return strings.TrimSpace(number + " " + unit) }

// half is half a unit of the last digit of a printed number.
func half(printed string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ReplaceAll(printed, " ", ""), "e")
	e, _ := strconv.Atoi(exponent)
	_, decimals, _ := strings.Cut(mantissa, ".")
	return 0.5 * math.Pow(10, float64(e-len(decimals)))
}

// digits prints ours with two more digits than the other has.
func digits(ours float64, printed string) string {
	if strings.Contains(printed, "e") {
		mantissa, _, _ := strings.Cut(printed, "e")
		_, decimals, _ := strings.Cut(mantissa, ".")
		return strconv.FormatFloat(ours, 'e', len(decimals)+2, 64)
	}
	_, decimals, _ := strings.Cut(printed, ".")
	return strconv.FormatFloat(ours, 'f', len(decimals)+2, 64)
}

// Difference prints by how much ours differs, relative to the other. What is below a millionth is not told apart: another
// processor may round it otherwise.
func Difference(ours, theirs float64) string {
	off := math.Abs(ours - theirs)
	if theirs != 0 {
		off /= math.Abs(theirs)
	}
	if off < 1e-6 {
		return "< 0.0001 %"
	}
	return strconv.FormatFloat(100*off, 'g', 1, 64) + " %"
}
