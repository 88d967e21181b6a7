package cost

import (
	"fmt"
	"math"
	"testing"

	"hoistbook/kits/unit"
)

func single(supplier, each string, lead unit.Duration) Offer {
	return Offer{Supplier: supplier, OrderCode: supplier + "-1", Pack: 1, Price: price(each), LeadTime: lead}
}

// Goods of 12.50 from a supplier with postage of 4, by minimum and by the value from which postage is free. Make-up is spent
// on goods too, so that 12.50 with a minimum of 20 are 20, and 30 short of 50.
func TestWhatAParcelAsks(t *testing.T) {
	for _, c := range []struct {
		minimum, free                 string // no free postage when empty
		makeUp, postage, cost, toFree string
	}{
		{"0", "", "0.00", "4.00", "16.50", "0.00"},
		{"0", "12.50", "0.00", "0.00", "12.50", "0.00"},
		{"0", "12.51", "0.00", "4.00", "16.50", "0.01"},
		{"0", "50", "0.00", "4.00", "16.50", "37.50"},
		{"0", "0", "0.00", "0.00", "12.50", "0.00"},
		{"12.50", "50", "0.00", "4.00", "16.50", "37.50"},
		{"12.51", "", "0.01", "4.00", "16.51", "0.00"},
		{"20", "", "7.50", "4.00", "24.00", "0.00"},
		{"20", "50", "7.50", "4.00", "24.00", "30.00"},
		{"20", "20.01", "7.50", "4.00", "24.00", "0.01"},
		{"20", "20", "7.50", "0.00", "20.00", "0.00"},
		{"20", "15", "7.50", "0.00", "20.00", "0.00"},
	} {
		s := Supplier{ID: "S1", Postage: price("4"), Minimum: price(c.minimum)}
		if c.free != "" {
			s.FreeFrom = decimal(c.free)
		}
		o := must(t, request([]Supplier{s}, Part{Ref: "A", Quantity: 1, Offers: []Offer{single("S1", "12.50", day)}}))
		p := o.Parcels[0]
		for _, x := range []struct {
			what string
			got  unit.Money
			want string
		}{{"goods", p.Goods, "12.50"}, {"make-up", p.MakeUp, c.makeUp}, {"postage", p.Postage, c.postage}, {"cost", p.Cost, c.cost},
			{"short of free postage", p.ToFree, c.toFree}, {"net", o.Net, c.cost}, {"total", o.Total, c.cost}, {"tax", o.Tax, "0.00"}} {
			if x.got.String() != x.want+" EUR" {
				t.Errorf("minimum %s, free from %q: %s is %v, want %s", c.minimum, c.free, x.what, x.got, x.want)
			}
		}
	}
}

// Parts of which there is enough, and those that nobody sells in time, do not shift the lines of the others.
func TestLinesBelongToTheirParts(t *testing.T) {
	q := request([]Supplier{{ID: "S1", Postage: price("2")}, {ID: "S2"}, {ID: "S3", Postage: price("1")}},
		Part{Ref: "HAVE", Quantity: 1, Offers: []Offer{single("S2", "1", day)}},
		Part{Ref: "A", Quantity: 2, Offers: []Offer{single("S1", "9", 9*day), single("S3", "3", 2*day)}},
		Part{Ref: "NONE", Quantity: 3},
		Part{Ref: "LATE", Quantity: 4, Offers: []Offer{single("S2", "1", 31*day)}},
		Part{Ref: "B", Quantity: 5, Offers: []Offer{single("S1", "7", 4*day)}},
		Part{Ref: "C", Quantity: 1, Offers: []Offer{single("S1", "6", 30*day)}})
	q.Stock, q.Within = map[string]int{"HAVE": 1, "LATE": 1}, 30*day
	o := must(t, q)
	want := "S1: B 5 x 1 at 7 = 35.00 EUR\nS1: C 1 x 1 at 6 = 6.00 EUR\nS1: goods 41.00 EUR, make-up 0.00 EUR, postage 2.00 EUR\n" +
		"S3: A 2 x 1 at 3 = 6.00 EUR\nS3: goods 6.00 EUR, make-up 0.00 EUR, postage 1.00 EUR\nnet 50.00 EUR"
	if got := bill(o); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if got, want := fmt.Sprint(o.Unavailable), "[{NONE 3 0 3} {LATE 4 1 3}]"; got != want || o.Complete() {
		t.Errorf("unavailable are %s, want %s; complete %v", got, want, o.Complete())
	}
	if a, b := o.Parcels[0], o.Parcels[1]; a.LeadTime != 30*day || b.LeadTime != 2*day || o.LeadTime != 30*day {
		t.Errorf("parcels in %v and %v, the order in %v; want 30, 2 and 30 days", a.LeadTime, b.LeadTime, o.LeadTime)
	}
	if l := o.Parcels[0].Lines[0]; l.OrderCode != "S1-1" || l.LeadTime != 4*day || l.Pack != 1 {
		t.Errorf("the line of B is %v", l)
	}
	// From S1 alone it is 2 · 9 + 41 + 2 = 61; S2 sells nothing in time that is needed.
	if got := fmt.Sprint(o.Greedy.Suppliers, o.Greedy.Net, o.Single.Suppliers, o.Single.Net, o.SecondBest.Suppliers, o.SecondBest.Net); got != "[S1 S3] 50.00 EUR [S1] 61.00 EUR [S1] 61.00 EUR" || !o.Proven {
		t.Errorf("greedy, single and second best are %s, proven %v", got, o.Proven)
	}
}

