package radio

import (
	"fmt"

	"hoistbook/kits/unit"
)

// HataLimits says in sentences what lies outside the limits of Hata's formulas. A height or frequency outside makes the
// loss doubtful; a distance below 1 km makes it a formula carried on towards the antenna, where the loss cannot be less
// than in free space.
func HataLimits(d unit.Length, f unit.Frequency, base, mobile unit.Length) []string {
	var notes []string
	note := func(what string, q unit.Quantity, low, high unit.Quantity) {
		if q.SI < low.SI || q.SI > high.SI {
			notes = append(notes, fmt.Sprintf("%s of %s is outside the %s to %s of Okumura-Hata", what, q.Text(unit.SI), low.Text(unit.SI), high.Text(unit.SI)))
		}
	}
	metres := func(l unit.Length) unit.Quantity { return l.Quantity() }
	note("the frequency", f.Quantity(), unit.Frequency(150e6).Quantity(), unit.Frequency(1500e6).Quantity())
	note("the relay's height", metres(base), metres(30), metres(200))
	note("the ground station's height", metres(mobile), metres(1), metres(10))
	note("the distance", metres(d), metres(1000), metres(20000))
	return notes
}

// FoliageLimits says in sentences what lies outside the limits of Weissberger's formula.
func FoliageLimits(depth unit.Length, f unit.Frequency) []string {
	var notes []string
	if depth == 0 {
		return nil
	}
	if f < 230e6 || f > 95e9 {
		notes = append(notes, fmt.Sprintf("the frequency of %s is outside the 230 MHz to 95 GHz of Weissberger", f))
	}
	if depth > 400 {
		notes = append(notes, fmt.Sprintf("the vegetation depth of %s is beyond the 400 m of Weissberger", depth))
	}
	return notes
}
