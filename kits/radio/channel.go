package radio

import "hoistbook/kits/unit"

// InChannel is what a receiver needs against what a transmitter sends into the receiver's own channel, its noise and the
// harmonics that hit it, and what it has against that: the antennas, and the filters in the transmitter's line, both on the
// receiver's frequency. A filter in the receiver's line lets its own channel pass, and this with it, so that Rejection does
// not count here.
//
// Source: isolation (the terms); what passes a filter is no matter of a source.
func InChannel(a Antennas, x Transmitter, r Receiver, behind unit.Decibel) Isolation {
	i := Isolation{Transmitter: x.Ref, Receiver: r.Ref, Notes: IsolationLimits(a, r.Frequency)}
	for _, t := range Terms(x, r) {
		if t.Name != blocking {
			i.Terms = append(i.Terms, t)
		}
	}
	i.bind()
	i.Antennas = AntennaIsolation(a, r.Frequency, x.Gain, r.Gain)
	i.Available = known(i.Antennas + behind)
	return i
}
