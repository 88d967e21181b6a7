package cost

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/unit"
)

var (
	eur = currency("EUR")
	jpy = currency("JPY")
)

func currency(code string) unit.Currency {
	c, err := unit.ParseCurrency(code)
	if err != nil {
		panic(err)
	}
	return c
}

func price(text string) unit.Decimal { return unit.MustDecimal(text) }

// A bill on paper: 10 screws and a tenth spare from packs of 25 at 4.20 are 11 × 0.168 = 1.848; 3 pieces of string from a
// reel of 7 at 1.00 are 0.42857…; a cylinder at 61.50; together 63.77657…, with 20 % 76.53188….
func TestOneKitByHand(t *testing.T) {
	parts := []Part{
		{Ref: "SCR1", Place: "aloft", Quantity: 10, Spares: 0.1, Offers: []Offer{
			{Supplier: "S1", Pack: 1, Price: price("0.20")}, {Supplier: "S2", Pack: 25, Price: price("4.20")}}},
		{Ref: "STR1", Place: "aloft", Quantity: 3, Offers: []Offer{{Supplier: "S1", Pack: 7, Price: price("1.00")}}},
		{Ref: "GAS1", Place: "ground", Quantity: 1, Consumable: true, Offers: []Offer{{Supplier: "S3", Pack: 1, Price: price("61.50")}}},
	}
	k, err := OfKit(parts, eur, 0.2)
	if err != nil {
		t.Fatal(err)
	}
	if k.Lines[0].Pieces.Cmp(big.NewRat(11, 1)) != 0 || k.Lines[0].Offer.Supplier != "S2" {
		t.Errorf("screws: %v pieces from %s", k.Lines[0].Pieces, k.Lines[0].Offer.Supplier)
	}
	for _, c := range []struct {
		what string
		got  unit.Money
		want string
	}{
		{"screws", k.Lines[0].Cost, "1.85 EUR"}, {"string", k.Lines[1].Cost, "0.43 EUR"}, {"gas", k.Lines[2].Cost, "61.50 EUR"},
		{"aloft", k.Places[0].Cost, "2.28 EUR"}, {"ground", k.Places[1].Cost, "61.50 EUR"},
		{"net", k.Net, "63.78 EUR"}, {"tax", k.Tax, "12.75 EUR"}, {"total", k.Total, "76.53 EUR"},
	} {
		if c.got.String() != c.want {
			t.Errorf("%s: got %v, want %s", c.what, c.got, c.want)
		}
	}
}

// Half a minor unit goes to the even neighbour, once: 0.125 is 0.12, and two of them are 0.25.
func TestRoundsOnceAtTheTotal(t *testing.T) {
	part := Part{Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 8, Price: price("1.00")}}}
	a, b := part, part
	a.Ref, b.Ref = "A", "B"
	k, err := OfKit([]Part{a, b}, eur, 0)
	if err != nil || k.Lines[0].Cost.String() != "0.12 EUR" || k.Net.String() != "0.25 EUR" || k.Total != k.Net {
		t.Errorf("got %v and %v, %v", k.Lines[0].Cost, k.Net, err)
	}
	k, err = OfKit([]Part{{Ref: "A", Quantity: 1, Offers: []Offer{{Pack: 2, Price: price("101")}}}}, jpy, 0)
	if err != nil || k.Total.String() != "50 JPY" {
		t.Errorf("half of 101 JPY is %v, %v", k.Total, err)
	}
}

func TestAPartWithoutAPriceIsMissing(t *testing.T) {
	k, err := OfKit([]Part{
		{Ref: "A", Quantity: 1},
		{Ref: "B", Quantity: 1, Offers: []Offer{{Pack: 1, Price: price("5")}}},
		{Ref: "C", Quantity: 1, Spares: unit.Ratio(math.NaN()), Offers: []Offer{{Pack: 1, Price: price("5")}}},
	}, eur, 0)
	if err != nil || k.Known() || strings.Join(k.Missing, " ") != "A C" {
		t.Errorf("missing %v, known %v, %v", k.Missing, k.Known(), err)
	}
}

// A line that is not known keeps its name and costs nothing yet; with everything known, the kit is.
func TestLinesOfAKit(t *testing.T) {
	b := Part{Ref: "B", Place: "ground", Quantity: 1, Offers: []Offer{{Pack: 1, Price: price("5")}}}
	k, err := OfKit([]Part{{Ref: "A", Place: "aloft", Quantity: 1}, b}, eur, 0)
	if l := k.Lines[0]; err != nil || k.Known() || l.Known || l.Ref != "A" || l.Place != "aloft" || l.Cost.String() != "0.00 EUR" {
		t.Errorf("got %v, known %v, %v", l, k.Known(), err)
	}
	k, err = OfKit([]Part{b}, eur, 0)
	if l := k.Lines[0]; err != nil || !k.Known() || !l.Known || l.Ref != "B" || l.Place != "ground" || l.Cost.String() != "5.00 EUR" {
		t.Errorf("got %v, known %v, %v", l, k.Known(), err)
	}
}

