package cost

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/unit"
)

func onePart(change func(*Request)) Request {
	q := request([]Supplier{{ID: "S1"}}, Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", OrderCode: "X-1", Pack: 1, Price: price("5")}}})
	change(&q)
	return q
}

// What lies on a bound is ordered, what lies one beyond it is refused. A cent has a hundred to the euro, and a price with six
// decimals makes a million fine units of one.
func TestBoundsOfARequest(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name   string
		change func(*Request)
		want   string // of the error; none when empty
	}{
		{"one kit below zero", func(q *Request) { q.Kits = -1 }, "-1 kits cannot be ordered"},
		{"deployments below zero", func(q *Request) { q.Deployments = -1 }, "-1 deployments need no consumables"},
		{"tax without end", func(q *Request) { q.Tax = unit.Ratio(inf) }, "the tax is not known"},
		{"tax below zero", func(q *Request) { q.Tax = -0.01 }, "the tax is not known"},
		{"a lead time below zero", func(q *Request) { q.Within = -1 }, "the longest lead time is not known"},
		{"63 suppliers", func(q *Request) { q.Suppliers = suppliers(63) }, ""},
		{"64 suppliers", func(q *Request) { q.Suppliers = suppliers(64) }, "64 suppliers are too many"},
		{"a million pieces", func(q *Request) { q.Parts[0].Quantity = 1_000_000 }, ""},
		{"a million and one", func(q *Request) { q.Parts[0].Quantity = 1_000_001 }, "is wanted 1000001 times"},
		// Half as many again: 999 999, and 1 000 000.5, which is rounded up.
		{"a million pieces with spares", func(q *Request) { q.Parts[0].Quantity, q.Parts[0].Spares = 666_666, 0.5 }, ""},
		{"half a piece too many", func(q *Request) { q.Parts[0].Quantity, q.Parts[0].Spares = 666_667, 0.5 }, "is wanted 1000001 times"},
		{"more than 64 bits of pieces", func(q *Request) { q.Parts[0].Quantity, q.Kits = math.MaxInt64, 1000 }, "is wanted 9223372036854775807000 times"},
		{"a quantity below zero", func(q *Request) { q.Parts[0].Quantity = -1 }, "has the quantity -1"},
		{"none of a part", func(q *Request) { q.Parts[0].Quantity = 0 }, ""},
		{"spares without end", func(q *Request) { q.Parts[0].Spares = unit.Ratio(inf) }, "has spares of +Inf"},
		{"spares that are no number", func(q *Request) { q.Parts[0].Spares = unit.Ratio(nan) }, "spares of part \"A\" are not known"},
		{"a million in a pack", func(q *Request) { q.Parts[0].Offers[0].Pack = 1_000_000 }, ""},
		{"a million and one in a pack", func(q *Request) { q.Parts[0].Offers[0].Pack = 1_000_001 }, "holds 1000001 pieces"},
		{"fewest packs below zero", func(q *Request) { q.Parts[0].Offers[0].Least = -1 }, "at least -1 packs"},
		{"a break at the first pack", func(q *Request) { q.Parts[0].Offers[0].Breaks = []Break{{1, price("4")}} }, "do not fall"},
		{"a break at the same price", func(q *Request) { q.Parts[0].Offers[0].Breaks = []Break{{2, price("5.00")}} }, "do not fall"},
		{"a break at the second pack", func(q *Request) { q.Parts[0].Offers[0].Breaks = []Break{{2, price("4.99")}} }, ""},
		{"a billion euros", func(q *Request) { q.Parts[0].Offers[0].Price = price("1000000000") }, ""},
		{"a cent more", func(q *Request) { q.Parts[0].Offers[0].Price = price("1000000000.01") }, "costs more than can be summed"},
		{"a billion with postage", func(q *Request) { q.Parts[0].Offers[0].Price, q.Suppliers[0].Postage = price("999999998"), price("2") }, ""},
		{"a cent of postage more", func(q *Request) {
			q.Parts[0].Offers[0].Price, q.Suppliers[0].Postage = price("999999998"), price("2.01")
		}, "costs more than can be summed"},
		{"a billion with the minimum", func(q *Request) { q.Suppliers[0].Minimum = price("999999995") }, ""},
		{"a cent of minimum more", func(q *Request) { q.Suppliers[0].Minimum = price("999999995.01") }, "costs more than can be summed"},
		// 10⁹ and 999 times as much of tax are 10¹², one digit more than a total may have.
		{"a total that can be held", func(q *Request) { q.Parts[0].Offers[0].Price, q.Tax = price("1000000000"), 998 }, ""},
		{"a total that cannot be held", func(q *Request) { q.Parts[0].Offers[0].Price, q.Tax = price("1000000000"), 999 }, "an amount of EUR is out of range"},
		{"postage that cannot be held", func(q *Request) { q.Suppliers[0].Postage = price("999999999999.999") }, "an amount of EUR is out of range"},
		{"10^12 fine units", func(q *Request) { q.Parts[0].Offers[0].Price = price("1000000.000000") }, ""},
		{"a fine unit more", func(q *Request) { q.Parts[0].Offers[0].Price = price("1000000.000001") }, "is out of range"},
		{"10^17 fine units by a pack", func(q *Request) { q.Parts[0].Offers[0] = packOf(100_000, "1000000.000000") }, ""},
		{"a piece more in it", func(q *Request) { q.Parts[0].Offers[0] = packOf(100_001, "1000000.000000") }, "is out of range"},
		{"10^17 fine units by a break", func(q *Request) { q.Parts[0].Offers[0] = packOf(1, "1000000.000000", Break{100_000, price("1")}) }, ""},
		{"a pack more to the break", func(q *Request) { q.Parts[0].Offers[0] = packOf(1, "1000000.000000", Break{100_001, price("1")}) }, "is out of range"},
		{"10^17 fine units by the second break", func(q *Request) {
			q.Parts[0].Offers[0] = packOf(1, "1000000.000000", Break{2, price("9")}, Break{100_001, price("1")})
		}, "is out of range"},
		{"10^17 fine units by the fewest packs", func(q *Request) {
			q.Parts[0].Offers[0] = packOf(1, "1000000.000000")
			q.Parts[0].Offers[0].Least = 100_001
		}, "is out of range"},
		{"10^17 fine units by the need", func(q *Request) { q.Parts[0].Offers[0], q.Parts[0].Quantity = packOf(1, "1000000.000000"), 100_001 }, "is out of range"},
		{"no more than 10^17, but too much to be summed", func(q *Request) { q.Parts[0].Offers[0], q.Parts[0].Quantity = packOf(1, "1000000.000000"), 100_000 }, "costs more than can be summed"},
	} {
		o, err := Optimise(onePart(c.change))
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%s: %v", c.name, err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("%s: %v, %v; want %q", c.name, o, err, c.want)
		}
	}
}

