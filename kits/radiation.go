package kits

import (
	"math"

	"hoistbook/kits/manifest"
	"hoistbook/kits/radio"
	"hoistbook/kits/unit"
)

// transmitter reads the transmitter of a part, its antenna included.
func transmitter(c *frame, ref string) radio.Transmitter {
	x := part(c, ref).Transmitter
	in := func(key string) string { return at("parts", ref, "transmitter", key) }
	return radio.Transmitter{
		Ref:       ref,
		Frequency: given(c, in("frequency"), x.Frequency),
		Power:     given(c, in("power"), x.Power),
		Gain:      antennaGain(c, x.Antenna),
		FeedLoss:  given(c, in("feed_loss"), x.FeedLoss),
	}
}

// withSpurs adds what a transmitter sends beside its carrier: only its isolation from a receiver depends on it.
func withSpurs(c *frame, x radio.Transmitter) radio.Transmitter {
	t := part(c, x.Ref).Transmitter
	x.HarmonicSuppression = given(c, at("parts", x.Ref, "transmitter", "harmonic_suppression"), t.HarmonicSuppression)
	x.NoiseFloor = given(c, at("parts", x.Ref, "transmitter", "noise_floor"), t.NoiseFloor)
	return x
}

// receiver reads the receiver of a part, its antenna included.
func receiver(c *frame, ref string) radio.Receiver {
	r := part(c, ref).Receiver
	in := func(key string) string { return at("parts", ref, "receiver", key) }
	return radio.Receiver{
		Ref:         ref,
		Frequency:   given(c, in("frequency"), r.Frequency),
		Sensitivity: given(c, in("sensitivity"), r.Sensitivity),
		Gain:        antennaGain(c, r.Antenna),
		FeedLoss:    given(c, in("feed_loss"), r.FeedLoss),
	}
}

// withGuard adds how a receiver is protected from the relay's own transmitter.
func withGuard(c *frame, r radio.Receiver) radio.Receiver {
	p := part(c, r.Ref).Receiver
	r.Blocking = given(c, at("parts", r.Ref, "receiver", "blocking"), p.Blocking)
	r.ChannelWidth = given(c, at("parts", r.Ref, "receiver", "channel_width"), p.ChannelWidth)
	for _, f := range every(c, "filter", func(p manifest.Part) *manifest.Filter { return p.Filter }) {
		if string(f.f.Protects) == r.Ref && f.f.Line != manifest.InTransmitter {
			r.Rejection += given(c, f.pointer+"/rejection", f.f.Rejection)
		}
	}
	return r
}

func antennaGain(c *frame, ref manifest.Ref) unit.Gain {
	a := c.run.manifest.Parts[ref].Antenna
	if a == nil {
		c.missing("no antenna part %q is described", ref)
		return unit.Gain(nan)
	}
	return given(c, at("parts", ref, "antenna", "gain"), a.Gain)
}

// groundStation reads a station on the ground.
func groundStation(c *frame, id string) radio.Ground {
	g := c.run.manifest.Ground[manifest.Ref(id)]
	in := func(key string) string { return at("ground", id, key) }
	return radio.Ground{
		ID:          id,
		Power:       given(c, in("power"), g.Power),
		Gain:        given(c, in("gain"), g.Gain),
		FeedLoss:    otherwise(c, in("feed_loss"), g.FeedLoss, unit.Decibel(0), "loss of a ground station's cable when nobody says"),
		Height:      given(c, in("height"), g.Height),
		Sensitivity: given(c, in("sensitivity"), g.Sensitivity),
	}
}

// country is what the waves cross, seen from the lowest height that the payload may sink to.
func country(c *frame) radio.Terrain {
	k := coverage(c)
	return radio.Terrain{
		Environment: radio.Environment(text(c, "/coverage/environment", k.Environment)),
		Vegetation:  given(c, "/coverage/vegetation_depth", k.VegetationDepth),
		FadeMargin:  otherwise(c, "/coverage/fade_margin", k.FadeMargin, unit.Decibel(10), "kept in hand for fading when nobody says"),
		Relay:       stationLowest.of(c),
	}
}