// The lowest price a piece wins wherever it is listed, the first of equals: 2.00 for four is 0.50, as is 0.50 for one.
func TestTheCheapestOffer(t *testing.T) {
	one, four, dear := Offer{Pack: 1, Price: price("0.50")}, Offer{Pack: 4, Price: price("2.00")}, Offer{Pack: 1, Price: price("0.51")}
	for _, c := range []struct {
		offers []Offer
		want   int
	}{{nil, -1}, {[]Offer{dear}, 0}, {[]Offer{one, dear}, 0}, {[]Offer{dear, one}, 1}, {[]Offer{one, four}, 0}, {[]Offer{four, one}, 0},
		{[]Offer{dear, four, one}, 1}, {[]Offer{dear, one, dear}, 1}, {[]Offer{one, dear, dear}, 0}} {
		if got := cheapest(c.offers); got != c.want {
			t.Errorf("%v: got %d, want %d", c.offers, got, c.want)
		}
	}
}

// An amount has at most 12 digits before the point, in a line, in all lines together, and with the tax.
func TestAKitThatCostsTooMuch(t *testing.T) {
	of := func(each string, pieces int) Part {
		return Part{Ref: "A", Quantity: pieces, Offers: []Offer{{Pack: 1, Price: price(each)}}}
	}
	for _, c := range []struct {
		name  string
		parts []Part
		tax   unit.Ratio
		holds bool
	}{
		{"one line", []Part{of("100000000000", 10)}, 0, false}, {"one line below", []Part{of("100000000000", 9)}, 0, true},
		{"both lines", []Part{of("500000000000", 1), of("500000000000", 1)}, 0, false}, {"both below", []Part{of("500000000000", 1), of("499999999999.99", 1)}, 0, true},
		{"with tax", []Part{of("800000000000", 1)}, 0.25, false}, {"with tax below", []Part{of("800000000000", 1)}, 0.24, true},
		{"endless tax", []Part{of("1", 1)}, unit.Ratio(math.Inf(1)), false}, {"tax below zero", []Part{of("1", 1)}, -0.01, false},
	} {
		if k, err := OfKit(c.parts, eur, c.tax); (err == nil) != c.holds || err != nil && k.Lines != nil {
			t.Errorf("%s: %v, %v", c.name, k.Total, err)
		}
	}
}

func TestWhatCannotBePriced(t *testing.T) {
	good := Part{Ref: "A", Quantity: 1, Offers: []Offer{{OrderCode: "X-1", Pack: 1, Price: price("5")}}}
	for _, c := range []struct {
		name   string
		change func(*Part)
		tax    unit.Ratio
		want   string
	}{
		{"no pack", func(p *Part) { p.Offers[0].Pack = 0 }, 0, "a pack holds at least one"},
		{"a quantity below zero", func(p *Part) { p.Quantity = -1 }, 0, "cannot be below zero"},
		{"spares below zero", func(p *Part) { p.Spares = -0.1 }, 0, "the share is a number from zero up"},
		{"breaks that rise", func(p *Part) { p.Offers[0].Breaks = []Break{{10, price("6")}} }, 0, "each needs more packs and a lower price"},
		{"breaks out of order", func(p *Part) { p.Offers[0].Breaks = []Break{{10, price("4")}, {5, price("3")}} }, 0, "each needs more packs"},
		{"an unknown tax", func(*Part) {}, unit.Ratio(math.NaN()), "the tax is not known"},
	} {
		p := good
		p.Offers = []Offer{good.Offers[0]}
		c.change(&p)
		if _, err := OfKit([]Part{p}, eur, c.tax); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestKitTotalsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var parts []Part
		for i := range rapid.IntRange(1, 12).Draw(t, "parts") {
			parts = append(parts, Part{
				Ref: string(rune('A' + i)), Place: rapid.SampledFrom([]string{"aloft", "ground"}).Draw(t, "place"),
				Quantity: rapid.IntRange(0, 40).Draw(t, "quantity"), Spares: unit.Ratio(rapid.IntRange(0, 50).Draw(t, "spares")) / 100,
				Offers: []Offer{{Pack: rapid.IntRange(1, 12).Draw(t, "pack"), Price: cents(rapid.Int64Range(0, 9999).Draw(t, "price"))}},
			})
		}
		k, err := OfKit(parts, eur, unit.Ratio(rapid.IntRange(0, 25).Draw(t, "tax"))/100)
		if err != nil {
			t.Fatal(err)
		}
		if sum, _ := k.Net.Add(k.Tax); sum != k.Total {
			t.Fatalf("%v and %v of tax are %v, not %v", k.Net, k.Tax, sum, k.Total)
		}
		var lines, places int64
		for _, l := range k.Lines {
			lines += l.Cost.MinorUnits()
		}
		for _, p := range k.Places {
			places += p.Cost.MinorUnits()
		}
		// Each rounding moves an amount by half a minor unit at most.
		if d := 2 * (lines - k.Net.MinorUnits()); d > int64(len(k.Lines)+1) || -d > int64(len(k.Lines)+1) {
			t.Fatalf("lines come to %d, the net to %d", lines, k.Net.MinorUnits())
		}
		if d := 2 * (places - k.Net.MinorUnits()); d > 3 || -d > 3 {
			t.Fatalf("places come to %d, the net to %d", places, k.Net.MinorUnits())
		}
	})
}

// cents makes a price of hundredths.
func cents(n int64) unit.Decimal { return eur.Minor(n).Decimal() }
