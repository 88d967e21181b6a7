package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"hoistbook/kits"
	"hoistbook/schemas"
)

// ordered runs the command with every form of output.
func ordered(t *testing.T, want int, args ...string) (dir, said, json string) {
	t.Helper()
	dir = t.TempDir()
	run := func(more ...string) string {
		var out, fault bytes.Buffer
		if got := Run(append(append([]string{"order"}, args...), more...), Streams{In: strings.NewReader(""), Out: &out, Err: &fault}); got != want {
			t.Fatalf("%q ends with %d, want %d\n%s", args, got, want, &fault)
		}
		return out.String()
	}
	said = run("-o", filepath.Join(dir, "o.pdf"), "-o", filepath.Join(dir, "o.xlsx"), "-o", filepath.Join(dir, "o.csv"))
	return dir, said, run("--json")
}

// sums are the amounts that every form must agree on.
type sums struct {
	suppliers map[string]string // with tax
	net       string
	tax       string
	total     string
	each      string
}

func (s sums) String() string {
	return fmt.Sprintf("%v net %s tax %s total %s each %s", s.suppliers, s.net, s.tax, s.total, s.each)
}

func fromJSON(t *testing.T, text string) sums {
	t.Helper()
	var any any
	decoder := json.NewDecoder(strings.NewReader(text))
	decoder.UseNumber()
	if err := decoder.Decode(&any); err != nil {
		t.Fatal(err)
	}
	if violated := schemas.Validate("order", any); len(violated) > 0 {
		t.Errorf("the schema says %v", violated)
	}
	var r struct {
		Orders          []struct{ Supplier, Total string }
		Net, Tax, Total string
		Each            string `json:"each_kit"`
	}
	if err := json.Unmarshal([]byte(text), &r); err != nil {
		t.Fatal(err)
	}
	s := sums{map[string]string{}, r.Net, r.Tax, r.Total, r.Each}
	for _, o := range r.Orders {
		s.suppliers[o.Supplier] = o.Total
	}
	return s
}

func fromCSV(t *testing.T, file string) sums {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	s := sums{suppliers: map[string]string{}}
	added := new(big.Rat)
	for _, row := range rows {
		amount := row[10]
		switch row[0] {
		case "supplier total":
			s.suppliers[row[1]] = amount
		case "order net":
			s.net = amount
		case "order tax":
			s.tax = amount
		case "order total":
			s.total = amount
		case "each kit":
			s.each = amount
		case "goods", "make-up", "postage", "tax":
			one, ok := new(big.Rat).SetString(amount)
			if !ok {
				t.Fatalf("%q is no amount", amount)
			}
			added.Add(added, one)
		}
	}
	if total, _ := new(big.Rat).SetString(s.total); total == nil || added.Cmp(total) != 0 {
		t.Errorf("the rows of the table add up to %s, and it says %s", added.FloatString(4), s.total)
	}
	return s
}

// fromXLSX recalculates the sums from their formulas.
func fromXLSX(t *testing.T, file string) sums {
	t.Helper()
	f, err := excelize.OpenFile(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	calculated := func(cell string) string {
		text, err := f.CalcCellValue("Order", cell, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Errorf("%s: %v", cell, err)
		}
		n, ok := new(big.Rat).SetString(text)
		if !ok {
			t.Errorf("%s: %q is no number", cell, text)
			return ""
		}
		return n.FloatString(2)
	}
	s := sums{suppliers: map[string]string{}}
	rows, err := f.GetRows("Order")
	if err != nil {
		t.Fatal(err)
	}
	table := false
	for i, row := range rows {
		first := ""
		if len(row) > 0 {
			first = row[0]
		}
		at := func(column string) string { return calculated(fmt.Sprint(column, i+1)) }
		switch {
		case first == "Supplier":
			table = true
		case strings.HasPrefix(first, "All, "):
			table = false
			s.net, s.tax, s.total = at("F"), at("G"), at("H")
		case first == "To pay now":
			s.each = at("C")
		case table:
			s.suppliers[first] = at("H")
		}
	}
	return s
}

var (
	toPay    = regexp.MustCompile(`To pay, [A-Z]{3} +([0-9.]+)`)
	supplied = regexp.MustCompile(`Supplier +.*\((\S+)\)`)
	all      = regexp.MustCompile(`All, [A-Z]{3} +([0-9.]+) .* ([0-9.]+) +([0-9.]+) +([0-9]+\.[0-9]+) +[0-9–]`)
	eachKit  = regexp.MustCompile(`To pay now +([0-9.]+)`)
)

// fromPDF reads the pages back by another program.
func fromPDF(t *testing.T, file string) sums {
	t.Helper()
	const name = "pdftotext"
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed (Debian: poppler-utils)", name)
		}
		t.Skipf("%s is not installed (Debian: poppler-utils)", name)
	}
	text, err := exec.Command(name, "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	s := sums{suppliers: map[string]string{}}
	supplier := ""
	for line := range strings.Lines(string(text)) {
		if m := supplied.FindStringSubmatch(line); m != nil {
			supplier = m[1]
		}
		if m := toPay.FindStringSubmatch(line); m != nil {
			s.suppliers[supplier] = m[1]
		}
		if m := all.FindStringSubmatch(line); m != nil {
			s.net, s.tax, s.total = m[2], m[3], m[4]
		}
		if m := eachKit.FindStringSubmatch(line); m != nil {
			s.each = m[1]
		}
	}
	return s
}

