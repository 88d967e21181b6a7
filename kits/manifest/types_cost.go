package manifest

import "hoistbook/kits/unit"

// Budget is what one kit may cost.
type Budget struct {
	// The currency of every price, by its ISO 4217 code.
	Currency *unit.Currency `json:"currency,omitempty" jsonschema:"example=EUR"`
	// What one kit may cost, tax included.
	PerKit *unit.Decimal `json:"per_kit,omitempty" jsonschema:"example=260.00"`
	// The tax on top of the prices.
	Tax *unit.Ratio `json:"tax,omitempty" jsonschema:"example=20 %" most:"100 %"`
}

// Supplier is a place where parts are bought.
type Supplier struct {
	// The name in running text.
	Name string `json:"name" jsonschema:"minLength=1,maxLength=120,example=the fen chandlery"`
	// The postage of one order, without tax.
	Postage *unit.Decimal `json:"postage,omitempty" jsonschema:"example=6.50"`
	// The value of goods, without tax, from which an order travels free.
	FreePostageFrom *unit.Decimal `json:"free_postage_from,omitempty" jsonschema:"example=80.00"`
	// The least value of goods, without tax, that the supplier accepts as an order.
	LeastOrder *unit.Decimal `json:"least_order,omitempty" jsonschema:"example=15.00"`
	// Where to order.
	Contact string `json:"contact,omitempty" jsonschema:"example=the counter at the lock"`
}

// Offer is one way to buy a part.
type Offer struct {
	// The supplier, by its name in suppliers.
	Supplier Ref `json:"supplier" jsonschema:"example=S1"`
	// What the supplier calls the part.
	OrderCode string `json:"order_code,omitempty" jsonschema:"example=CH-0042"`
	// How many pieces come in a pack; one when nobody says.
	Pack *int `json:"pack,omitempty" jsonschema:"minimum=1,maximum=100000,example=10"`
	// The price of one pack, without tax.
	Price unit.Decimal `json:"price" jsonschema:"example=4.20"`
	// The price of one pack from so many packs on.
	Breaks Breaks `json:"breaks,omitempty" jsonschema:"maxProperties=20"`
	// The fewest packs that the supplier sells.
	LeastPacks *int `json:"least_packs,omitempty" jsonschema:"minimum=1,maximum=100000,example=1"`
	// The time from order to delivery.
	LeadTime *unit.Duration `json:"lead_time,omitempty" jsonschema:"example=7 d"`
}
