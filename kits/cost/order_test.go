package cost

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/unit"
)

const day = unit.Duration(86400)

func decimal(text string) *unit.Decimal {
	d := price(text)
	return &d
}

func must(t *testing.T, q Request) Order {
	t.Helper()
	o, err := Optimise(q)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func bill(o Order) string {
	var lines []string
	for _, p := range o.Parcels {
		for _, l := range p.Lines {
			lines = append(lines, fmt.Sprintf("%s: %s %d x %d at %s = %s", p.Supplier, l.Ref, l.Packs, l.Pack, l.Price, l.Amount))
		}
		lines = append(lines, fmt.Sprintf("%s: goods %s, make-up %s, postage %s", p.Supplier, p.Goods, p.MakeUp, p.Postage))
	}
	return strings.Join(append(lines, "net "+o.Net.String()), "\n")
}

func request(suppliers []Supplier, parts ...Part) Request {
	return Request{Parts: parts, Suppliers: suppliers, Currency: eur, Kits: 1, Deployments: 1}
}

// Two kits of 10 with a tenth spare are 22, of which 4 lie in stock; three deployments of two kits use 6 bags of gas.
func TestNeeds(t *testing.T) {
	q := request([]Supplier{{ID: "S1"}},
		Part{Ref: "SCR1", Quantity: 10, Spares: 0.1, Offers: []Offer{{Supplier: "S1", Pack: 5, Price: price("1")}}},
		Part{Ref: "GAS1", Quantity: 1, Consumable: true, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("30")}}},
		Part{Ref: "HAVE", Quantity: 1})
	q.Kits, q.Deployments, q.Stock = 2, 3, map[string]int{"SCR1": 4, "HAVE": 9}
	o := must(t, q)
	if want := []Need{{"SCR1", 22, 4, 18}, {"GAS1", 6, 0, 6}, {"HAVE", 2, 9, 0}}; !slices.Equal(o.Needs, want) {
		t.Errorf("got %v, want %v", o.Needs, want)
	}
	if got, want := bill(o), "S1: SCR1 4 x 5 at 1 = 4.00 EUR\nS1: GAS1 6 x 1 at 30 = 180.00 EUR\nS1: goods 184.00 EUR, make-up 0.00 EUR, postage 0.00 EUR\nnet 184.00 EUR"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestOrdersByHand(t *testing.T) {
	for _, c := range []struct {
		name string
		q    Request
		want string
	}{
		{"a pack of ten and a single beat eleven singles and two tens", request([]Supplier{{ID: "S1", Postage: price("3")}},
			Part{Ref: "A", Quantity: 11, Offers: []Offer{{Supplier: "S1", Pack: 10, Price: price("4.20")}, {Supplier: "S1", Pack: 1, Price: price("0.90")}}}),
			"S1: A 1 x 10 at 4.20 = 4.20 EUR\nS1: A 1 x 1 at 0.90 = 0.90 EUR\nS1: goods 5.10 EUR, make-up 0.00 EUR, postage 3.00 EUR\nnet 8.10 EUR"},
		{"ten at the break are cheaper than nine", request([]Supplier{{ID: "S1"}},
			Part{Ref: "A", Quantity: 9, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("1.00"), Breaks: []Break{{10, price("0.80")}}}}}),
			"S1: A 10 x 1 at 0.80 = 8.00 EUR\nS1: goods 8.00 EUR, make-up 0.00 EUR, postage 0.00 EUR\nnet 8.00 EUR"},
		{"three packs are sold, or none", request([]Supplier{{ID: "S1"}},
			Part{Ref: "A", Quantity: 3, Offers: []Offer{{Supplier: "S1", Pack: 2, Price: price("1.00"), Least: 3}, {Supplier: "S1", Pack: 1, Price: price("1.10"), Least: 2, Breaks: []Break{{2, price("0.90")}, {3, price("0.80")}}}}}),
			"S1: A 3 x 1 at 0.80 = 2.40 EUR\nS1: goods 2.40 EUR, make-up 0.00 EUR, postage 0.00 EUR\nnet 2.40 EUR"},
		{"three packs for one that is needed", request([]Supplier{{ID: "S1"}},
			Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 2, Price: price("1.00"), Least: 3}}}),
			"S1: A 3 x 2 at 1.00 = 3.00 EUR\nS1: goods 3.00 EUR, make-up 0.00 EUR, postage 0.00 EUR\nnet 3.00 EUR"},
		// Where each is cheapest: 5 + 4 goods and 2 × 6 postage = 21; all from S1: 5 + 6 + 6 = 17.
		{"one parcel beats two", request([]Supplier{{ID: "S1", Postage: price("6")}, {ID: "S2", Postage: price("6")}},
			Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("5")}, {Supplier: "S2", Pack: 1, Price: price("9")}}},
			Part{Ref: "B", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("6")}, {Supplier: "S2", Pack: 1, Price: price("4")}}}),
			"S1: A 1 x 1 at 5 = 5.00 EUR\nS1: B 1 x 1 at 6 = 6.00 EUR\nS1: goods 11.00 EUR, make-up 0.00 EUR, postage 6.00 EUR\nnet 17.00 EUR"},
		// C costs 1 more from S1, and lifts its 75 to the 80 that are free of 6.50 postage; S2 is needed for B anyway.
		{"a part moves to reach free postage", request([]Supplier{{ID: "S1", Postage: price("6.50"), FreeFrom: decimal("80")}, {ID: "S2", Postage: price("2")}},
			Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("75")}}},
			Part{Ref: "B", Quantity: 1, Offers: []Offer{{Supplier: "S2", Pack: 1, Price: price("9")}}},
			Part{Ref: "C", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("6")}, {Supplier: "S2", Pack: 1, Price: price("5")}}}),
			"S1: A 1 x 1 at 75 = 75.00 EUR\nS1: C 1 x 1 at 6 = 6.00 EUR\nS1: goods 81.00 EUR, make-up 0.00 EUR, postage 0.00 EUR\n" +
				"S2: B 1 x 1 at 9 = 9.00 EUR\nS2: goods 9.00 EUR, make-up 0.00 EUR, postage 2.00 EUR\nnet 92.00 EUR"},
		{"a minimum is made up where nothing can move", request([]Supplier{{ID: "S1", Postage: price("4"), Minimum: price("20")}},
			Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("12.50")}}}),
			"S1: A 1 x 1 at 12.50 = 12.50 EUR\nS1: goods 12.50 EUR, make-up 7.50 EUR, postage 4.00 EUR\nnet 24.00 EUR"},
		{"prices below a cent are rounded a line", request([]Supplier{{ID: "S1"}},
			Part{Ref: "A", Quantity: 7, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("0.035")}}}),
			"S1: A 7 x 1 at 0.035 = 0.24 EUR\nS1: goods 0.24 EUR, make-up 0.00 EUR, postage 0.00 EUR\nnet 0.24 EUR"},
	} {
		if got := bill(must(t, c.q)); got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

func TestOrderTellsTheAlternatives(t *testing.T) {
	o := must(t, request([]Supplier{{ID: "S1", Postage: price("6")}, {ID: "S2", Postage: price("6")}},
		Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("5")}, {Supplier: "S2", Pack: 1, Price: price("9")}}},
		Part{Ref: "B", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("6")}, {Supplier: "S2", Pack: 1, Price: price("4")}}}))
	if o.Greedy.Net.String() != "21.00 EUR" || o.Single.Net.String() != "17.00 EUR" || o.SecondBest.Net.String() != "19.00 EUR" || fmt.Sprint(o.SecondBest.Suppliers) != "[S2]" {
		t.Errorf("greedy %v, single %v, second %v", o.Greedy, o.Single, o.SecondBest)
	}
}

