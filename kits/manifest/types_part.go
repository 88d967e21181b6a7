package manifest

import "hoistbook/kits/unit"

// Part is one line of what is bought. Its facets say what it does; a part may have several.
type Part struct {
	// What the part is, by function and rating.
	Name string `json:"name" jsonschema:"minLength=1,maxLength=120,example=buck converter 5 V 3 A"`
	// How many of the part one kit holds; one when nobody says.
	Quantity *int `json:"quantity,omitempty" jsonschema:"minimum=1,maximum=10000,example=1"`
	// Whether the part flies.
	Place Place `json:"place,omitempty" jsonschema:"example=aloft"`
	// The mass of one piece.
	Mass *unit.Mass `json:"mass,omitempty" jsonschema:"example=85 g"`
	// How the mass is known; estimated when nobody says.
	MassBasis MassBasis `json:"mass_basis,omitempty" jsonschema:"example=weighed"`
	// The share by which the mass may turn out greater, in place of the one that goes with the mass basis.
	MassAllowance *unit.Ratio `json:"mass_allowance,omitempty" jsonschema:"example=5 %"`
	// Whether the part is used up in each deployment.
	Consumable bool `json:"consumable,omitempty" jsonschema:"example=false"`
	// The share to buy on top, for losses and breakage.
	Spares *unit.Ratio `json:"spares,omitempty" jsonschema:"example=10 %"`
	// Where the part can be bought.
	Offers []Offer `json:"offers,omitempty" jsonschema:"maxItems=50"`
	// The box or bag in which the part travels.
	PackedIn string `json:"packed_in,omitempty" jsonschema:"example=box 1"`
	// Anything that whoever buys or handles the part should know.
	Note string `json:"note,omitempty" jsonschema:"example=any make with these ratings will do"`

	Envelope    *Envelope    `json:"envelope,omitempty"`
	Cylinder    *Cylinder    `json:"cylinder,omitempty"`
	Tether      *Tether      `json:"tether,omitempty"`
	Anchor      *Anchor      `json:"anchor,omitempty"`
	Deflation   *Deflation   `json:"deflation,omitempty"`
	Marker      *Marker      `json:"marker,omitempty"`
	Battery     *Battery     `json:"battery,omitempty"`
	Charger     *Charger     `json:"charger,omitempty"`
	Converter   *Converter   `json:"converter,omitempty"`
	Fuse        *Fuse        `json:"fuse,omitempty"`
	Load        *Load        `json:"load,omitempty"`
	Transmitter *Transmitter `json:"transmitter,omitempty"`
	Receiver    *Receiver    `json:"receiver,omitempty"`
	Antenna     *Antenna     `json:"antenna,omitempty"`
	Filter      *Filter      `json:"filter,omitempty"`
}
