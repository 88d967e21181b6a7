package cost

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"testing"
)

// A solved request is a line of testdata/orders/reference.jsonl: what a general solver of mixed-integer programs (HiGHS, through
// scipy.optimize.milp) makes of it. Amounts are cents; every part is wanted once.
type solved struct {
	Suppliers []struct {
		Postage, Minimum int64
		Free             *int64
	}
	Parts   [][][2]int64 // supplier and price of each offer
	Best    int64
	Parcels int
	Second  *int64
}

func readSolved(t testing.TB) []solved {
	t.Helper()
	f, err := os.Open("../../testdata/orders/reference.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 1<<20)
	lines.Scan() // who made it
	var all []solved
	for lines.Scan() {
		var s solved
		if err := json.Unmarshal(lines.Bytes(), &s); err != nil {
			t.Fatal(err)
		}
		all = append(all, s)
	}
	if err := lines.Err(); err != nil || len(all) != 100 {
		t.Fatalf("%d orders, %v", len(all), err)
	}
	return all
}

func (s solved) request() Request {
	q := Request{Currency: eur, Kits: 1, Deployments: 1}
	for i, x := range s.Suppliers {
		supplier := Supplier{ID: fmt.Sprint("S", i), Postage: cents(x.Postage), Minimum: cents(x.Minimum)}
		if x.Free != nil {
			from := cents(*x.Free)
			supplier.FreeFrom = &from
		}
		q.Suppliers = append(q.Suppliers, supplier)
	}
	for i, offers := range s.Parts {
		p := Part{Ref: fmt.Sprint("P", i), Quantity: 1}
		for _, o := range offers {
			p.Offers = append(p.Offers, Offer{Supplier: fmt.Sprint("S", o[0]), Pack: 1, Price: cents(o[1])})
		}
		q.Parts = append(q.Parts, p)
	}
	return q
}

// Orders of 4 to 100 parts from 2 to 15 suppliers, with postage, free postage and least orders: cost, number of parcels and
// the cost of the second best are those of the general solver, to the cent.
func TestOrdersOfAGeneralSolver(t *testing.T) {
	seconds := 0
	for i, s := range readSolved(t) {
		o := must(t, s.request())
		if o.Net.MinorUnits() != s.Best || len(o.Parcels) != s.Parcels || !o.Proven {
			t.Errorf("order %d: %v in %d parcels, proven %v, want %d cents in %d", i, o.Net, len(o.Parcels), o.Proven, s.Best, s.Parcels)
		}
		switch {
		case (s.Second == nil) != (o.SecondBest == nil):
			t.Errorf("order %d: second best %v, want %v", i, o.SecondBest, s.Second)
		case s.Second != nil && o.SecondBest.Net.MinorUnits() != *s.Second:
			t.Errorf("order %d: second best %v, want %d cents", i, o.SecondBest.Net, *s.Second)
		case s.Second != nil:
			seconds++
		}
	}
	if seconds < 80 {
		t.Errorf("only %d have a second best", seconds)
	}
}
