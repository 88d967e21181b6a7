package radio

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// An Arrangement is how the relay's two antennas stand to each other.
type Arrangement string

// The arrangements: one above the other in line, or side by side.
const (
	Vertical   Arrangement = "vertical"
	Horizontal Arrangement = "horizontal"
)

// Antennas is the pair of antennas.
type Antennas struct {
	Arrangement Arrangement
	Separation  unit.Length
}

// AntennaIsolation of two antennas S apart at the transmitter's wavelength λ, by the rules of thumb of mobile radio
// [isolation]:
//
//	side by side         22 + 20 log₁₀(S/λ) − G₁ − G₂, good beyond ten wavelengths
//	one above the other  28 + 40 log₁₀(S/λ), good beyond one wavelength; the gains point elsewhere
//
// Closer than that the antennas are parts of one another and only a measurement tells; IsolationLimits says so. Masts,
// cables and the balloon's payload reflect, so ten decibels less is no surprise.
func AntennaIsolation(a Antennas, f unit.Frequency, g1, g2 unit.Gain) unit.Decibel {
	ratio := math.Log10(float64(a.Separation)) - math.Log10(float64(Wavelength(f)))
	switch a.Arrangement {
	case Horizontal:
		return known(unit.Decibel(22 + 20*ratio - float64(g1) - float64(g2)))
	case Vertical:
		return known(unit.Decibel(28 + 40*ratio))
	}
	return unknown[unit.Decibel]()
}

// IsolationLimits says in a sentence when the antennas are too close for AntennaIsolation.
func IsolationLimits(a Antennas, f unit.Frequency) []string {
	least := Wavelength(f)
	if a.Arrangement == Horizontal {
		least *= 10
	}
	if a.Separation < least {
		return []string{fmt.Sprintf("a separation of %s is below the %s from which the isolation of antennas in this arrangement can be calculated; measure it", a.Separation, least)}
	}
	return nil
}

// blocking names the one term that a filter before the receiver helps against.
const blocking = "blocking"

// A Term is one reason for isolation between a transmitter and a receiver.
type Term struct {
	Name     string // "blocking", "noise", "harmonic 3"
	Needed   unit.Decibel
	Sentence string
}

// Terms lists what the receiver must be spared, with P the transmitter's power and s the receiver's sensitivity:
//
//	blocking  P − (s + blocking)                      the carrier beside the channel
//	noise     P + noise floor − (s − 6 dB)            the transmitter's noise in the channel
//	harmonic  P − suppression − (s − 6 dB)            where n·f_tx, n = 2…5, lies within a channel width of f_rx
//
// Noise and harmonics 6 dB under the sensitivity cost the receiver about 1 dB (10 log(1 + 10^−0.6)) [isolation]. A channel width that
// is not known leaves it open whether a harmonic hits, and the term with it.
func Terms(x Transmitter, r Receiver) []Term {
	carrier := x.Power.Level()
	quiet := r.Sensitivity.Plus(-6)
	terms := []Term{
		{blocking, known(carrier.Over(r.Sensitivity.Plus(r.Blocking))), fmt.Sprintf("the carrier of %q must not block %q", x.Ref, r.Ref)},
		{"noise", known(carrier.Plus(x.NoiseFloor).Over(quiet)), fmt.Sprintf("the noise of %q must stay below the weakest signal of %q", x.Ref, r.Ref)},
	}
	for n := 2; n <= 5; n++ {
		off := math.Abs(float64(n)*float64(x.Frequency) - float64(r.Frequency))
		if off > float64(r.ChannelWidth) {
			continue
		}
		needed := known(carrier.Plus(-x.HarmonicSuppression).Over(quiet))
		if isUnknown(off) || isUnknown(r.ChannelWidth) {
			needed = unknown[unit.Decibel]()
		}
		terms = append(terms, Term{fmt.Sprintf("harmonic %d", n), needed,
			fmt.Sprintf("harmonic %d of %q falls into the channel of %q", n, x.Ref, r.Ref)})
	}
	return terms
}

// Isolation is what one receiver needs against one transmitter, and what it has.
type Isolation struct {
	Transmitter, Receiver string
	Needed                unit.Decibel // the greatest of the terms
	Binding               Term         // the one that asks for it
	Available             unit.Decibel // antennas and filters
	Antennas              unit.Decibel // the antennas' part
	Terms                 []Term
	Notes                 []string
}

// Margin is by how much the isolation exceeds what is needed.
func (i Isolation) Margin() unit.Decibel { return i.Available - i.Needed }

// Isolate compares one transmitter with one receiver. Needed is NaN as long as one term is.
func Isolate(a Antennas, x Transmitter, r Receiver) Isolation {
	i := Isolation{Transmitter: x.Ref, Receiver: r.Ref, Terms: Terms(x, r), Notes: IsolationLimits(a, x.Frequency)}
	i.bind()
	i.Antennas = AntennaIsolation(a, x.Frequency, x.Gain, r.Gain)
	i.Available = known(i.Antennas + r.Rejection)
	return i
}

// bind finds the term that asks for the most, or the first that is not known.
func (i *Isolation) bind() {
	i.Binding = i.Terms[0]
	for _, t := range i.Terms[1:] {
		if t.Needed > i.Binding.Needed || isUnknown(t.Needed) && !isUnknown(i.Binding.Needed) {
			i.Binding = t
		}
	}
	i.Needed = i.Binding.Needed
}

// WorstIsolation is the pair with the smallest margin, or the first whose margin is not known; false without any pair.
func WorstIsolation(a Antennas, transmitters []Transmitter, receivers []Receiver) (Isolation, bool) {
	var worst Isolation
	found := false
	for _, x := range transmitters {
		for _, r := range receivers {
			i := Isolate(a, x, r)
			if !found || i.Margin() < worst.Margin() || isUnknown(i.Margin()) && !isUnknown(worst.Margin()) {
				worst, found = i, true
			}
		}
	}
	return worst, found
}
