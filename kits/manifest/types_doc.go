package manifest

import "hoistbook/kits/unit"

// Document is a build manifest: one small moored-balloon radio relay, everything that is bought for it, the deployment it is designed for, and what people do with it.
// A pointer that is nil, an empty text and an absent key mean the same: nobody has said.
type Document struct {
	// Where the schema of this file is kept; editors use it.
	Schema string `json:"$schema,omitempty" jsonschema:"example=manifest.schema.json"`
	// The format of this file.
	Format Format `json:"format" jsonschema:"example=hoistbook-manifest/1"`
	// What kit this is.
	Kit Kit `json:"kit"`
	// The deployment that the kit is designed for.
	Station *Station `json:"station,omitempty"`
	// Everything that is bought, by reference.
	Parts Map[Part] `json:"parts" jsonschema:"maxProperties=2000,minProperties=1"`
	// The control lines between parts, by name.
	Signals Map[Signal] `json:"signals,omitempty" jsonschema:"maxProperties=500"`
	// The stations on the ground that work through the relay, by name.
	Ground Map[GroundStation] `json:"ground,omitempty" jsonschema:"maxProperties=50"`
	// How the relay's antennas stand to each other.
	Antennas *Antennas `json:"antennas,omitempty"`
	// The country that the relay is to cover.
	Coverage *Coverage `json:"coverage,omitempty"`
	// What one kit may cost.
	Budget *Budget `json:"budget,omitempty"`
	// Where parts are bought, by name.
	Suppliers Map[Supplier] `json:"suppliers,omitempty" jsonschema:"maxProperties=100"`
	// What people do, in order.
	Steps *Steps `json:"steps,omitempty"`
	// What can hurt somebody, beyond the cautions that every kit carries.
	Cautions []Caution `json:"cautions,omitempty" jsonschema:"maxItems=100"`
	// How the kit is kept between deployments.
	Storage *Storage `json:"storage,omitempty"`
	// How a lost kit finds its way home.
	Recovery *Recovery `json:"recovery,omitempty"`
	// Recommendations that this kit does not follow: the id of the rule and the reason, which is printed.
	Waivers Waivers `json:"waivers,omitempty" jsonschema:"maxProperties=100"`
}

// Storage is how the kit is kept between deployments.
type Storage struct {
	// The temperatures at which the kit may be kept.
	Temperature *unit.Range[unit.Temperature] `json:"temperature,omitempty" jsonschema:"example=5 degC to 25 degC"`
	// The greatest relative humidity at which the kit may be kept.
	GreatestHumidity *unit.Ratio `json:"greatest_humidity,omitempty" jsonschema:"example=60 %" most:"100 %"`
	// The time after which the stored kit is looked over and its batteries are measured again.
	CheckEvery *unit.Duration `json:"check_every,omitempty" jsonschema:"example=90 d" above:"0 d"`
}

// Recovery is how a lost kit finds its way home.
type Recovery struct {
	// What is written on the payload for whoever finds it.
	Label string `json:"label,omitempty" jsonschema:"example=Harmless radio relay. Please call the number below."`
	// Whom the finder calls.
	Contact string `json:"contact,omitempty" jsonschema:"example=the club's answering machine"`
}
