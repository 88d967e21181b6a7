package manifest

import "hoistbook/kits/unit"

// Battery is the facet of a battery pack; several of one part, aloft, work in parallel.
type Battery struct {
	// The chemistry of the cells.
	Chemistry Chemistry `json:"chemistry" jsonschema:"example=li-ion"`
	// How many cells are in series.
	CellsInSeries *int `json:"cells_in_series,omitempty" jsonschema:"minimum=1,maximum=64,example=3"`
	// The nominal capacity of the pack.
	Capacity *unit.Charge `json:"capacity,omitempty" jsonschema:"example=5.2 Ah" above:"0 Ah" most:"1000 Ah"`
	// The share of the capacity that may be used; 80 % when nobody says.
	Usable *unit.Ratio `json:"usable,omitempty" jsonschema:"example=80 %" above:"0 %" most:"100 %"`
	// The share of the capacity that is left in the coldest air; 100 % when nobody says.
	ColdCapacity *unit.Ratio `json:"cold_capacity,omitempty" jsonschema:"example=75 %" above:"0 %" most:"100 %"`
	// The greatest current that the pack may give continuously.
	GreatestCurrent *unit.Current `json:"greatest_current,omitempty" jsonschema:"example=10 A" above:"0 A" most:"1000 A"`
	// How many sets the kit holds, the one aloft included; one when nobody says.
	InRotation *int `json:"in_rotation,omitempty" jsonschema:"minimum=1,maximum=100,example=2"`
	// Whether its voltage is told on the ground while it is aloft.
	Telemetry bool `json:"telemetry,omitempty" jsonschema:"example=false"`
	// The rail that the battery feeds.
	Rail Ref `json:"rail" jsonschema:"example=BAT"`
	// The share of charge at which the pack is stored.
	StorageCharge *unit.Ratio `json:"storage_charge,omitempty" jsonschema:"example=50 %" most:"100 %"`
	// The temperatures at which the pack may be charged.
	ChargedAt *unit.Range[unit.Temperature] `json:"charged_at,omitempty" jsonschema:"example=0 degC to 45 degC"`
}

// Charger is the facet of a charger.
type Charger struct {
	// The battery that it charges.
	Battery Ref `json:"battery" jsonschema:"example=BAT1"`
	// The time to charge, from cutoff to full.
	Time *unit.Duration `json:"time,omitempty" jsonschema:"example=3 h" above:"0 h"`
	// How many sets it charges at once; one when nobody says.
	Count *int `json:"count,omitempty" jsonschema:"minimum=1,maximum=100,example=1"`
}

// Converter is the facet of a regulator between two rails.
type Converter struct {
	// How it converts.
	Kind ConverterKind `json:"kind" jsonschema:"example=buck"`
	// The rail that feeds it.
	From Ref `json:"from" jsonschema:"example=BAT"`
	// The rail that it feeds.
	To Ref `json:"to" jsonschema:"example=5V"`
	// The nominal output voltage.
	Output *unit.Voltage `json:"output,omitempty" jsonschema:"example=5.0 V" above:"0 V"`
	// The tolerance of the output voltage, either side.
	Tolerance *unit.Ratio `json:"tolerance,omitempty" jsonschema:"example=2 %" most:"50 %"`
	// The share of the input power that reaches the output.
	Efficiency *unit.Ratio `json:"efficiency,omitempty" jsonschema:"example=90 %" above:"0 %" most:"100 %"`
	// The input voltages at which it works.
	Input *unit.Range[unit.Voltage] `json:"input,omitempty" jsonschema:"example=6 V to 24 V" least:"0 V" most:"1000 V"`
	// How far the input must lie above the output.
	Headroom *unit.Voltage `json:"headroom,omitempty" jsonschema:"example=0.7 V" least:"0 V"`
	// The greatest output current.
	GreatestCurrent *unit.Current `json:"greatest_current,omitempty" jsonschema:"example=3 A" above:"0 A" most:"1000 A"`
	// The current that it takes for itself.
	Quiescent *unit.Current `json:"quiescent,omitempty" jsonschema:"example=5 mA"`
	// The greatest power that it may turn into heat.
	GreatestDissipation *unit.Power `json:"greatest_dissipation,omitempty" jsonschema:"example=1.5 W" above:"0 W" most:"1000 W"`
}

// Fuse is the facet of a fuse.
type Fuse struct {
	// The rail that it protects.
	Rail Ref `json:"rail" jsonschema:"example=BAT"`
	// The rated current.
	Rating *unit.Current `json:"rating,omitempty" jsonschema:"example=3 A" above:"0 A" most:"1000 A"`
}

// PowerLoad is the facet of a module that takes power.
type PowerLoad struct {
	// The rail that feeds it.
	Rail Ref `json:"rail" jsonschema:"example=5V"`
	// The supply voltages at which it works.
	Rated *unit.Range[unit.Voltage] `json:"rated,omitempty" jsonschema:"example=4.75 V to 5.25 V" least:"0 V" most:"1000 V"`
	// The supply voltage above which it is damaged.
	DamagedAbove *unit.Voltage `json:"damaged_above,omitempty" jsonschema:"example=6 V" above:"0 V" most:"1000 V"`
	// The supply current in each state.
	Current LoadCurrent `json:"current,omitempty"`
	// The supply wires.
	Wire *Wire `json:"wire,omitempty"`
}

// LoadCurrent is a supply current for each state.
type LoadCurrent map[State]unit.Current

// Wire is a pair of wires, or a cable, with its plug.
type Wire struct {
	// The gauge of the copper.
	Gauge *unit.Gauge `json:"gauge,omitempty" jsonschema:"example=AWG 24"`
	// The length one way.
	Length *unit.Length `json:"length,omitempty" jsonschema:"example=20 cm"`
	// The plug at the module.
	Connector string `json:"connector,omitempty" jsonschema:"example=2-way locking plug, 2.5 mm"`
	// What is on each pin of the plug: a rail, a signal or GND.
	Pins Pins `json:"pins,omitempty" jsonschema:"maxProperties=64"`
	// The colour of each conductor, by what it carries.
	Colours Colours `json:"colours,omitempty" jsonschema:"maxProperties=64"`
}

// Signal is a control line from one part to another.
type Signal struct {
	// The part that drives it.
	From Ref `json:"from" jsonschema:"example=CTL1"`
	// The part that reads it.
	To Ref `json:"to" jsonschema:"example=TX1"`
	// The voltages that the driver gives: low to high.
	Drives *unit.Range[unit.Voltage] `json:"drives,omitempty" jsonschema:"example=0 V to 3.3 V"`
	// The least voltage that the input reads as high.
	NeedsHigh *unit.Voltage `json:"needs_high,omitempty" jsonschema:"example=2.0 V" least:"0 V"`
	// The greatest voltage that the input withstands.
	Withstands *unit.Voltage `json:"withstands,omitempty" jsonschema:"example=3.6 V" above:"0 V" most:"1000 V"`
	// The wires.
	Wire *Wire `json:"wire,omitempty"`
}