// The price of the break that is reached stands in the line: at 4 packs the first price, at 5 the next, at 12 the last.
func TestTheLineTellsThePriceReached(t *testing.T) {
	for pieces, want := range map[int]string{
		4: "4 2 at 3.00 = 12.00 EUR", 5: "5 2 at 2.50 = 12.50 EUR", 6: "6 2 at 2.50 = 15.00 EUR", 11: "11 2 at 2.50 = 27.50 EUR", 12: "12 2 at 2.40 = 28.80 EUR", 13: "13 2 at 2.40 = 31.20 EUR",
	} {
		o := must(t, request([]Supplier{{ID: "S1"}}, Part{Ref: "A", Quantity: 2 * pieces, Offers: []Offer{
			{Supplier: "S1", Pack: 2, Price: price("3.00"), Breaks: []Break{{5, price("2.50")}, {12, price("2.40")}}}}}))
		l := o.Parcels[0].Lines[0]
		if got := fmt.Sprintf("%d %d at %s = %s", l.Packs, l.Pack, l.Price, l.Amount); got != want {
			t.Errorf("%d packs: got %s, want %s", pieces, got, want)
		}
	}
}

// Not known, and never, are both "not known" in a line, its parcel and the order, whatever is known of the rest.
func TestALeadTimeThatIsNotKnown(t *testing.T) {
	for _, lead := range []float64{math.NaN(), math.Inf(1)} {
		o := must(t, request([]Supplier{{ID: "S1"}, {ID: "S2"}},
			Part{Ref: "A", Quantity: 1, Offers: []Offer{single("S1", "1", unit.Duration(lead))}},
			Part{Ref: "B", Quantity: 1, Offers: []Offer{single("S1", "1", 3*day)}},
			Part{Ref: "C", Quantity: 1, Offers: []Offer{single("S2", "1", 2*day)}}))
		p := o.Parcels[0]
		if !math.IsNaN(float64(p.Lines[0].LeadTime)) || p.Lines[1].LeadTime != 3*day || !math.IsNaN(float64(p.LeadTime)) || !math.IsNaN(float64(o.LeadTime)) || o.Parcels[1].LeadTime != 2*day {
			t.Errorf("lead times %v and %v, of the parcels %v and %v, of the order %v", p.Lines[0].LeadTime, p.Lines[1].LeadTime, p.LeadTime, o.Parcels[1].LeadTime, o.LeadTime)
		}
	}
}

