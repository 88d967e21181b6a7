package manifest

import "hoistbook/kits/unit"

// Steps are the lists of what people do, in order.
type Steps struct {
	// Building the kit.
	Assembly []Step `json:"assembly,omitempty" jsonschema:"maxItems=500"`
	// Before the balloon rises, beyond the list that every kit has.
	Preflight []Step `json:"preflight,omitempty" jsonschema:"maxItems=500"`
	// Bringing the kit home, beyond the list that every kit has.
	Recovery []Step `json:"recovery,omitempty" jsonschema:"maxItems=500"`
}

// Step is one thing that somebody does.
type Step struct {
	// The name by which records and cautions point to the step.
	ID Ref `json:"id" jsonschema:"example=solder-supply"`
	// What to do, as an order.
	Text string `json:"text" jsonschema:"minLength=1,maxLength=1000,example=Solder the supply wires to REG1."`
	// The parts that are handled.
	Parts []Ref `json:"parts,omitempty" jsonschema:"uniqueItems=true"`
	// The tools that are needed.
	Tools []string `json:"tools,omitempty"`
	// Who does it.
	Roles []string `json:"roles,omitempty"`
	// Whether work stops here until a second person has looked.
	Hold bool `json:"hold,omitempty" jsonschema:"example=true"`
	// How long it takes.
	Time *unit.Duration `json:"time,omitempty" jsonschema:"example=10 min" above:"0 min"`
	// What helps to do it well.
	Note string `json:"note,omitempty" jsonschema:"example=Red is plus."`
}

// Caution is a message about a hazard, in the order of ANSI Z535.6: signal word, hazard, consequence, avoidance.
type Caution struct {
	// The signal word.
	Signal SignalWord `json:"signal" jsonschema:"example=warning"`
	// What the hazard is.
	Hazard string `json:"hazard" jsonschema:"minLength=1,maxLength=300,example=The cylinder is under pressure."`
	// What happens if it is not avoided.
	Consequence string `json:"consequence" jsonschema:"minLength=1,maxLength=300,example=A fallen cylinder can shear its valve and kill."`
	// How it is avoided.
	Avoidance string `json:"avoidance" jsonschema:"minLength=1,maxLength=300,example=Lash it upright before the cap comes off."`
	// The lists of steps before which it is read.
	Before []List `json:"before,omitempty" jsonschema:"uniqueItems=true"`
}
