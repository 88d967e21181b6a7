package cost

import (
	"fmt"
	"slices"
	"testing"

	"hoistbook/kits/unit"
)

// Both parts together cost 11 from each of three, and more from any two for a second postage. Whichever is the soonest, it is
// taken, and one of the others is the second best, at the same 17.
func TestTheSoonestOfEqualSuppliers(t *testing.T) {
	leads := []unit.Duration{5 * day, 10 * day, 20 * day}
	for _, turn := range [][]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		a, b := Part{Ref: "A", Quantity: 1}, Part{Ref: "B", Quantity: 1}
		var sellers []Supplier
		for i, each := range [][2]string{{"5", "6"}, {"7", "4"}, {"6", "5"}} {
			id := fmt.Sprint("S", i+1)
			sellers = append(sellers, Supplier{ID: id, Postage: price("6")})
			a.Offers = append(a.Offers, single(id, each[0], leads[turn[i]]))
			b.Offers = append(b.Offers, single(id, each[1], leads[turn[i]]))
		}
		o := must(t, request(sellers, a, b))
		soonest := sellers[slices.Index(turn, 0)].ID
		if len(o.Parcels) != 1 || o.Parcels[0].Supplier != soonest || o.LeadTime != 5*day || o.Net.String() != "17.00 EUR" || !o.Proven {
			t.Errorf("%v: from %s in %v, want %s\n%s", turn, o.Parcels[0].Supplier, o.LeadTime, soonest, bill(o))
		}
		if s := o.SecondBest; s == nil || s.Net.String() != "17.00 EUR" || len(s.Suppliers) != 1 || s.Suppliers[0] == soonest {
			t.Errorf("%v: second best is %v, and %s the best", turn, s, soonest)
		}
	}
}

// C costs 75 from S1 and D 9 from S2, and nobody else has them. A or B for 6 instead of 5 lifts S1 to the 80 that are free of
// postage: the one that is sooner there. 75 + 6 + 5 + 9 + 2 = 97. No other suppliers can do it, so that nothing is second.
func TestTheSoonestOfEqualPartsToMove(t *testing.T) {
	for _, c := range []struct{ a, b unit.Duration }{{20 * day, 2 * day}, {2 * day, 20 * day}} {
		o := must(t, request([]Supplier{{ID: "S1", Postage: price("6.50"), FreeFrom: decimal("80")}, {ID: "S2", Postage: price("2")}},
			Part{Ref: "A", Quantity: 1, Offers: []Offer{single("S1", "6", c.a), single("S2", "5", day)}},
			Part{Ref: "B", Quantity: 1, Offers: []Offer{single("S1", "6", c.b), single("S2", "5", day)}},
			Part{Ref: "C", Quantity: 1, Offers: []Offer{single("S1", "75", day)}},
			Part{Ref: "D", Quantity: 1, Offers: []Offer{single("S2", "9", day)}}))
		if o.Net.String() != "97.00 EUR" || o.LeadTime != 2*day || o.SecondBest != nil || !o.Proven {
			t.Errorf("in %v, second best %v\n%s", o.LeadTime, o.SecondBest, bill(o))
		}
	}
}

// Of one part from two equal suppliers the first is told as the single one. No order of one part lacks a single supplier.
func TestTheFirstOfEqualSingleSuppliers(t *testing.T) {
	o := must(t, request([]Supplier{{ID: "S1"}, {ID: "S2"}}, Part{Ref: "A", Quantity: 1, Offers: []Offer{single("S2", "5", day), single("S1", "5", 2*day)}}))
	if o.Single == nil || fmt.Sprint(o.Single.Suppliers, o.Single.Net) != "[S1] 5.00 EUR" {
		t.Errorf("single is %v", o.Single)
	}
}

// Five packs or none, at the price for two and more: three pieces are 5 · 0.80 = 4, or 3 · 2 from singles. Never 3 · 0.80.
func TestFewerPacksThanAreSoldAreNotBought(t *testing.T) {
	dear, few := single("S1", "2.00", day), single("S1", "1.00", day)
	few.Least, few.Breaks = 5, []Break{{2, price("0.80")}}
	for _, offers := range [][]Offer{{dear, few}, {few, dear}} {
		o := must(t, request([]Supplier{{ID: "S1"}}, Part{Ref: "A", Quantity: 3, Offers: offers}))
		if got, want := bill(o), "S1: A 5 x 1 at 0.80 = 4.00 EUR\nS1: goods 4.00 EUR, make-up 0.00 EUR, postage 0.00 EUR\nnet 4.00 EUR"; got != want {
			t.Errorf("got\n%s\nwant\n%s", got, want)
		}
	}
}

// A piece at half a cent is a line of 0.00, two are one of 0.01: shared between two suppliers that are used anyway they are
// cheaper by a cent than from either, as every line is rounded by itself.
func TestLinesBelowACentAreShared(t *testing.T) {
	sellers := []Supplier{{ID: "S1", Minimum: price("1")}, {ID: "S2", Minimum: price("1")}}
	o := must(t, request(sellers,
		Part{Ref: "A", Quantity: 2, Offers: []Offer{single("S1", "0.005", day), single("S2", "0.005", day)}},
		Part{Ref: "B", Quantity: 1, Offers: []Offer{single("S1", "5", day)}},
		Part{Ref: "C", Quantity: 1, Offers: []Offer{single("S2", "5", day)}}))
	if o.Net.String() != "10.00 EUR" || len(o.Parcels) != 2 || len(o.Parcels[0].Lines) != 2 || len(o.Parcels[1].Lines) != 2 {
		t.Errorf("got\n%s", bill(o))
	}
}