func coverage(c *frame) *manifest.Coverage {
	if k := c.run.manifest.Coverage; k != nil {
		return k
	}
	return &manifest.Coverage{}
}

// cover finds how far one ground station is served.
var cover = sharedBy(func(c *frame, id string) radio.GroundLinks {
	terrain, station := country(c), groundStation(c, id)
	var sending []radio.Transmitter
	for _, ref := range c.members(transmitters) {
		sending = append(sending, transmitter(c, ref))
	}
	var hearing []radio.Receiver
	for _, ref := range c.members(receivers) {
		hearing = append(hearing, receiver(c, ref))
	}
	if !c.known() {
		return radio.GroundLinks{}
	}
	return radio.Cover(terrain, sending, hearing, []radio.Ground{station}).Links[0]
})

// inChannel is the worst pair of a transmitter and a receiver that listens meanwhile, for what falls into the receiver's own
// channel.
var inChannel = shared(func(c *frame) radio.Isolation {
	pair, sending, hearing := standing(c)
	if !c.known() {
		return radio.Isolation{}
	}
	var worst radio.Isolation
	for n, r := range hearing {
		behind := unit.Decibel(0)
		for _, f := range every(c, "filter", func(p manifest.Part) *manifest.Filter { return p.Filter }) {
			if string(f.f.Protects) == r.Ref && f.f.Line == manifest.InTransmitter {
				behind += given(c, f.pointer+"/rejection", f.f.Rejection)
			}
		}
		for k, x := range sending {
			if math.IsNaN(worst.Margin().SI()) {
				break // one that is not known is the worst
			}
			i := radio.InChannel(pair, x, r, behind)
			if n+k == 0 || i.Margin() < worst.Margin() || math.IsNaN(i.Margin().SI()) {
				worst = i
			}
		}
	}
	for _, n := range worst.Notes {
		c.note(n)
	}
	return worst
})

// isolation is the worst pair of a transmitter and a receiver that listens meanwhile.
var isolation = shared(func(c *frame) radio.Isolation {
	pair, sending, hearing := standing(c)
	worst, ok := radio.WorstIsolation(pair, sending, hearing)
	if !ok {
		c.missing("there is no transmitter")
	}
	for _, n := range worst.Notes {
		c.note(n)
	}
	return worst
})

// exposure is how far people keep from one transmitter's antenna.
var exposure = sharedBy(func(c *frame, ref string) radio.Exposure {
	x := transmitter(c, ref)
	duty, ok := station(c).Duty[manifest.Transmit]
	if !ok {
		c.missing("the manifest does not say /station/duty/transmit")
		return radio.Exposure{}
	}
	x.Duty = must(c, "/station/duty/transmit", duty)
	return radio.Expose(x)
})

// standing is how the antennas stand, what sends, and what listens meanwhile.
func standing(c *frame) (pair radio.Antennas, sending []radio.Transmitter, hearing []radio.Receiver) {
	for _, ref := range c.members(receivers) {
		if !part(c, ref).Receiver.Muted {
			hearing = append(hearing, withGuard(c, receiver(c, ref)))
		}
	}
	for _, ref := range c.members(transmitters) {
		sending = append(sending, withSpurs(c, transmitter(c, ref)))
	}
	if len(hearing) == 0 {
		c.missing("no receiver listens while the relay transmits")
		return pair, nil, nil
	}
	if len(sending) == 0 {
		c.missing("there is no transmitter")
	}
	antennas := manifest.Antennas{}
	if a := c.run.manifest.Antennas; a != nil {
		antennas = *a
	}
	return radio.Antennas{
		Arrangement: radio.Arrangement(text(c, "/antennas/arrangement", antennas.Arrangement)),
		Separation:  given(c, "/antennas/separation", antennas.Separation),
	}, sending, hearing
}