func TestTaxIsAddedAtTheTotal(t *testing.T) {
	q := request([]Supplier{{ID: "S1", Postage: price("0.05")}}, Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("1.20")}}})
	q.Tax = 0.19 // 1.25 × 1.19 = 1.4875
	if o := must(t, q); o.Total.String() != "1.49 EUR" || o.Tax.String() != "0.24 EUR" {
		t.Errorf("1.25 and %v are %v", o.Tax, o.Total)
	}
}

func TestLeadTimes(t *testing.T) {
	q := request([]Supplier{{ID: "S1"}, {ID: "S2"}, {ID: "S3"}},
		Part{Ref: "A", Quantity: 1, Offers: []Offer{
			{Supplier: "S1", Pack: 1, Price: price("5"), LeadTime: 20 * day},
			{Supplier: "S2", Pack: 1, Price: price("5"), LeadTime: 5 * day},
			{Supplier: "S3", Pack: 1, Price: price("4"), LeadTime: unit.Duration(math.NaN())}}})
	if o := must(t, q); o.Parcels[0].Supplier != "S3" || !math.IsNaN(float64(o.LeadTime)) {
		t.Errorf("the cheapest, whenever it comes, is %s in %v", o.Parcels[0].Supplier, o.LeadTime)
	}
	q.Within = 30 * day
	if o := must(t, q); o.Parcels[0].Supplier != "S2" || o.LeadTime != 5*day || fmt.Sprint(o.SecondBest.Suppliers) != "[S1]" {
		t.Errorf("of two equal ones within 30 days: %s in %v, second %v", o.Parcels[0].Supplier, o.LeadTime, o.SecondBest)
	}
	q.Within = 2 * day
	if o := must(t, q); o.Complete() || o.Unavailable[0].Ref != "A" || len(o.Parcels) > 0 || o.Greedy != nil || o.Single != nil {
		t.Errorf("within 2 days: %v", o)
	}
}

