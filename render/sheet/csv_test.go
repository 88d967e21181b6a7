package sheet

import (
	"encoding/csv"
	"flag"
	"math/big"
	"os"
	"strings"
	"testing"
	"time"

	"hoistbook/kits"
)

var update = flag.Bool("update", false, "write the goldens anew; then read the difference")

// plan needs one kit on a day: what takes 36 hours is ordered two days before.
func plan() kits.OrderPlan {
	return kits.OrderPlan{Kits: 1, Deployments: 1, Today: time.Date(2027, 2, 20, 0, 0, 0, 0, time.UTC), NeededBy: time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)}
}

func TestCSVIsAsReviewed(t *testing.T) {
	const golden = "testdata/order.csv"
	got := CSV(orderOf(t, `{ "parts": { "NIX1": { "name": "what nobody sells", "place": "ground" } } }`, plan()))
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Errorf("got\n%s\nwant\n%s\nif it should be so, run the tests of this package with -update", got, want)
	}
}

// Read by RFC 4180, the rows of goods and charges add up to the total, and no text begins like a formula.
func TestCSVAddsUp(t *testing.T) {
	o := orderOf(t, `{}`, kits.OrderPlan{Kits: 7})
	text := CSV(o)
	if strings.Count(string(text), "\n") != strings.Count(string(text), "\r\n") {
		t.Error("a line does not end with CR LF")
	}
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	sum, said := new(big.Rat), map[string]string{}
	for i, row := range rows {
		for k, cell := range row {
			if strings.IndexAny(cell, "=+-@\t\r") == 0 {
				t.Errorf("row %d: %q looks like a formula", i+1, cell)
			}
			if i > 0 && (k == 9 || k == 10) && cell != "" {
				if _, ok := new(big.Rat).SetString(cell); !ok {
					t.Errorf("row %d: %q is no number", i+1, cell)
				}
			}
		}
		switch row[0] {
		case rowGoods, rowMakeUp, rowPostage, rowTax:
			amount, _ := new(big.Rat).SetString(row[10])
			sum.Add(sum, amount)
		case rowNet, rowAllTax, rowTotal:
			said[row[0]] = row[10]
		}
	}
	if sum.Cmp(o.Total.Rat()) != 0 || said[rowTotal] != o.Total.Decimal().String() || said[rowNet] != o.Net.Decimal().String() || said[rowAllTax] != o.Tax.Decimal().String() {
		t.Errorf("the rows add up to %s, and say %v; the order costs %s", sum.FloatString(4), said, o.Total)
	}
}

func TestLooksLikeFormula(t *testing.T) {
	for text, want := range map[string]bool{
		"=1+1": true, "+441": true, "-7": true, "@cmd": true, "\t=1": true, "\r=1": true, "\n=1": true, "  =1": true, "＝1": true, "\u00a0-1": true,
		"bolt, M3": false, "3 V = 3 V": false, "'=1": false, "0": false,
	} {
		if got := looksLikeFormula(text); got != want {
			t.Errorf("%q: got %v, want %v", text, got, want)
		}
	}
}