func packOf(pieces int, each string, breaks ...Break) Offer {
	return Offer{Supplier: "S1", OrderCode: "X-1", Pack: pieces, Price: price(each), Breaks: breaks}
}

func suppliers(n int) []Supplier {
	all := make([]Supplier, n)
	for i := range all {
		all[i].ID = "S" + string(rune('1'+i))
	}
	return all
}

// 3 kits of 7 pieces with 5 % are 22.05, of which the rest counts as a whole piece; without spares 21 are 21. Two deployments
// of the consumable are 3 · 2 · 1 · 1.5 = 9.
func TestNeedsAreRoundedUp(t *testing.T) {
	q := request(nil, Part{Ref: "A", Quantity: 7, Spares: 0.05}, Part{Ref: "B", Quantity: 7}, Part{Ref: "C", Quantity: 1, Spares: 0.5, Consumable: true})
	q.Kits, q.Deployments, q.Stock = 3, 2, map[string]int{"A": 22, "B": 21, "C": 10}
	needs, err := q.needs()
	if want := []Need{{"A", 23, 22, 1}, {"B", 21, 21, 0}, {"C", 9, 10, 0}}; err != nil || !slices.Equal(needs, want) {
		t.Errorf("got %v, %v; want %v", needs, err, want)
	}
}

// What arrives on the last day is in time. Of a lead time without a limit, any is.
func TestTheLastDayIsInTime(t *testing.T) {
	for _, c := range []struct {
		within, lead unit.Duration
		want         bool
	}{
		{0, 900 * day, true}, {0, unit.Duration(math.NaN()), true}, {5 * day, 5 * day, true}, {5 * day, 5*day + 1, false},
		{5 * day, 0, true}, {5 * day, unit.Duration(math.NaN()), false}, {1, 1, true}, {1, 2, false},
	} {
		if got := (Request{Within: c.within}).usable(Offer{LeadTime: c.lead}); got != c.want {
			t.Errorf("%v of %v: in time %v", float64(c.lead), float64(c.within), got)
		}
	}
}

// Prices are held to the finest decimal that any has, were it only that of a break; the yen has none of its own.
func TestFineUnits(t *testing.T) {
	parts := []Part{{Offers: []Offer{{Price: price("1.5")}, {Price: price("2"), Breaks: []Break{{2, price("1.00005")}, {3, price("0.9")}}}}}, {Offers: []Offer{{Price: price("1.234")}}}}
	for _, c := range []struct {
		parts    []Part
		currency unit.Currency
		want     int
	}{{nil, eur, 2}, {nil, jpy, 0}, {parts, eur, 5}, {parts, jpy, 5}, {parts[1:], eur, 3}} {
		if got := (Request{Parts: c.parts, Currency: c.currency}).scale(); got != c.want {
			t.Errorf("%d parts in %v: %d decimals, want %d", len(c.parts), c.currency, got, c.want)
		}
	}
	if got := fine(price("1.00005"), 5); got != 100_005 {
		t.Errorf("1.00005 are %d, want 100005", got)
	}
	if got := fine(price("12"), 3); got != 12_000 {
		t.Errorf("12 are %d, want 12000", got)
	}
}

func TestHalfEven(t *testing.T) {
	for _, c := range []struct{ n, by, want int64 }{
		{0, 10, 0}, {4, 10, 0}, {5, 10, 0}, {6, 10, 1}, {14, 10, 1}, {15, 10, 2}, {16, 10, 2}, {25, 10, 2}, {26, 10, 3}, {35, 10, 4}, {7, 1, 7}, {8, 1, 8},
		{249_999, 100_000, 2}, {250_000, 100_000, 2}, {250_001, 100_000, 3}, {350_000, 100_000, 4},
	} {
		if got := halfEven(c.n, c.by); got != c.want {
			t.Errorf("%d by %d: got %d, want %d", c.n, c.by, got, c.want)
		}
	}
}