func TestNothingToBuy(t *testing.T) {
	q := request([]Supplier{{ID: "S1", Postage: price("5")}}, Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("5")}}})
	q.Stock = map[string]int{"A": 1}
	if o := must(t, q); !o.Complete() || o.Net.String() != "0.00 EUR" || len(o.Parcels) > 0 || !o.Proven {
		t.Errorf("got %v", o)
	}
}

func TestRequestsThatCannotBeOrdered(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Request)
		want   string
	}{
		{"no kits", func(q *Request) { q.Kits = 0 }, "order at least one"},
		{"no deployments", func(q *Request) { q.Deployments = 0 }, "plan at least one"},
		{"stock below zero", func(q *Request) { q.Stock = map[string]int{"A": -1} }, "cannot be below zero"},
		{"unknown spares", func(q *Request) { q.Parts[0].Spares = unit.Ratio(math.NaN()) }, "are not known"},
		{"unknown tax", func(q *Request) { q.Tax = unit.Ratio(math.NaN()) }, "the tax is not known"},
		{"unknown lead time", func(q *Request) { q.Within = unit.Duration(math.NaN()) }, "the longest lead time is not known"},
		{"a supplier that is not listed", func(q *Request) { q.Parts[0].Offers[0].Supplier = "S9" }, "is no supplier of the list"},
		{"a supplier twice", func(q *Request) { q.Suppliers = append(q.Suppliers, Supplier{ID: "S1"}) }, "is listed twice"},
		{"a pack of nothing", func(q *Request) { q.Parts[0].Offers[0].Pack = 0 }, "holds at least one"},
		{"too many pieces", func(q *Request) { q.Kits = 2_000_000 }, "at most 1000000"},
		{"too much money", func(q *Request) { q.Kits, q.Parts[0].Offers[0].Price = 1_000_000, price("99999999") }, "check price"},
	} {
		q := request([]Supplier{{ID: "S1"}}, Part{Ref: "A", Quantity: 1, Offers: []Offer{{Supplier: "S1", Pack: 1, Price: price("5")}}})
		c.change(&q)
		if o, err := Optimise(q); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, %v", c.name, o, err)
		}
	}
}

