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
	Mass *unit.Mass `json:"mass,omitempty" jsonschema:"example=85 g" above:"0 g" most:"10000 kg"`
	// How the mass is known; estimated when nobody says.
	MassBasis MassBasis `json:"mass_basis,omitempty" jsonschema:"example=weighed"`
	// The share by which the mass may turn out greater, in place of the one that goes with the mass basis.
	MassAllowance *unit.Ratio `json:"mass_allowance,omitempty" jsonschema:"example=5 %" most:"200 %"`
	// Whether the part is used up in each deployment.
	Consumable bool `json:"consumable,omitempty" jsonschema:"example=false"`
	// The share to buy on top, for losses and breakage.
	Spares *unit.Ratio `json:"spares,omitempty" jsonschema:"example=10 %" most:"1000 %"`
	// Where the part can be bought.
	Offers []Offer `json:"offers,omitempty" jsonschema:"maxItems=50"`
	// The box or bag in which the part travels.
	PackedIn string `json:"packed_in,omitempty" jsonschema:"example=box 1"`
	// Anything that whoever buys or handles the part should know.
	Note string `json:"note,omitempty" jsonschema:"example=any make with these ratings will do"`

	// The part holds the gas.
	Envelope *Envelope `json:"envelope,omitempty"`
	// The part is a gas cylinder.
	Cylinder *Cylinder `json:"cylinder,omitempty"`
	// The part is the line between anchor and balloon.
	Tether *Tether `json:"tether,omitempty"`
	// The part holds the tether down.
	Anchor *Anchor `json:"anchor,omitempty"`
	// The part lets the gas out.
	Deflation *Deflation `json:"deflation,omitempty"`
	// The part makes the balloon and its line seen.
	Marker *Marker `json:"marker,omitempty"`
	// The part is a battery pack.
	Battery *Battery `json:"battery,omitempty"`
	// The part charges batteries.
	Charger *Charger `json:"charger,omitempty"`
	// The part feeds one rail from another.
	Converter *Converter `json:"converter,omitempty"`
	// The part is a fuse.
	Fuse *Fuse `json:"fuse,omitempty"`
	// The part takes power.
	Load *PowerLoad `json:"load,omitempty"`
	// The part transmits.
	Transmitter *Transmitter `json:"transmitter,omitempty"`
	// The part receives.
	Receiver *Receiver `json:"receiver,omitempty"`
	// The part is an antenna.
	Antenna *Antenna `json:"antenna,omitempty"`
	// The part protects a receiver.
	Filter *Filter `json:"filter,omitempty"`
}

// ComesHome reports whether what is carried out is carried back: all that is not used up, and cylinders, whose gas is what is used up.
func (p Part) ComesHome() bool { return !p.Consumable || p.Cylinder != nil }
