package manifest

import "hoistbook/kits/unit"

// Transmitter is the facet of a part that transmits.
type Transmitter struct {
	// The carrier frequency.
	Frequency *unit.Frequency `json:"frequency,omitempty" jsonschema:"example=145.250 MHz" above:"0 Hz"`
	// The carrier power at the antenna socket.
	Power *unit.Power `json:"power,omitempty" jsonschema:"example=1 W" above:"0 W" most:"2000 W"`
	// The antenna part that it feeds.
	Antenna Ref `json:"antenna" jsonschema:"example=ANT2"`
	// The loss of cable and connectors.
	FeedLoss *unit.Decibel `json:"feed_loss,omitempty" jsonschema:"example=0.5 dB" least:"0 dB"`
	// How far harmonics lie below the carrier.
	HarmonicSuppression *unit.Decibel `json:"harmonic_suppression,omitempty" jsonschema:"example=60 dB" least:"0 dB" most:"200 dB"`
	// The noise in the receiver's channel over the carrier: a negative number.
	NoiseFloor *unit.Decibel `json:"noise_floor,omitempty" jsonschema:"example=-75 dB" most:"0 dB" least:"-200 dB"`
	// The emission, by the designators of the ITU Radio Regulations, appendix 1.
	Emission string `json:"emission,omitempty" jsonschema:"example=11K0F3E"`
	// How it is stopped from the ground while it is aloft.
	Stop string `json:"stop,omitempty" jsonschema:"example=tone code 41 on the relay's input"`
	// The tone sent below the voice to open receivers.
	Tone *unit.Frequency `json:"tone,omitempty" jsonschema:"example=88.5 Hz" above:"0 Hz"`
}

// Receiver is the facet of a part that receives.
type Receiver struct {
	// The frequency received.
	Frequency *unit.Frequency `json:"frequency,omitempty" jsonschema:"example=433.500 MHz" above:"0 Hz"`
	// The weakest signal that is understood.
	Sensitivity *unit.Level `json:"sensitivity,omitempty" jsonschema:"example=-118 dBm" least:"-180 dBm" most:"0 dBm"`
	// The antenna part that feeds it.
	Antenna Ref `json:"antenna" jsonschema:"example=ANT1"`
	// The loss of cable and connectors.
	FeedLoss *unit.Decibel `json:"feed_loss,omitempty" jsonschema:"example=0.5 dB" least:"0 dB"`
	// How far above its sensitivity a strong signal on another frequency may lie.
	Blocking *unit.Decibel `json:"blocking,omitempty" jsonschema:"example=75 dB" least:"0 dB" most:"200 dB"`
	// The width of the channel.
	ChannelWidth *unit.Frequency `json:"channel_width,omitempty" jsonschema:"example=12.5 kHz" above:"0 kHz"`
	// Whether the receiver is deaf while the relay transmits, as in a relay that listens and talks in turn.
	Muted bool `json:"muted,omitempty" jsonschema:"example=false"`
	// The tone below the voice that opens the receiver.
	Tone *unit.Frequency `json:"tone,omitempty" jsonschema:"example=88.5 Hz" above:"0 Hz"`
}

// Antenna is the facet of an antenna.
type Antenna struct {
	// The gain towards the horizon.
	Gain *unit.Gain `json:"gain,omitempty" jsonschema:"example=2.15 dBi" least:"-60 dBi" most:"60 dBi"`
}

// Filter is the facet of a filter in front of a receiver, or behind the transmitter whose spurs it keeps from that receiver.
type Filter struct {
	// The receiver part that it protects.
	Protects Ref `json:"protects" jsonschema:"example=RX1"`
	// The line in which it stands; that of the receiver when nobody says. Noise and harmonics that fall into the receiver's own channel pass every filter in the receiver's line: only one in the transmitter's line stops them.
	Line FilterLine `json:"line,omitempty" jsonschema:"example=receiver"`
	// How much it weakens the transmitter's carrier in the receiver's line, or its noise on the receiver's frequency in the transmitter's.
	Rejection *unit.Decibel `json:"rejection,omitempty" jsonschema:"example=45 dB" least:"0 dB" most:"200 dB"`
}

// GroundStation is a station on the ground that works through the relay.
type GroundStation struct {
	// The name in running text.
	Name string `json:"name,omitempty" jsonschema:"example=hand-held of a patrol"`
	// The transmitter power.
	Power *unit.Power `json:"power,omitempty" jsonschema:"example=4 W" above:"0 W" most:"2000 W"`
	// The antenna gain, body and hand included.
	Gain *unit.Gain `json:"gain,omitempty" jsonschema:"example=-3 dBi" least:"-60 dBi" most:"60 dBi"`
	// The height of the antenna above ground.
	Height *unit.Length `json:"height,omitempty" jsonschema:"example=1.5 m" above:"0 m" most:"500 m"`
	// The weakest signal that is understood.
	Sensitivity *unit.Level `json:"sensitivity,omitempty" jsonschema:"example=-116 dBm" least:"-180 dBm" most:"0 dBm"`
	// The loss of cable and connectors; none when nobody says.
	FeedLoss *unit.Decibel `json:"feed_loss,omitempty" jsonschema:"example=0 dB" least:"0 dB"`
}

// Antennas is how the relay's antennas stand to each other.
type Antennas struct {
	// One above the other (vertical) or side by side (horizontal).
	Arrangement Arrangement `json:"arrangement,omitempty" jsonschema:"example=vertical"`
	// The distance between the two.
	Separation *unit.Length `json:"separation,omitempty" jsonschema:"example=0.8 m" above:"0 m" most:"100 m"`
}

// Coverage is the country that the relay is to cover.
type Coverage struct {
	// The model of the country for the path loss.
	Environment Environment `json:"environment,omitempty" jsonschema:"example=suburban"`
	// The depth of foliage on the path.
	VegetationDepth *unit.Length `json:"vegetation_depth,omitempty" jsonschema:"example=60 m"`
	// What is kept in hand for fading; 10 dB when nobody says.
	FadeMargin *unit.Decibel `json:"fade_margin,omitempty" jsonschema:"example=10 dB" least:"0 dB"`
	// The distance that is wanted.
	Wanted *unit.Length `json:"wanted,omitempty" jsonschema:"example=1.5 km" above:"0 km"`
}
