// Package purchase has an order as programs read it.
package purchase

import (
	"encoding/json"
	"fmt"
	"time"

	"hoistbook/kits"
	"hoistbook/kits/cost"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// Format is the format of this report.
type Format string

// Words are the formats.
func (Format) Words() []string { return []string{"hoistbook-order/1"} }

// Date is a day of the calendar.
type Date string

// Pattern is that of ISO 8601.
func (Date) Pattern() string { return `[0-9]{4}-[0-9]{2}-[0-9]{2}` }

// Form says so in words.
func (Date) Form() string { return "year, month and day, such as 2027-03-01" }

// Report is the cheapest order for a number of kits. Amounts are exact decimals in the currency, without tax where nothing
// else is said.
type Report struct {
	// The format of this report.
	Format Format `json:"format" jsonschema:"example=hoistbook-order/1"`
	// Which kit is ordered.
	Kit manifest.Identity `json:"kit"`
	// How many kits are ordered.
	Kits int `json:"kits" jsonschema:"minimum=1,example=12"`
	// For how many deployments of each kit what is used up is ordered.
	Deployments int `json:"deployments" jsonschema:"minimum=1,example=2"`
	// The serials of the kits.
	Serials []string `json:"serials" jsonschema:"minItems=1"`
	// The day on which the orders go out, when it matters.
	OrderedOn Date `json:"ordered_on,omitempty" jsonschema:"example=2027-02-01"`
	// The day on which everything must be there.
	NeededBy Date `json:"needed_by,omitempty" jsonschema:"example=2027-03-01"`
	// Whether everything is in the order or in stock.
	Complete bool `json:"complete" jsonschema:"example=true"`
	// Whether no order is cheaper in which a part comes from one supplier, or two share it; false when the search was cut short.
	Proven bool `json:"proven" jsonschema:"example=true"`
	// The currency of all amounts, by its ISO 4217 code.
	Currency unit.Currency `json:"currency" jsonschema:"example=EUR"`
	// The tax on what each supplier is paid.
	TaxRate unit.Ratio `json:"tax_rate" jsonschema:"example=20 %"`
	// The orders, one a supplier.
	Orders []Order `json:"orders"`
	// What all suppliers are paid, without tax.
	Net unit.Decimal `json:"net" jsonschema:"example=11296.80"`
	// The taxes of all suppliers.
	Tax unit.Decimal `json:"tax" jsonschema:"example=2259.36"`
	// What all suppliers are paid, with tax.
	Total unit.Decimal `json:"total" jsonschema:"example=13556.16"`
	// What is paid now for a kit; absent when the order is not complete.
	EachKit *unit.Decimal `json:"each_kit,omitempty" jsonschema:"example=1129.68"`
	// What a kit takes from stock, at the cheapest price a piece, with tax; absent when nobody sells one of its parts.
	EachKitStock *unit.Decimal `json:"each_kit_from_stock,omitempty" jsonschema:"example=12.40"`
	// Both with what a single deployment uses up, which is what the budget is about.
	EachKitOnce *unit.Decimal `json:"each_kit_one_deployment,omitempty" jsonschema:"example=826.68"`
	// The bill of a kit, with tax: every piece at the cheapest price, no whole packs, no postage. It is what the budget rule knows.
	BillEachKit *unit.Decimal `json:"bill_each_kit,omitempty" jsonschema:"example=801.12"`
	// What a kit may cost, with tax.
	BudgetEachKit *unit.Decimal `json:"budget_each_kit,omitempty" jsonschema:"example=980.00"`
	// Every part, with what remains of it.
	Parts []Part `json:"parts"`
	// The cheapest order from another set of suppliers; absent when there is none.
	SecondBest *Choice `json:"second_best,omitempty"`
	// Whether no other suppliers are cheaper than those of second_best; false when the search for them was cut short.
	SecondBestProven bool `json:"second_best_proven" jsonschema:"example=true"`
	// The cheapest order from a single supplier; absent when none has everything.
	SingleSupplier *Choice `json:"single_supplier,omitempty"`
	// Every part where it is cheapest, postage not looked at; absent when nothing is bought.
	EachCheapest *Choice `json:"each_cheapest,omitempty"`
}

// Order is what one supplier delivers.
type Order struct {
	// The supplier, by its name in the manifest.
	Supplier string `json:"supplier" jsonschema:"example=S1"`
	// The supplier's name in running text.
	Name string `json:"name" jsonschema:"example=the fen chandlery"`
	// Where to order.
	Contact string `json:"contact,omitempty" jsonschema:"example=the counter at the lock"`
	// The positions.
	Lines []Line `json:"lines"`
	// The value of the goods.
	Goods unit.Decimal `json:"goods" jsonschema:"example=2508.80"`
	// What the goods lack to the supplier's least order, and is paid all the same.
	MakeUp unit.Decimal `json:"make_up" jsonschema:"example=0.00"`
	// The postage.
	Postage unit.Decimal `json:"postage" jsonschema:"example=4.90"`
	// Goods, make-up and postage.
	Net unit.Decimal `json:"net" jsonschema:"example=2513.70"`
	// The tax on it, rounded half to even.
	Tax unit.Decimal `json:"tax" jsonschema:"example=502.74"`
	// What the supplier is paid, with tax.
	Total unit.Decimal `json:"total" jsonschema:"example=3016.44"`
	// The whole days until the last position is there; absent when not known.
	LeadDays *int `json:"lead_days,omitempty" jsonschema:"minimum=0,example=12"`
	// The last day to order; absent when no day is given or the lead time is not known.
	OrderBy Date `json:"order_by,omitempty" jsonschema:"example=2027-02-17"`
}

// Line is one position of an order.
type Line struct {
	// The part, by its reference.
	Ref string `json:"ref" jsonschema:"example=BAT1"`
	// What the supplier calls it.
	OrderCode string `json:"order_code,omitempty" jsonschema:"example=CH-0042"`
	// How many packs are bought.
	Packs int `json:"packs" jsonschema:"minimum=1,example=3"`
	// How many pieces a pack holds.
	Pack int `json:"pack" jsonschema:"minimum=1,example=10"`
	// The price of a pack, at this number of packs.
	Price unit.Decimal `json:"price" jsonschema:"example=4.20"`
	// The amount of the position, rounded half to even.
	Amount unit.Decimal `json:"amount" jsonschema:"example=12.60"`
	// The whole days until it is there; absent when not known.
	LeadDays *int `json:"lead_days,omitempty" jsonschema:"minimum=0,example=12"`
	// The last day to order it.
	OrderBy Date `json:"order_by,omitempty" jsonschema:"example=2027-02-17"`
}

// Part is a part of the kit and its pieces.
type Part struct {
	// The part, by its reference.
	Ref string `json:"ref" jsonschema:"example=BAT1"`
	// The name in running text.
	Name string `json:"name" jsonschema:"example=buck converter 5 V 3 A"`
	// The pieces that go into one kit.
	EachKit int `json:"each_kit" jsonschema:"minimum=0,example=2"`
	// The pieces that go into all kits.
	AllKits int `json:"all_kits" jsonschema:"minimum=0,example=24"`
	// The pieces for all kits, with spares.
	WithSpares int `json:"with_spares" jsonschema:"minimum=0,example=27"`
	// The pieces in stock.
	Stock int `json:"stock" jsonschema:"minimum=0,example=4"`
	// The pieces that are missing from the stock.
	ToBuy int `json:"to_buy" jsonschema:"minimum=0,example=23"`
	// The pieces that are bought, in whole packs.
	Bought int `json:"bought" jsonschema:"minimum=0,example=30"`
	// The pieces that remain when all kits are packed.
	Remains int `json:"remains" jsonschema:"minimum=0,example=10"`
	// The pieces that nobody can deliver.
	Lacking int `json:"lacking,omitempty" jsonschema:"minimum=0,example=5"`
	// Why nobody can deliver them.
	Why string `json:"why,omitempty" jsonschema:"example=nobody offers it"`
}

// Choice is another order by its suppliers.
type Choice struct {
	// The suppliers, by their names in the manifest.
	Suppliers []string `json:"suppliers"`
	// What it costs without tax.
	Net unit.Decimal `json:"net" jsonschema:"example=11310.20"`
	// How much more that is than this order.
	More unit.Decimal `json:"more" jsonschema:"example=13.40"`
}

// JSON writes the report on one line.
func JSON(o *kits.Order) ([]byte, error) {
	text, err := json.Marshal(Of(o))
	if err != nil {
		return nil, fmt.Errorf("order of %s: %w", o.Manifest.Kit.ID, err)
	}
	return text, nil
}

// Of makes the report of an order.
func Of(o *kits.Order) Report {
	r := Report{
		Format: Format(Format("").Words()[0]), Kit: o.Manifest.Identity(),
		Kits: o.Plan.Kits, Deployments: o.Plan.Deployments, Serials: o.Serials(), OrderedOn: day(o.Plan.Today), NeededBy: day(o.Plan.NeededBy),
		Complete: o.Complete(), Proven: o.Proven, SecondBestProven: o.SecondProven, Currency: o.Currency, TaxRate: o.TaxRate,
		Net: o.Net.Decimal(), Tax: o.Tax.Decimal(), Total: o.Total.Decimal(), Orders: []Order{},
		SecondBest: choice(o, o.SecondBest), SingleSupplier: choice(o, o.Single), EachCheapest: choice(o, o.Greedy),
	}
	for _, maybe := range []struct {
		what  func() (unit.Money, bool)
		where **unit.Decimal
	}{{o.EachKit, &r.EachKit}, {o.EachKitStock, &r.EachKitStock}, {o.Bill, &r.BillEachKit}, {o.EachKitOnce, &r.EachKitOnce}, {o.Budget, &r.BudgetEachKit}} {
		if m, known := maybe.what(); known {
			d := m.Decimal()
			*maybe.where = &d
		}
	}
	for _, p := range o.Parcels {
		r.Orders = append(r.Orders, order(o, p))
	}
	for _, p := range o.Parts {
		r.Parts = append(r.Parts, Part{string(p.Ref), p.Part.Name, p.EachKit, p.Packed, p.Wanted, p.Stock, p.ToBuy, p.Bought, p.Remains, p.Lacking, p.WhyShort})
	}
	return r
}

func order(o *kits.Order, p kits.Parcel) Order {
	one := Order{
		Supplier: p.Supplier, Name: p.Name, Contact: p.Contact, Goods: p.Goods.Decimal(), MakeUp: p.MakeUp.Decimal(), Postage: p.Postage.Decimal(),
		Net: p.Cost.Decimal(), Tax: p.Tax.Decimal(), Total: p.Total.Decimal(), LeadDays: lead(p.LeadTime), OrderBy: Date(o.Plan.OrderByDay(p.LeadTime)),
	}
	for _, l := range p.Lines {
		one.Lines = append(one.Lines, Line{l.Ref, l.OrderCode, l.Packs, l.Pack, l.Price, l.Amount.Decimal(), lead(l.LeadTime), Date(o.Plan.OrderByDay(l.LeadTime))})
	}
	return one
}

func choice(o *kits.Order, a *cost.Alternative) *Choice {
	if a == nil {
		return nil
	}
	more, _ := a.Net.Sub(o.Net) // of one currency
	return &Choice{a.Suppliers, a.Net.Decimal(), more.Decimal()}
}

func lead(t unit.Duration) *int {
	if n, ok := kits.LeadDays(t); ok {
		return &n
	}
	return nil
}

func day(at time.Time) Date {
	if at.IsZero() {
		return ""
	}
	return Date(at.Format(time.DateOnly))
}