// drawRequest makes small cases in which thresholds, minimums, packs and breaks bite.
func drawRequest(t *rapid.T, suppliers, parts int) Request {
	q := Request{Currency: eur, Kits: rapid.IntRange(1, 3).Draw(t, "kits"), Deployments: rapid.IntRange(1, 2).Draw(t, "deployments"), Stock: map[string]int{}}
	for i := range rapid.IntRange(1, suppliers).Draw(t, "suppliers") {
		s := Supplier{ID: fmt.Sprint("S", i), Postage: cents(rapid.Int64Range(0, 12).Draw(t, "postage") * 50)}
		if rapid.Bool().Draw(t, "sends free") {
			from := cents(rapid.Int64Range(0, 60).Draw(t, "free from") * 100)
			s.FreeFrom = &from
		}
		if rapid.Bool().Draw(t, "has a minimum") {
			s.Minimum = cents(rapid.Int64Range(0, 40).Draw(t, "minimum") * 100)
		}
		q.Suppliers = append(q.Suppliers, s)
	}
	leads := make([]unit.Duration, len(q.Suppliers)) // of a supplier: which of two equal mixes of one supplier is sooner is not tried
	for i := range leads {
		leads[i] = unit.Duration(rapid.IntRange(0, 3).Draw(t, "lead")) * day
	}
	for i := range rapid.IntRange(1, parts).Draw(t, "parts") {
		p := Part{Ref: fmt.Sprint("P", i), Quantity: rapid.IntRange(0, 7).Draw(t, "quantity"), Consumable: rapid.Bool().Draw(t, "consumable"),
			Spares: unit.Ratio(rapid.IntRange(0, 3).Draw(t, "spares")) / 10}
		for range rapid.IntRange(1, 3).Draw(t, "offers") {
			s := rapid.IntRange(0, len(q.Suppliers)-1).Draw(t, "supplier")
			o := Offer{Supplier: q.Suppliers[s].ID, Pack: rapid.IntRange(1, 6).Draw(t, "pack"), LeadTime: leads[s]}
			euros := rapid.Int64Range(1, 12).Draw(t, "price")
			o.Price = cents(euros * 100)
			if rapid.Bool().Draw(t, "by several") {
				o.Least = rapid.IntRange(0, 4).Draw(t, "least")
			}
			if euros > 1 && rapid.Bool().Draw(t, "breaks") {
				o.Breaks = []Break{{rapid.IntRange(2, 5).Draw(t, "break at"), cents(100 * rapid.Int64Range(0, euros-1).Draw(t, "break to"))}}
			}
			p.Offers = append(p.Offers, o)
		}
		if rapid.Bool().Draw(t, "has stock") {
			q.Stock[p.Ref] = rapid.IntRange(0, 3).Draw(t, "stock")
		}
		q.Parts = append(q.Parts, p)
	}
	return q
}

// The whole problem by trying everything: every number of packs of every offer for the mixes, every way for every part.
func TestOptimumIsThatOfTryingEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawRequest(t, 4, 5)
		o, err := Optimise(q)
		if err != nil {
			t.Fatal(err)
		}
		best, _ := tryEverything(q, true)
		_, second := tryEverything(q, false)
		if o.Net.MinorUnits() != best.cost || len(o.Parcels) != best.parcels || math.Abs(float64(o.LeadTime)-best.lead) > 0 {
			t.Fatalf("found %v in %d parcels in %v s, best is %v\n%s", o.Net, len(o.Parcels), float64(o.LeadTime), best, bill(o))
		}
		switch {
		case o.SecondBest == nil && second.cost < math.MaxInt64, o.SecondBest != nil && o.SecondBest.Net.MinorUnits() != second.cost:
			t.Fatalf("second best is %v, found %v", second, o.SecondBest)
		}
		if !o.Proven {
			t.Fatal("a small order is not proven")
		}
	})
}

