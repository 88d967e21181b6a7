package kits

import (
	"math"

	"hoistbook/kits/manifest"
	"hoistbook/kits/radio"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var radioFacts = []*Entry{
	radioHorizon.Entry, radioCoverage.Entry, radioLimit, radioWanted.Entry, linkHorizon.Entry, linkUp.Entry, linkDown.Entry,
	radioDuplex, isolationNeeded.Entry, isolationAvailable.Entry, isolationBinds, channelNeeded.Entry, channelAvailable.Entry, channelBinds, exposurePublic.Entry, exposureTrained.Entry, exposureBinds,
	transmitterFrequency.Entry, transmitterPower.Entry, transmitterEIRP.Entry, receiverFrequency.Entry,
}

var (
	transmitters = &family{"radio.transmitters", refsOf(func(p manifest.Part) bool { return p.Transmitter != nil })}
	receivers    = &family{"radio.receivers", refsOf(func(p manifest.Part) bool { return p.Receiver != nil })}
	exposures    = &family{"radio.exposure", transmitters.subjects}
	links        = &family{"radio.links", func(c *frame) []string {
		var ids []string
		for id := range manifest.Sorted(c.run.manifest.Ground) {
			ids = append(ids, string(id))
		}
		return ids
	}}
)

var (
	horizonSources = []source.Ref{source.At("p310", "k = 4/3")}
	pathSources    = []source.Ref{source.At("p525", ""), source.At("hata-1980", ""), source.At("weissberger", "")}
	limitSources   = []source.Ref{source.At("oet-65", ""), source.At("cfr-47-1.1310", "Table 1"), source.At("icnirp-2020", "Tables 5 and 6")}
)

var linkHorizon = member(links, "radio.links.*.horizon_km", "km", "Radio horizon of the ground station",
	"√(2 k R) × (√lowest height + √height of the station's antenna), k = 4/3, R = 6371 km", horizonSources,
	func(c *frame, id string) unit.Length {
		return radio.Horizon(stationLowest.of(c), given(c, at("ground", id, "height"), c.run.manifest.Ground[manifest.Ref(id)].Height))
	})

var linkUp = member(links, "radio.links.*.up_km", "km", "Range from the ground station to the relay",
	"distance at which power + gains − losses − path loss − fade margin equals the relay's sensitivity", pathSources,
	func(c *frame, id string) unit.Length { return ranged(c, cover.at(c, id).Up) })

var linkDown = member(links, "radio.links.*.down_km", "km", "Range from the relay to the ground station",
	"distance at which power + gains − losses − path loss − fade margin equals the station's sensitivity", pathSources,
	func(c *frame, id string) unit.Length { return ranged(c, cover.at(c, id).Down) })

// ranged hands out a range, and says where a model was used beyond its limits.
func ranged(c *frame, r radio.Reach) unit.Length {
	for _, n := range r.Notes {
		if math.IsNaN(r.Distance.SI()) {
			c.missing("%s", n)
			continue
		}
		c.note(n)
	}
	return r.Distance
}

var radioHorizon = quantity("radio.horizon_km", "km", "Radio horizon, the nearest of all ground stations",
	"least horizon of any ground station", horizonSources,
	func(c *frame) unit.Length { return least(c, linkHorizon) })

var radioCoverage = quantity("radio.coverage_km", "km", "Coverage: the distance at which every ground station is served both ways",
	"least of horizon, range up and range down, over all ground stations", pathSources,
	func(c *frame) unit.Length { return least(c, linkHorizon, linkUp, linkDown) })

// least is the smallest of some facts about all ground stations. Without a station there is none.
func least(c *frame, facts ...number[unit.Length]) unit.Length {
	shortest := unit.Length(math.Inf(1))
	for _, id := range c.members(links) {
		for _, f := range facts {
			shortest = min(shortest, f.at(c, id))
		}
	}
	if math.IsInf(shortest.SI(), 1) {
		c.missing("the manifest has no ground station")
	}
	return shortest
}

var radioLimit = word(nil, "radio.limit", "What ends the coverage", "the link or horizon that is the least", nil, pathSources,
	func(c *frame, _ string) string {
		reach := radioCoverage.of(c)
		for _, id := range c.members(links) {
			switch reach {
			case linkHorizon.at(c, id):
				return "the horizon of " + id
			case linkUp.at(c, id):
				return "the link from " + id + " to the relay"
			case linkDown.at(c, id):
				return "the link from the relay to " + id
			}
		}
		return ""
	})

var radioWanted = quantity("radio.wanted_km", "km", "Distance that is wanted", asSaid, policy,
	func(c *frame) unit.Length { return given(c, "/coverage/wanted", coverage(c).Wanted) })

var radioDuplex = yesNo(nil, "radio.duplex", "Whether a receiver listens while the relay transmits", "there is a transmitter, and a receiver that is not muted meanwhile", policy,
	func(c *frame, _ string) bool {
		return has(c, func(p manifest.Part) bool { return p.Transmitter != nil }) &&
			has(c, func(p manifest.Part) bool { return p.Receiver != nil && !p.Receiver.Muted })
	})

var isolationSources = []source.Ref{source.At("isolation", "")}

var isolationNeeded = quantity("radio.isolation_needed_db", "dB", "Isolation that the receiver needs from the relay's own transmitter",
	"greatest of: P − (sensitivity + blocking); P + noise floor − (sensitivity − 6 dB); and P − harmonic suppression − (sensitivity − 6 dB) where harmonic 2 to 5 falls within a channel width", isolationSources,
	func(c *frame) unit.Decibel { return isolation.of(c).Needed })

var isolationAvailable = quantity("radio.isolation_available_db", "dB", "Isolation that antennas and filters give",
	"vertical: 28 + 40 log(S/λ); horizontal: 22 + 20 log(S/λ) − gains; λ the transmitter's wavelength; plus the rejection of the receiver's filters", isolationSources,
	func(c *frame) unit.Decibel { return isolation.of(c).Available })

var isolationBinds = word(nil, "radio.isolation_binds", "What asks for the most isolation", "the greatest of the three needs", nil, isolationSources,
	func(c *frame, _ string) string { return isolation.of(c).Binding.Name })

var channelNeeded = quantity("radio.channel_isolation_needed_db", "dB", "Isolation needed from what the relay's transmitter sends into the receiver's own channel",
	"greatest of: P + noise floor − (sensitivity − 6 dB); and P − harmonic suppression − (sensitivity − 6 dB) where harmonic 2 to 5 falls within a channel width", isolationSources,
	func(c *frame) unit.Decibel { return inChannel.of(c).Needed })

var channelAvailable = quantity("radio.channel_isolation_available_db", "dB", "Isolation that antennas and filters behind the transmitter give on the receiver's frequency",
	"vertical: 28 + 40 log(S/λ); horizontal: 22 + 20 log(S/λ) − gains; λ the receiver's wavelength; plus the rejection of filters in the transmitter's line: a filter in the receiver's line lets its own channel pass", isolationSources,
	func(c *frame) unit.Decibel { return inChannel.of(c).Available })

var channelBinds = word(nil, "radio.channel_isolation_binds", "What asks for the most isolation in the channel", "the greater of the needs", nil, isolationSources,
	func(c *frame, _ string) string { return inChannel.of(c).Binding.Name })

var exposurePublic = member(exposures, "radio.exposure.*.public_m", "m", "Distance that everybody keeps from the transmitting antenna",
	"√(2.56 × EIRP × duty ÷ (4 π limit)), the greatest over the limits for the public", limitSources,
	func(c *frame, ref string) unit.Length { return exposure.at(c, ref).Public })

var exposureTrained = member(exposures, "radio.exposure.*.trained_m", "m", "Distance that trained people keep from the transmitting antenna",
	"√(2.56 × EIRP × duty ÷ (4 π limit)), the greatest over the limits for trained people", limitSources,
	func(c *frame, ref string) unit.Length { return exposure.at(c, ref).Trained })

var exposureBinds = word(exposures, "radio.exposure.*.binds", "Limit that asks for the greatest distance", "the limit with the greatest distance for the public", nil, limitSources,
	func(c *frame, ref string) string { return string(exposure.at(c, ref).Binding) })

var transmitterFrequency = member(transmitters, "radio.transmitters.*.frequency_mhz", "MHz", "Transmit frequency", asSaid, policy,
	func(c *frame, ref string) unit.Frequency { return transmitter(c, ref).Frequency })

var transmitterPower = member(transmitters, "radio.transmitters.*.power_w", "W", "Transmitter power", asSaid, policy,
	func(c *frame, ref string) unit.Power { return transmitter(c, ref).Power })

var transmitterEIRP = member(transmitters, "radio.transmitters.*.eirp_w", "W", "Equivalent isotropic radiated power",
	"power × 10^((antenna gain − feed loss) / 10)", policy,
	func(c *frame, ref string) unit.Power {
		x := transmitter(c, ref)
		return unit.Power(x.Power.SI() * math.Pow(10, (x.Gain.SI()-x.FeedLoss.SI())/10))
	})

var receiverFrequency = member(receivers, "radio.receivers.*.frequency_mhz", "MHz", "Receive frequency", asSaid, policy,
	func(c *frame, ref string) unit.Frequency { return receiver(c, ref).Frequency })
