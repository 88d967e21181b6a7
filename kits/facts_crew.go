package kits

import (
	"math"

	"hoistbook/kits/manifest"
	"hoistbook/kits/power"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

// crewFacts say what a checklist must know to ask only for what this kit has.
var crewFacts = []*Entry{
	releaseTrigger, releaseAfter.Entry, transmitterStop, receiverShares, batteryTold, batteryStorageVolts.Entry,
	anchorPieces.Entry, anchorPiece.Entry, anchorOneLoad.Entry, anchorLoads.Entry, anchorHands.Entry, anchorFilledThere,
}

// releases are the devices that let the gas out.
var releases = &family{"balloon.releases", refsOf(func(p manifest.Part) bool { return p.Deflation != nil })}

var releaseTrigger = word(releases, "balloon.releases.*.trigger", "What sets the device off that lets the gas out", asSaid,
	[]string{string(manifest.OnEscape), string(manifest.OnRemote), string(manifest.OnTimer), string(manifest.ByHand)}, policy,
	func(c *frame, ref string) string {
		return text(c, at("parts", ref, "deflation", "trigger"), string(part(c, ref).Deflation.Trigger))
	})

var releaseAfter = member(releases, "balloon.releases.*.after_h", "h", "Time after which a timer lets the gas out", asSaid, policy,
	func(c *frame, ref string) unit.Duration {
		return given(c, at("parts", ref, "deflation", "after"), part(c, ref).Deflation.After)
	})

var transmitterStop = word(transmitters, "radio.transmitters.*.stop", "How the transmitter is stopped from the ground", asSaid, nil, policy,
	func(c *frame, ref string) string {
		return text(c, at("parts", ref, "transmitter", "stop"), part(c, ref).Transmitter.Stop)
	})

var receiverShares = yesNo(receivers, "radio.receivers.*.own_channel", "Whether the relay sends on the channel on which the receiver listens", "a transmitter of the kit has the receiver's frequency", policy,
	func(c *frame, ref string) bool {
		hears := receiverFrequency.at(c, ref)
		for _, t := range c.members(transmitters) {
			if transmitterFrequency.at(c, t) == hears {
				return true
			}
		}
		return false
	})

var batteryTold = yesNo(batteries, "power.batteries.*.told", "Whether the battery's voltage is told on the ground while it is aloft", "the manifest says so", policy,
	func(c *frame, ref string) bool { return part(c, ref).Battery.Telemetry })

var batteryStorageVolts = member(batteries, "power.batteries.*.storage_v", "V", "Voltage of the battery, at rest, at the charge at which it is put away",
	"cells in series × resting voltage of the chemistry in storage; known where the storage charge lies in the chemistry's range", []source.Ref{source.At("practice", "")},
	func(c *frame, ref string) unit.Voltage {
		_, series := cellOf(c, ref)
		charge := batteryStorage.at(c, ref)
		care := power.CareOf(power.Chemistry(part(c, ref).Battery.Chemistry))
		volts := unit.Voltage(series * float64(care.StoreVoltage))
		if c.known() && (charge < care.Store.Low || charge > care.Store.High || math.IsNaN(volts.SI())) {
			c.missing("no voltage tells a charge of %s for these cells", charge.Quantity().Text(unit.SI))
		}
		return volts
	})

// oneLoad is what one person is asked to carry alone over a field: this project's own limit, the weight of the 150 N that it
// lets one person hold.
const oneLoad = 15

var anchorOneLoad = quantity("anchor.one_load_kg", "kg", "Heaviest load that one person is asked to carry", "15 kg, the weight of the pull that one person is asked to hold", policy,
	func(*frame) unit.Mass { return oneLoad })

var anchorPieces = quantity("anchor.pieces", "", "Pieces into which the anchor comes apart", asSaid, policy,
	func(c *frame) unit.Count {
		a := anchor(c)
		return unit.Count(count(c, a.pointer+"/pieces", a.f.Pieces))
	})

var anchorPiece = quantity("anchor.piece_kg", "kg", "Mass of one piece of the anchor", "mass of the anchor ÷ pieces; all of it where nobody says that it comes apart", policy,
	func(c *frame) unit.Mass {
		a := anchor(c)
		return unit.Mass(anchorMass.of(c).SI() / countOr(c, a.pointer+"/pieces", a.f.Pieces, 1, ""))
	})

var anchorLoads = quantity("anchor.loads", "", "Loads in which one person after the other can carry the anchor", "mass of the anchor ÷ 15 kg, rounded up", policy,
	func(c *frame) unit.Count {
		return unit.Count(math.Ceil(anchorMass.of(c).SI()/anchorOneLoad.of(c).SI() - 1e-9))
	})

var anchorHands = quantity("anchor.people_a_piece", "", "People who carry one piece of the anchor", "mass of one piece ÷ 15 kg, rounded up", policy,
	func(c *frame) unit.Count {
		return unit.Count(math.Ceil(anchorPiece.of(c).SI()/anchorOneLoad.of(c).SI() - 1e-9))
	})

var anchorFilledThere = yesNo(nil, "anchor.filled_on_site", "Whether the anchor is filled where it stands", asSaid, policy,
	func(c *frame, _ string) bool { return anchor(c).f.FilledOnSite })