type tried struct {
	cost    int64
	parcels int
	lead    float64
	set     string
}

func (a tried) before(b tried) bool {
	return a.cost < b.cost || a.cost == b.cost && (a.parcels < b.parcels || a.parcels == b.parcels && a.lead < b.lead)
}

// way is one way to buy a part: goods by supplier, and the longest lead time.
type manner struct {
	goods  map[string]int64
	lead   float64
	pieces int
}

// tryEverything also tries pointless ways to divide a part if it is told so: they are never in the best order, and another
// set of suppliers that is only made up of them is not worth telling.
func tryEverything(q Request, pointless bool) (best, second tried) {
	ways := [][]manner{}
	for _, p := range q.Parts {
		pieces := p.Quantity * q.Kits * (10 + int(math.Round(float64(p.Spares)*10)))
		if p.Consumable {
			pieces *= q.Deployments
		}
		if need := (pieces+9)/10 - q.Stock[p.Ref]; need > 0 {
			ways = append(ways, waysToBuy(q, p, need, pointless))
		}
	}
	bySet := map[string]tried{}
	var walk func(i int, goods map[string]int64, lead float64)
	walk = func(i int, goods map[string]int64, lead float64) {
		if i == len(ways) {
			r := tried{lead: lead}
			for _, s := range q.Suppliers {
				if value, used := goods[s.ID]; used {
					value = max(value, eurCents(s.Minimum))
					if s.FreeFrom == nil || value < eurCents(*s.FreeFrom) {
						value += eurCents(s.Postage)
					}
					r.cost += value
					r.parcels++
					r.set += s.ID
				}
			}
			if known, ok := bySet[r.set]; !ok || r.before(known) {
				bySet[r.set] = r
			}
			return
		}
		for _, w := range ways[i] {
			sum := map[string]int64{}
			for s, v := range goods {
				sum[s] = v
			}
			for s, v := range w.goods {
				sum[s] += v
			}
			walk(i+1, sum, max(lead, w.lead))
		}
	}
	walk(0, map[string]int64{}, 0)
	best, second.cost = tried{cost: math.MaxInt64}, math.MaxInt64
	for _, r := range bySet {
		if r.before(best) {
			best = r
		}
	}
	for set, r := range bySet {
		if set != best.set && r.cost < second.cost {
			second = r
		}
	}
	return best, second
}

func eurCents(d unit.Decimal) int64 {
	m, err := eur.Round(d.Rat())
	if err != nil {
		panic(err)
	}
	return m.MinorUnits()
}

// waysToBuy tries every number of packs from each supplier alone and each two where that is cheaper than either alone, and
// every way to divide the need between two, each with the cheapest packs for its share; equal ones by fewer packs, then as
// the offers are listed.
func waysToBuy(q Request, p Part, need int, pointless bool) []manner {
	var ways []manner
	alone := map[string]int64{}
	for _, s := range q.Suppliers {
		if w, cost, ok := cheapestOf(p, need, s.ID, s.ID); ok {
			ways, alone[s.ID] = append(ways, w), cost
		}
	}
	for i, a := range q.Suppliers {
		for _, b := range q.Suppliers[:i] {
			x, sells := alone[a.ID]
			y, too := alone[b.ID]
			if !sells || !too {
				continue
			}
			if w, cost, ok := cheapestOf(p, need, a.ID, b.ID); ok && cost < min(x, y) {
				ways = append(ways, w)
			}
			for share := 1; share < need; share++ {
				v, _, _ := cheapestOf(p, share, a.ID, a.ID)
				w, _, _ := cheapestOf(p, need-share, b.ID, b.ID)
				limit := min(x+saves(b), y+saves(a))
				if v.pieces >= need || w.pieces >= need {
					continue
				}
				if cost := v.goods[a.ID] + w.goods[b.ID]; !pointless && (cost > limit || limit == min(x, y)) {
					continue
				}
				both := manner{map[string]int64{a.ID: v.goods[a.ID], b.ID: w.goods[b.ID]}, max(v.lead, w.lead), 0}
				if !slices.ContainsFunc(ways, func(have manner) bool { return maps.Equal(have.goods, both.goods) && have.lead == both.lead }) {
					ways = append(ways, both)
				}
			}
		}
	}
	return ways
}