// A costs the same from three; the order comes from the soonest, and the next best is another of them at the same cost. A
// known lead time is sooner than one that is not.
func TestTheSoonestOfEqualOrders(t *testing.T) {
	sellers := []Supplier{{ID: "S1", Postage: price("2")}, {ID: "S2", Postage: price("2")}, {ID: "S3", Postage: price("2")}}
	a := Part{Ref: "A", Quantity: 1, Offers: []Offer{single("S1", "5", 20*day), single("S2", "5", 5*day), single("S3", "5", 10*day)}}
	o := must(t, request(sellers, a))
	if second := o.SecondBest; o.LeadTime != 5*day || o.Parcels[0].Supplier != "S2" || second.Net.String() != "7.00 EUR" || len(second.Suppliers) != 1 || second.Suppliers[0] == "S2" || !o.Proven {
		t.Errorf("%s in %v, second %v, proven %v", o.Parcels[0].Supplier, o.LeadTime, second, o.Proven)
	}
	a.Offers[2].LeadTime, a.Offers[1].LeadTime = unit.Duration(math.NaN()), unit.Duration(math.Inf(1))
	if o := must(t, request(sellers, a)); o.LeadTime != 20*day || o.Parcels[0].Supplier != "S1" {
		t.Errorf("of three the one that is known is not taken: %s in %v", o.Parcels[0].Supplier, o.LeadTime)
	}
	// A cent dearer is not equal: 7.01 in a day, 7.00 in five.
	a.Offers = []Offer{single("S1", "5.01", day), single("S2", "5", 5*day)}
	if o := must(t, request(sellers, a)); o.LeadTime != 5*day || fmt.Sprint(o.SecondBest.Suppliers, o.SecondBest.Net) != "[S1] 7.01 EUR" {
		t.Errorf("in %v, second %v", o.LeadTime, o.SecondBest)
	}
	// Both are used in any case, so that A comes from the sooner, and an order from the same two is no second. From the other
	// sets: nothing, as B and C have one supplier each.
	o = must(t, request(sellers[:2], Part{Ref: "A", Quantity: 1, Offers: []Offer{single("S1", "5", 20*day), single("S2", "5", 5*day)}},
		Part{Ref: "B", Quantity: 1, Offers: []Offer{single("S1", "1", day)}}, Part{Ref: "C", Quantity: 1, Offers: []Offer{single("S2", "1", day)}}))
	if o.LeadTime != 5*day || o.SecondBest != nil || o.Net.String() != "11.00 EUR" {
		t.Errorf("in %v for %v, second %v", o.LeadTime, o.Net, o.SecondBest)
	}
	// One parcel in 20 days is as dear as two in a day, 2 + 2 + 5 + 1: fewer parcels come first.
	o = must(t, request(sellers[:2], Part{Ref: "A", Quantity: 1, Offers: []Offer{single("S1", "7", 20*day), single("S2", "5", day)}},
		Part{Ref: "B", Quantity: 1, Offers: []Offer{single("S1", "1", day)}}))
	if o.LeadTime != 20*day || len(o.Parcels) != 1 || fmt.Sprint(o.SecondBest.Suppliers, o.SecondBest.Net) != "[S1 S2] 10.00 EUR" {
		t.Errorf("%d parcels in %v, second %v", len(o.Parcels), o.LeadTime, o.SecondBest)
	}
}

// Single is the cheapest of those that have everything: S1 8 + 9 + 1 = 18, S2 7 + 8 + 2 = 17, S3 lacks B. Where each is
// cheapest: 5 + 8 + 6 + 2 = 21.
func TestTheCheapestSingleSupplier(t *testing.T) {
	o := must(t, request([]Supplier{{ID: "S1", Postage: price("1")}, {ID: "S2", Postage: price("2")}, {ID: "S3", Postage: price("6")}},
		Part{Ref: "A", Quantity: 1, Offers: []Offer{single("S1", "8", day), single("S2", "7", day), single("S3", "5", day)}},
		Part{Ref: "B", Quantity: 1, Offers: []Offer{single("S1", "9", day), single("S2", "8", day)}}))
	for _, c := range []struct {
		name string
		got  *Alternative
		want string
	}{{"single", o.Single, "[S2] 17.00 EUR"}, {"greedy", o.Greedy, "[S2 S3] 21.00 EUR"}, {"second best", o.SecondBest, "[S1] 18.00 EUR"}} {
		if c.got == nil || fmt.Sprint(c.got.Suppliers, c.got.Net) != c.want {
			t.Errorf("%s: got %v, want %s", c.name, c.got, c.want)
		}
	}
}
