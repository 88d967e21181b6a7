package kits

import (
	"cmp"
	"math/big"
	"slices"

	"hoistbook/kits/cost"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// Costs is the bill of one kit in the currency of its budget: every part, those aloft first. Amounts are Money; what is not
// known says why.
type Costs struct {
	Lines    []Costing
	Currency string // empty when nobody says
	Net      fact.Value
	Tax      fact.Value
	Total    fact.Value // the fact "cost.all_sets"
	Budget   fact.Value // the fact "cost.budget"
}

// A Costing is the line of one part, without tax.
type Costing struct {
	Ref       manifest.Ref
	Place     manifest.Place
	Quantity  int
	Pieces    string // with spares, a decimal
	Supplier  string // of the cheapest offer
	OrderCode string
	Pack      int        // pieces in a pack
	Price     fact.Value // of one pack
	Cost      fact.Value
	Running   fact.Value // of this line and of those above it
}

// Costs prices every part, of a battery all sets that take turns.
func (f *Facts) Costs() Costs {
	unknown := func(why string) fact.Value { return fact.Value{Kind: fact.Money, Unknown: why} }
	bill := Costs{}
	bill.Total, _ = f.Lookup("cost.all_sets")
	bill.Budget, _ = f.Lookup("cost.budget")
	parts := costParts(f.Manifest, carried)
	slices.SortStableFunc(parts, func(a, b cost.Part) int { return cmp.Compare(order(a.Place), order(b.Place)) })

	c := &frame{run: newRun(f.Manifest)}
	if bill.Currency = currencyCode(c); bill.Currency == "" {
		bill.Net, bill.Tax = unknown(c.why()), unknown(c.why())
		for _, p := range parts {
			bill.Lines = append(bill.Lines, costing(p, c.why()))
		}
		return bill
	}
	currency := *f.Manifest.Budget.Currency
	kit, err := cost.OfKit(parts, currency, 0)
	if err != nil {
		c.missing("%s", err)
	}
	sum, gap := new(big.Rat), c.why()
	for i, p := range parts {
		line := costing(p, gap)
		if err == nil {
			line.fill(kit.Lines[i], currency, sum, &gap)
		}
		bill.Lines = append(bill.Lines, line)
	}
	bill.Net = amount(kit.Net, gap)
	bill.Tax = bill.Total
	if bill.Total.Known() {
		taxed := allSets.of(c)
		bill.Net, bill.Tax = amount(taxed.Net, c.why()), amount(taxed.Tax, c.why())
	}
	return bill
}

func costing(p cost.Part, why string) Costing {
	none := fact.Value{Kind: fact.Money, Unknown: cmp.Or(why, "nobody says what "+p.Ref+" costs")}
	return Costing{Ref: manifest.Ref(p.Ref), Place: manifest.Place(p.Place), Quantity: p.Quantity, Price: none, Cost: none, Running: none}
}

// fill takes over what was found, and carries the running total on.
func (l *Costing) fill(k cost.KitLine, currency unit.Currency, sum *big.Rat, gap *string) {
	if !k.Known {
		*gap = cmp.Or(*gap, l.Cost.Unknown)
		l.Running = amount(unit.Money{}, *gap)
		return
	}
	l.Pieces = decimal(k.Pieces)
	l.Supplier, l.OrderCode, l.Pack = k.Offer.Supplier, k.Offer.OrderCode, k.Offer.Pack
	l.Price = fact.Value{Kind: fact.Money, Text: k.Offer.Price.String()}
	l.Cost = amount(k.Cost, "")
	sum.Add(sum, new(big.Rat).Mul(k.Pieces, k.Each))
	running, err := currency.Round(sum)
	if err != nil {
		*gap = cmp.Or(*gap, err.Error())
	}
	l.Running = amount(running, *gap)
}

func amount(m unit.Money, gap string) fact.Value {
	if gap != "" {
		return fact.Value{Kind: fact.Money, Unknown: gap}
	}
	return fact.Value{Kind: fact.Money, Text: m.Decimal().String()}
}

// decimal writes a number of pieces with the few decimals that a share of spares gives it.
func decimal(r *big.Rat) string {
	for digits := range 4 {
		if text := r.FloatString(digits); new(big.Rat).Set(r).Cmp(mustRat(text)) == 0 {
			return text
		}
	}
	return r.FloatString(3)
}

func mustRat(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic("kits: " + text + " was written by big.Rat") // FloatString writes what SetString reads
	}
	return r
}

// order puts what is aloft first and what nobody places last.
func order(place string) int {
	return slices.Index([]string{string(manifest.Aloft), string(manifest.OnGround), ""}, place)
}