// saves is the most that goods from a supplier can save of its charges.
func saves(s Supplier) int64 {
	if s.FreeFrom == nil || eurCents(*s.FreeFrom) <= eurCents(s.Minimum) {
		return eurCents(s.Minimum)
	}
	return eurCents(s.Minimum) + eurCents(s.Postage)
}

func cheapestOf(p Part, need int, a, b string) (best manner, cost int64, ok bool) {
	var offers []Offer
	for _, o := range p.Offers {
		if o.Supplier == a || o.Supplier == b {
			offers = append(offers, o)
		}
	}
	cost = math.MaxInt64
	fewest := 0
	var walk func(i, left, packs int, spent int64, w manner)
	walk = func(i, left, packs int, spent int64, w manner) {
		if i == len(offers) {
			if left <= 0 && (spent < cost || spent == cost && packs < fewest) {
				best, cost, fewest, ok = w, spent, packs, true
			}
			return
		}
		o := offers[i]
		for n := 0; n <= max(left+o.Pack, 0)/o.Pack+5; n++ {
			if 0 < n && n < o.Least {
				continue
			}
			each := eurCents(o.Price)
			for _, b := range o.Breaks {
				if n >= b.From {
					each = eurCents(b.Price)
				}
			}
			next := manner{map[string]int64{}, w.lead, w.pieces + n*o.Pack}
			for s, v := range w.goods {
				next.goods[s] = v
			}
			if n > 0 {
				next.goods[o.Supplier] += int64(n) * each
				next.lead = max(next.lead, float64(o.LeadTime))
			}
			walk(i+1, left-n*o.Pack, packs+n, spent+int64(n)*each, next)
		}
	}
	walk(0, need, 0, 0, manner{})
	return best, cost, ok
}

func TestOrderNeverCostsMoreThanTheAlternatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawRequest(t, 8, 30)
		o, err := Optimise(q)
		if err != nil {
			t.Fatal(err)
		}
		for name, a := range map[string]*Alternative{"greedy": o.Greedy, "single": o.Single, "second best": o.SecondBest} {
			if a != nil && a.Net.MinorUnits() < o.Net.MinorUnits() {
				t.Fatalf("%s costs %v, the order %v", name, a.Net, o.Net)
			}
		}
		var net int64
		bought := map[string]int{}
		for _, p := range o.Parcels {
			var goods int64
			for _, l := range p.Lines {
				goods += l.Amount.MinorUnits()
				bought[l.Ref] += l.Packs * l.Pack
			}
			if goods != p.Goods.MinorUnits() || p.Cost.MinorUnits() != goods+p.MakeUp.MinorUnits()+p.Postage.MinorUnits() {
				t.Fatalf("the parcel from %s does not add up", p.Supplier)
			}
			net += p.Cost.MinorUnits()
		}
		if net != o.Net.MinorUnits() {
			t.Fatalf("parcels come to %d, the order to %v", net, o.Net)
		}
		for _, n := range o.Needs {
			if bought[n.Ref] < n.Buy {
				t.Fatalf("%d of %s are bought, %d needed", bought[n.Ref], n.Ref, n.Buy)
			}
		}
	})
}

func TestTheSameRequestGivesTheSameOrder(t *testing.T) {
	q := Sample(7, 8, 60, 3)
	if a, b := bill(must(t, q)), bill(must(t, q)); a != b {
		t.Errorf("%s\n\n%s", a, b)
	}
}