// Every total agrees, to the last cent, in PDF, XLSX, CSV and JSON, and on the terminal.
func TestOrderTotalsAgree(t *testing.T) {
	change := filepath.Join(t.TempDir(), "change.json")
	// 11.50 × 1.19 ends in half a cent, and so does a pack at 0.125.
	if err := os.WriteFile(change, []byte(`{ "budget": { "tax": "19 %" }, "suppliers": { "CHIP": { "postage": "0.37", "least_order": "900.00" } },
		"parts": { "RAD1": { "offers": [ { "supplier": "REED", "order_code": "=2*2", "price": "11.505", "pack": 3 } ] } } }`), 0o644); err != nil {
		t.Fatal(err)
	}
	cases := [][]string{{"demo:marsh-data", "--with", change, "--kits", "7"}}
	for _, id := range kits.Demos() {
		cases = append(cases, []string{"demo:" + id, "--kits", "12"}, []string{"demo:" + id, "--paper", "letter", "--deployments", "3"})
	}
	for _, args := range cases {
		dir, said, text := ordered(t, Done, args...)
		want := fromJSON(t, text)
		if len(want.suppliers) < 2 || want.each == "" {
			t.Fatalf("%q: %v", args, want)
		}
		for form, got := range map[string]sums{
			"CSV": fromCSV(t, filepath.Join(dir, "o.csv")), "XLSX": fromXLSX(t, filepath.Join(dir, "o.xlsx")), "PDF": fromPDF(t, filepath.Join(dir, "o.pdf")),
		} {
			if got.String() != want.String() {
				t.Errorf("%q: %s says %v, want %v", args, form, got, want)
			}
		}
		for _, amount := range []string{want.tax, want.total, fmt.Sprintf("  %-66s%12s\n", "to pay now", want.each)} {
			if !strings.Contains(said, amount) {
				t.Errorf("%q: the terminal does not say %s\n%s", args, amount, said)
			}
		}
		sum := new(big.Rat)
		for _, amount := range want.suppliers {
			one, _ := new(big.Rat).SetString(amount)
			sum.Add(sum, one)
		}
		if sum.FloatString(2) != want.total {
			t.Errorf("%q: the invoices add up to %s, the total is %s", args, sum.FloatString(2), want.total)
		}
	}
}

// Nothing that is printed is wider than a terminal of eighty columns, unless a word is.
func TestOrderFitsTheTerminal(t *testing.T) {
	for _, id := range kits.Demos() {
		var out bytes.Buffer
		if got := Run([]string{"order", "demo:" + id, "--kits", "999"}, Streams{In: strings.NewReader(""), Out: &out, Err: &out}); got != Done {
			t.Fatalf("%s: %d\n%s", id, got, &out)
		}
		for line := range strings.Lines(out.String()) {
			if n := len([]rune(strings.TrimRight(line, "\n"))); n > 80 {
				t.Errorf("%s: %d columns: %s", id, n, line)
			}
		}
	}
}
