package radio

import (
	"fmt"
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// In the receiver's own channel, 433.5 MHz or 0.6916 m, ten wavelengths are 6.916 m: 28 + 40 log 10 = 68 dB one above the other, and
// 22 + 20 log 10 − 2 · 2.15 = 37.7 dB side by side. 20 dB of a filter in the transmitter's line come to that; the receiver's own
// filter lets its channel pass. The noise asks for 79 dB and a harmonic for 94, as in isolation by hand; the carrier is elsewhere.
func TestInChannelByHand(t *testing.T) {
	x, r, _ := relay()
	ten := 10 * unit.Length(299792458/433.5e6)
	for _, c := range []struct {
		a                           Antennas
		mhz                         float64
		needed, antennas, available unit.Decibel
		binds                       string
		terms                       int
		notes                       string
	}{
		{Antennas{Vertical, ten}, 145.25, 79, 68, 88, "noise", 1, ""},
		{Antennas{Vertical, ten}, 144.5, 94, 68, 88, "harmonic 3", 2, ""},
		{Antennas{Horizontal, 1.001 * ten}, 145.25, 79, 37.7, 57.7, "noise", 1, ""},
		// 1 m is above the 0.69 m of the receiver, though below the 2.1 m of the transmitter.
		{Antennas{Vertical, 1}, 145.25, 79, 34.4, 54.4, "noise", 1, ""},
		{Antennas{Vertical, 0.69}, 145.25, 79, 28, 48, "noise", 1, "below the"},
	} {
		x.Frequency = unit.Frequency(c.mhz) * mhz
		i := InChannel(c.a, x, r, 20)
		what := fmt.Sprintf("%v at %v MHz", c.a, c.mhz)
		near(t, what+": needed", float64(i.Needed), float64(c.needed), 1e-9)
		near(t, what+": antennas", float64(i.Antennas), float64(c.antennas), 0.05)
		near(t, what+": available", float64(i.Available), float64(c.available), 0.05)
		if i.Transmitter != "TX1" || i.Receiver != "RX1" || i.Binding.Name != c.binds || len(i.Terms) != c.terms {
			t.Errorf("%s: %q against %q, bound by %s, %d terms", what, i.Transmitter, i.Receiver, i.Binding.Name, len(i.Terms))
		}
		says(t, i.Notes, c.notes)
	}
	for _, unknown := range []Isolation{InChannel(Antennas{Vertical, ten}, x, r, unit.Decibel(math.NaN())), InChannel(Antennas{Vertical, ten}, x, r, unit.Decibel(math.Inf(1)))} {
		if !isUnknown(unknown.Margin()) {
			t.Errorf("behind an unknown filter the margin is %v", unknown.Margin())
		}
	}
}

// A metre is the way of light in a 299 792 458th of a second, by definition.
func TestWavelength(t *testing.T) {
	if got := Wavelength(299792458); got != 1 {
		t.Errorf("got %v, want 1 m", got)
	}
}

// Neither end of all numbers is a result.
func TestWhatIsKnown(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if got := known(unit.Decibel(x)); !math.IsNaN(float64(got)) || !isUnknown(unit.Decibel(x)) {
			t.Errorf("%v is known as %v", x, got)
		}
	}
	for _, x := range []float64{0, -3, math.MaxFloat64, -math.MaxFloat64} {
		if got := known(unit.Decibel(x)); float64(got) != x || isUnknown(unit.Decibel(x)) {
			t.Errorf("%v is known as %v", x, got)
		}
	}
}
