package radio

import (
	"fmt"
	"slices"

	"hoistbook/kits/unit"
)

// A Transmitter is one of the relay's.
type Transmitter struct {
	Ref                 string
	Frequency           unit.Frequency
	Power               unit.Power
	Gain                unit.Gain // of its antenna
	FeedLoss            unit.Decibel
	HarmonicSuppression unit.Decibel // of every harmonic below the carrier
	NoiseFloor          unit.Decibel // of its noise in the receive channel over the carrier; negative
	Duty                unit.Ratio   // share of time on the air
}

// A Receiver is one of the relay's.
type Receiver struct {
	Ref          string
	Frequency    unit.Frequency
	Sensitivity  unit.Level
	Gain         unit.Gain // of its antenna
	FeedLoss     unit.Decibel
	Blocking     unit.Decibel // of a strong signal off the channel over the sensitivity
	ChannelWidth unit.Frequency
	Rejection    unit.Decibel // of all filters before it together, for the transmitter's signal
}

// A Ground is a kind of ground station.
type Ground struct {
	ID          string
	Power       unit.Power
	Gain        unit.Gain
	FeedLoss    unit.Decibel
	Height      unit.Length
	Sensitivity unit.Level
}

// A Terrain is what lies between, the same for every ground station.
type Terrain struct {
	Environment Environment
	Vegetation  unit.Length
	FadeMargin  unit.Decibel
	Relay       unit.Length // height of the relay's antennas
}

// Coverage is how far the relay serves.
type Coverage struct {
	Distance unit.Length // the least of every horizon and every link; NaN when one of them is not known
	Limit    string      // what ends it, in words
	Links    []GroundLinks
}

// GroundLinks is one ground station's part of it.
type GroundLinks struct {
	Ground  string
	Horizon unit.Length
	Up      Reach // to the relay, the worst of its receivers
	Down    Reach // from the relay, the worst of its transmitters
}

// Cover finds the coverage. A relay without a transmitter or without a receiver, and no ground station at all, leave it
// unknown.
func Cover(t Terrain, transmitters []Transmitter, receivers []Receiver, stations []Ground) Coverage {
	c := Coverage{Distance: unknown[unit.Length](), Limit: "no ground station is given"}
	for i, g := range stations {
		path := Path{t.Environment, t.Vegetation, t.Relay, g.Height}
		links := GroundLinks{Ground: g.ID, Horizon: Horizon(t.Relay, g.Height), Up: none("the relay has no receiver"), Down: none("the relay has no transmitter")}
		for n, r := range receivers {
			links.Up = worse(n == 0, links.Up, path.Range(Link{r.Frequency, g.Power, g.Gain, r.Gain, g.FeedLoss + r.FeedLoss, t.FadeMargin, r.Sensitivity}))
		}
		for n, x := range transmitters {
			links.Down = worse(n == 0, links.Down, path.Range(Link{x.Frequency, x.Power, x.Gain, g.Gain, x.FeedLoss + g.FeedLoss, t.FadeMargin, g.Sensitivity}))
		}
		c.Links = append(c.Links, links)
		for n, end := range []struct {
			distance unit.Length
			words    string
		}{
			{links.Horizon, fmt.Sprintf("the horizon of %q", g.ID)},
			{links.Up.Distance, fmt.Sprintf("the link from %q to the relay", g.ID)},
			{links.Down.Distance, fmt.Sprintf("the link from the relay to %q", g.ID)},
		} {
			first := i == 0 && n == 0
			if first || end.distance < c.Distance || isUnknown(end.distance) && !isUnknown(c.Distance) {
				c.Distance, c.Limit = end.distance, end.words
			}
		}
	}
	return c
}

func none(why string) Reach { return Reach{unknown[unit.Length](), []string{why}} }

// worse keeps the shorter of two reaches, or the one that is not known, and the notes of both.
func worse(first bool, a, b Reach) Reach {
	if first {
		return b
	}
	notes := slices.Clone(a.Notes)
	for _, n := range b.Notes {
		if !slices.Contains(notes, n) {
			notes = append(notes, n)
		}
	}
	return Reach{min(a.Distance, b.Distance), notes}
}
