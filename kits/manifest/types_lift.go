package manifest

import "hoistbook/kits/unit"

// Envelope is the facet of the part that holds the gas.
type Envelope struct {
	// Whether the envelope stretches with the gas (elastic) or keeps its volume and vents (fixed).
	Kind EnvelopeKind `json:"kind" jsonschema:"example=elastic"`
	// The lifting gas.
	Gas Gas `json:"gas" jsonschema:"example=helium"`
	// The share of the gas that is the lifting gas, the rest counted as air; 99 % when nobody says.
	Purity *unit.Ratio `json:"purity,omitempty" jsonschema:"example=98 %" above:"0 %" most:"100 %"`
	// The volume of gas filled in, as it is at launch.
	FillVolume *unit.Volume `json:"fill_volume,omitempty" jsonschema:"example=2.2 m3" above:"0 m3" most:"1000 m3"`
	// The greatest volume that the maker allows.
	LargestVolume *unit.Volume `json:"largest_volume,omitempty" jsonschema:"example=3.5 m3" above:"0 m3" most:"1000 m3"`
	// The share of the lift that is lost in each day, compounding.
	GasLoss *unit.Loss `json:"gas_loss,omitempty" jsonschema:"example=6 %/d" most:"100 %/d"`
	// The drag coefficient on the area of a sphere of the fill volume; 0.7 when nobody says.
	DragCoefficient *float64 `json:"drag_coefficient,omitempty" jsonschema:"minimum=0,maximum=5,example=0.7" least:"0.1"`
}

// Cylinder is the facet of a gas cylinder.
type Cylinder struct {
	// The water volume.
	WaterVolume *unit.Volume `json:"water_volume,omitempty" jsonschema:"example=20 L" above:"0 L" most:"1000 L"`
	// The absolute filling pressure.
	Pressure *unit.Pressure `json:"pressure,omitempty" jsonschema:"example=200 bar" above:"0 bar" most:"1000 bar"`
	// The temperature to which the filling pressure belongs.
	FilledAt *unit.Temperature `json:"filled_at,omitempty" jsonschema:"example=15 degC"`
}

// Tether is the facet of the line between anchor and balloon.
type Tether struct {
	// The mass of a length of line.
	LinearMass *unit.LinearMass `json:"linear_mass,omitempty" jsonschema:"example=1.1 g/m" above:"0 g/m"`
	// The diameter that the wind sees.
	Diameter *unit.Length `json:"diameter,omitempty" jsonschema:"example=1.4 mm" above:"0 mm"`
	// The length that is bought.
	Length *unit.Length `json:"length,omitempty" jsonschema:"example=60 m" above:"0 m" most:"5 km"`
	// The breaking strength of new line in the laboratory.
	BreakingStrength *unit.Force `json:"breaking_strength,omitempty" jsonschema:"example=950 N" above:"0 N" most:"500000 N"`
	// The share of the breaking strength that a knot leaves; 50 % when nobody says.
	KnotEfficiency *unit.Ratio `json:"knot_efficiency,omitempty" jsonschema:"example=50 %" above:"0 %" most:"100 %"`
	// How many times the working load the knotted line would bear; 10 when nobody says.
	DesignFactor *float64 `json:"design_factor,omitempty" jsonschema:"minimum=1,maximum=100,example=10"`
	// Whether the line conducts when it is dry and clean: wire, cable, or a braid with metal or carbon in it.
	Conductive *bool `json:"conductive,omitempty" jsonschema:"example=false"`
	// The drag coefficient of the line across the wind; 1.1 when nobody says.
	DragCoefficient *float64 `json:"drag_coefficient,omitempty" jsonschema:"minimum=0,maximum=5,example=1.1" least:"0.1"`
}

// Anchor is the facet of what holds the tether down.
type Anchor struct {
	// How the anchor holds.
	Kind AnchorKind `json:"kind" jsonschema:"example=deadweight"`
	// The mass of the whole deadweight.
	Mass *unit.Mass `json:"mass,omitempty" jsonschema:"example=30 kg" above:"0 kg" most:"10000 kg"`
	// How many pieces the deadweight comes apart into to be carried, such as bags.
	Pieces *int `json:"pieces,omitempty" jsonschema:"minimum=1,maximum=1000,example=4"`
	// Whether the deadweight is carried empty and filled where it stands.
	FilledOnSite bool `json:"filled_on_site,omitempty" jsonschema:"example=false"`
	// The coefficient of friction between the deadweight and the ground.
	Friction *float64 `json:"friction,omitempty" jsonschema:"minimum=0,maximum=2,example=0.4" above:"0"`
	// How many times the pull the anchor must hold; 2 when nobody says.
	DesignFactor *float64 `json:"design_factor,omitempty" jsonschema:"minimum=1,maximum=100,example=2"`
	// The pull that a fixed anchor is shown to hold, in the direction of the tether.
	Holding *unit.Force `json:"holding,omitempty" jsonschema:"example=600 N" above:"0 N" most:"500000 N"`
}

// Deflation is the facet of a device that lets the gas out.
type Deflation struct {
	// What sets the device off.
	Trigger Trigger `json:"trigger" jsonschema:"example=escape"`
	// For a timer: the time from its start to the opening.
	After *unit.Duration `json:"after,omitempty" jsonschema:"example=14 h" above:"0 h"`
}

// Marker is the facet of what makes the balloon and its line seen.
type Marker struct {
	// What the marker is.
	Kind MarkerKind `json:"kind" jsonschema:"example=pennant"`
	// The distance between two markers along the tether.
	Spacing *unit.Length `json:"spacing,omitempty" jsonschema:"example=15 m" above:"0 m"`
	// The distance from which the marker is seen.
	VisibleFrom *unit.Length `json:"visible_from,omitempty" jsonschema:"example=2 km" above:"0 m" most:"100 km"`
}
