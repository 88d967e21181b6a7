package radio

import (
	"math"

	"hoistbook/kits/unit"
)

// A Path is the country between the relay and one ground station.
type Path struct {
	Environment Environment
	Vegetation  unit.Length // depth of trees that the ray passes
	Base        unit.Length // height of the relay's antenna: the lowest that the payload may sink to
	Mobile      unit.Length // height of the ground station's antenna
}

// Loss is the larger of free space and the environment's model, plus the foliage. It never falls with distance.
func (p Path) Loss(d unit.Length, f unit.Frequency) unit.Decibel {
	loss := FreeSpaceLoss(d, f)
	if p.Environment != FreeSpace {
		loss = max(loss, HataLoss(p.Environment, d, f, p.Base, p.Mobile))
	}
	return loss + FoliageLoss(p.Vegetation, f)
}

// Limits says in sentences where the models of this path are used beyond their limits.
func (p Path) Limits(d unit.Length, f unit.Frequency) []string {
	var notes []string
	if p.Environment != FreeSpace {
		notes = HataLimits(d, f, p.Base, p.Mobile)
	}
	return append(notes, FoliageLimits(p.Vegetation, f)...)
}

// A Link is one direction: a transmitter with its antenna, a receiver with its antenna.
type Link struct {
	Frequency    unit.Frequency
	Power        unit.Power
	TransmitGain unit.Gain
	ReceiveGain  unit.Gain
	FeedLoss     unit.Decibel // of both ends together
	FadeMargin   unit.Decibel
	Sensitivity  unit.Level
}

// Allowed is the path loss at which the link just holds: power + gains − losses − fade margin − sensitivity.
func (l Link) Allowed() unit.Decibel {
	at := l.Power.Level().Plus(unit.Decibel(l.TransmitGain) + unit.Decibel(l.ReceiveGain) - l.FeedLoss - l.FadeMargin)
	return known(at.Over(l.Sensitivity))
}

// A Reach is the distance to which a link holds.
type Reach struct {
	Distance unit.Length // NaN when it is not known
	Notes    []string    // where a model was used beyond its limits there, or why there is no distance
}

// The search runs from nearest to farthest; a relay is no link budget at arm's length, nor beyond the Moon.
const (
	nearest  = unit.Length(1)
	farthest = unit.Length(1e9)
)

// Range is the distance at which the path loss reaches what the link allows, found by halving the distance's logarithm
// in a bracket that is proved first: the link holds at its near end and fails at its far end, which in the end lie a
// billionth apart. The near end is the answer. A link that fails at 1 m already has the range 0.
func (p Path) Range(l Link) Reach {
	allowed := l.Allowed()
	margin := func(d unit.Length) unit.Decibel { return allowed - p.Loss(d, l.Frequency) }
	low, high := nearest, farthest
	switch {
	case isUnknown(margin(low)) || isUnknown(margin(high)):
		return Reach{unknown[unit.Length](), []string{"something that the range depends on is not known"}}
	case margin(low) < 0:
		return Reach{0, []string{"the link fails at 1 m already"}}
	case margin(high) >= 0:
		return Reach{unknown[unit.Length](), []string{"the link does not end: check power, gains and sensitivity"}}
	}
	for high > low*(1+1e-9) {
		middle := unit.Length(math.Sqrt(float64(low) * float64(high)))
		if margin(middle) >= 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return Reach{low, p.Limits(low, l.Frequency)}
}
