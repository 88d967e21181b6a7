package kits

import (
	"math"

	"hoistbook/kits/lift"
	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

// hazardFacts are the numbers of the cautions: how hard it falls, how hard it pulls, how large a room its gas spoils. All are
// upper bounds, so that nobody stands closer for what a model left out.
var hazardFacts = []*Entry{fallEnergy.Entry, fallSack.Entry, tetherByHand.Entry, neckBallast.Entry, peopleAtNeck.Entry, peopleAtLine.Entry, gasRoom.Entry, tetherConducts}

// standardGravity is g in m/s² (CGPM 1901).
const standardGravity = 9.80665

var fallEnergy = quantity("fall.energy_j", "J", "Energy of what falls from the height of the station",
	"worst mass aloft × g × tether paid out: everything that flies comes down from the full height, and no air brakes it",
	[]source.Ref{source.At("free-fall", "m g h")},
	func(c *frame) unit.Energy {
		return unit.Energy(massAloftWorst.of(c).SI() * standardGravity * stationOut.of(c).SI())
	})

// sack is the mass of the sack that crews compare a fall with.
const sack = 10

var fallSack = quantity("fall.sack_m", "m", "Height from which a sack of 10 kg hits as hard",
	"energy of the fall ÷ (10 kg × g)", []source.Ref{source.At("free-fall", "m g h")},
	func(c *frame) unit.Length { return unit.Length(fallEnergy.of(c).SI() / (sack * standardGravity)) })

var tetherByHand = quantity("tether.peak_by_hand_kg", "kg", "Weight that pulls at a hand as the line does in the gust",
	"peak tension ÷ g", []source.Ref{source.At("statics", "")},
	func(c *frame) unit.Mass { return unit.Mass(tetherPeak.of(c).SI() / standardGravity) })

// oneHolds is the pull in newtons that one person is asked to hold. Source: hse-l23.
const oneHolds = 150

var oneHold = []source.Ref{source.At("hse-l23", "150 N to start a load")}

// ballast is by how many times the weight at the neck outweighs what it holds: filling takes minutes, and gusts come.
const ballast = 1.5

// fullNeck is the neck lift of the envelope filled to its largest volume in the coldest air, whatever was planned or read.
func fullNeck(c *frame) unit.Mass {
	return lift.Neck(lift.Gross(gasLargest.of(c), airCold.of(c), gasCold.of(c)), massEnvelope.of(c))
}

var neckBallast = quantity("lift.ballast_kg", "kg", "Weight that holds the neck while gas flows",
	"1.5 × neck lift of the envelope at its largest volume on the coldest day", policy,
	func(c *frame) unit.Mass { return unit.Mass(ballast * fullNeck(c).SI()) })

var peopleAtNeck = quantity("lift.neck_people", "", "People who can hold the neck of the balloon, however full",
	"neck lift of the envelope at its largest volume on the coldest day × g ÷ 150 N, rounded up", oneHold,
	func(c *frame) unit.Count { return people(fullNeck(c).SI() * standardGravity) })

var peopleAtLine = quantity("tether.people", "", "People who can hold the balloon on its line in the gust",
	"peak tension ÷ 150 N, rounded up", oneHold,
	func(c *frame) unit.Count { return people(tetherPeak.of(c).SI()) })

// people is how many hold a pull in newtons; somebody always does.
func people(pull float64) unit.Count { return unit.Count(max(1, math.Ceil(pull/oneHolds))) }

// Oxygen in air, and the least that people work in, as shares of the volume.
const (
	oxygenInAir = 0.2095
	oxygenLeast = 0.195
)

var gasRoom = quantity("gas.room_m3", "m3", "Closed room whose oxygen falls to 19.5 % when one cylinder leaks into it",
	"moles in a cylinder × R × hottest temperature ÷ pressure of the air, ÷ (1 − 19.5 ÷ 20.95): the gas pushes as much air out, and nothing comes in",
	[]source.Ref{source.At("ideal-gas", ""), source.At("displacement", "20.95 % (room − gas) ÷ room"), source.At("cfr-29-1910.146", "19.5 % oxygen")},
	func(c *frame) unit.Volume {
		let := try(cylinderMoles(c).Volume(airPressure.of(c), hot(c))).in(c)
		return unit.Volume(let.SI() / (1 - oxygenLeast/oxygenInAir))
	})

var tetherConducts = yesNo(nil, "tether.conductive", "Whether the line conducts when it is dry and clean", asSaid, policy,
	func(c *frame, _ string) bool {
		t := only(c, "tether", "the tether", func(p manifest.Part) *manifest.Tether { return p.Tether })
		return truth(c, t.pointer+"/conductive", t.f.Conductive)
	})
