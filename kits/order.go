package kits

import (
	"cmp"
	"fmt"
	"strings"

	"hoistbook/kits/cost"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// An Order is what to buy for a number of kits, where, and what it leads to.
type Order struct {
	Manifest *manifest.Manifest
	Plan     OrderPlan // defaults filled in
	Currency unit.Currency
	TaxRate  unit.Ratio
	Parts    []OrderPart // every part, by reference
	Parcels  []Parcel    // by supplier
	Net      unit.Money
	Tax      unit.Money // of all invoices, each rounded by itself
	Total    unit.Money // Net + Tax
	LeadTime unit.Duration
	Proven   bool // no order is cheaper in which a part comes from one supplier, or two share it; false when the search was cut short

	SecondProven               bool              // no order from other suppliers is cheaper than SecondBest
	SecondBest, Single, Greedy *cost.Alternative // nil when there is none
}

// An OrderPart is a part and its pieces.
type OrderPart struct {
	Ref      manifest.Ref
	Part     manifest.Part
	EachKit  int // packed into one kit: what is used up for all its deployments, of a battery all sets
	Packed   int // into all kits
	Wanted   int // Packed, and spares
	Stock    int
	ToBuy    int // Wanted − Stock, or zero
	Bought   int // in whole packs
	Remains  int // Stock + Bought − Packed; spares are among them
	Lacking  int // what all kits need and nobody can deliver
	WhyShort string
}

// A Parcel is the order to one supplier.
type Parcel struct {
	cost.Parcel
	Name    string
	Contact string
	Tax     unit.Money
	Total   unit.Money // Cost + Tax
}

// OrderFor finds the cheapest order. The error says what the manifest must say for that, or that nothing can be ordered so.
func OrderFor(m *manifest.Manifest, plan OrderPlan) (*Order, error) {
	plan.FirstSerial = cmp.Or(plan.FirstSerial, 1)
	if plan.Deployments == 0 {
		plan.Deployments = 1
		if m.Station != nil && m.Station.Deployments != nil {
			plan.Deployments = *m.Station.Deployments
		}
	}
	q, err := plan.request(m)
	if err != nil {
		return nil, err
	}
	found, err := cost.Optimise(q)
	if err != nil {
		return nil, err
	}
	o := &Order{
		Manifest: m, Plan: plan, Currency: q.Currency, TaxRate: q.Tax, Net: found.Net, Tax: q.Currency.Minor(0), LeadTime: found.LeadTime,
		Proven: found.Proven, SecondProven: found.SecondProven, SecondBest: found.SecondBest, Single: found.Single, Greedy: found.Greedy,
	}
	if err := o.parcels(found.Parcels); err != nil {
		return nil, err
	}
	o.parts(q, found)
	return o, nil
}

// parcels puts the tax on each invoice, and adds up the order.
func (o *Order) parcels(found []cost.Parcel) error {
	for _, p := range found {
		s := o.Manifest.Suppliers[manifest.Ref(p.Supplier)]
		tax, total, err := cost.WithTax(p.Cost, o.TaxRate)
		if err != nil {
			return err
		}
		o.Parcels = append(o.Parcels, Parcel{p, s.Name, s.Contact, tax, total})
		if o.Tax, err = o.Tax.Add(tax); err != nil {
			return err
		}
	}
	var err error
	o.Total, err = o.Net.Add(o.Tax)
	return err
}

func (o *Order) parts(q cost.Request, found cost.Order) {
	bought := map[string]int{}
	for _, p := range found.Parcels {
		for _, l := range p.Lines {
			bought[l.Ref] += l.Packs * l.Pack
		}
	}
	short := map[string]bool{}
	for _, n := range found.Unavailable {
		short[n.Ref] = true
	}
	for i, n := range found.Needs {
		p := q.Parts[i]
		part := OrderPart{
			Ref: manifest.Ref(n.Ref), Part: o.Manifest.Parts[manifest.Ref(n.Ref)], EachKit: p.Quantity,
			Wanted: n.Wanted, Stock: n.Stock, ToBuy: n.Buy, Bought: bought[n.Ref],
		}
		if p.Consumable {
			part.EachKit *= q.Deployments
		}
		part.Packed = part.EachKit * q.Kits
		part.Remains = max(part.Stock+part.Bought-part.Packed, 0)
		if short[n.Ref] {
			part.Lacking, part.WhyShort = n.Buy, o.whyShort(p)
		}
		o.Parts = append(o.Parts, part)
	}
}

// whyShort says why none of a part's offers can be used.
func (o *Order) whyShort(p cost.Part) string {
	if len(p.Offers) == 0 {
		return "nobody offers it"
	}
	soonest, where := 0, ""
	for _, offer := range p.Offers {
		if n, ok := LeadDays(offer.LeadTime); ok && (where == "" || n < soonest) {
			soonest, where = n, offer.Supplier
		}
	}
	if where == "" {
		return "no offer says its lead time"
	}
	left, err := o.Plan.left()
	if err != nil || left == 0 {
		return "no offer can be used"
	}
	return fmt.Sprintf("the soonest offer, from %s, takes %d d, and %d d are left", where, soonest, left)
}

// Complete reports whether all kits and spares are in the order and in stock.
func (o *Order) Complete() bool { return len(o.Short()) == 0 }

// Short lists the parts that nobody can deliver.
func (o *Order) Short() []OrderPart {
	var short []OrderPart
	for _, p := range o.Parts {
		if p.WhyShort != "" {
			short = append(short, p)
		}
	}
	return short
}

// Part finds a part by its reference.
func (o *Order) Part(ref string) manifest.Part { return o.Manifest.Parts[manifest.Ref(ref)] }

// Budget is what one kit may cost; known is false when nobody says.
func (o *Order) Budget() (limit unit.Money, known bool) {
	if o.Manifest.Budget.PerKit == nil {
		return unit.Money{}, false
	}
	limit, err := o.Currency.Round(o.Manifest.Budget.PerKit.Rat())
	return limit, err == nil
}

// Received are the pieces that come in, by part.
func (o *Order) Received() map[string]int {
	pieces := map[string]int{}
	for _, p := range o.Parts {
		if p.Bought > 0 {
			pieces[string(p.Ref)] = p.Bought
		}
	}
	return pieces
}

// Serials are the numbers of the kits to be built, each with the kit's name in front and as many digits as the last needs.
func (o *Order) Serials() []string {
	last := o.Plan.FirstSerial + o.Plan.Kits - 1
	width := max(len(fmt.Sprint(last)), 2)
	serials := make([]string, o.Plan.Kits)
	for i := range serials {
		serials[i] = fmt.Sprintf("%s-%0*d", o.Manifest.Kit.ID, width, o.Plan.FirstSerial+i)
	}
	return serials
}

// In lists the parts that travel in a box.
func (o *Order) In(box string) []OrderPart {
	var parts []OrderPart
	for _, p := range o.Parts {
		if strings.TrimSpace(p.Part.PackedIn) == box {
			parts = append(parts, p)
		}
	}
	return parts
}

// Boxes lists the boxes of a kit in the order in which the parts name them, what has none last.
func (o *Order) Boxes() []string {
	var boxes []string
	seen, loose := map[string]bool{"": true}, false
	for _, p := range o.Parts {
		box := strings.TrimSpace(p.Part.PackedIn)
		loose = loose || box == ""
		if !seen[box] {
			seen[box] = true
			boxes = append(boxes, box)
		}
	}
	if loose {
		boxes = append(boxes, "")
	}
	return boxes
}
