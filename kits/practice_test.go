package kits_test

import (
	"fmt"
	"math"
	"testing"

	"hoistbook/kits"
)

// Common practice, not measured by anybody we could cite: what people who fly such kits expect. The bands are wide on purpose;
// a kit outside them is not wrong, but a formula that leaves them probably is.

// A relay of about half a watt to one watt at about 30 m in wooded suburb reaches the order of a mile: within a factor of √10.
func TestPracticeARelayReachesTheOrderOfAMile(t *testing.T) {
	for _, power := range []string{"500 mW", "700 mW", "1 W"} {
		for _, wood := range []string{"60 m", "100 m", "200 m"} {
			m := demoWith(t, "fen-relay", fmt.Sprintf(`{"station": {"lowest_height": "30 m"}, "parts": {"TX1": {"transmitter": {"power": %q}}},
				"coverage": {"environment": "suburban", "vegetation_depth": %q}}`, power, wood))
			miles := si(t, kits.Assess(m), "radio.coverage_km") / 1609.344
			if !(miles >= 1/math.Sqrt(10) && miles <= math.Sqrt(10)) {
				t.Errorf("%s through %s of wood reaches %.2f miles", power, wood, miles)
			}
		}
	}
}

// A good latex fill stays up several days: still aloft after three in calm air, down before a month.
func TestPracticeALatexFillStaysUpSeveralDays(t *testing.T) {
	for _, id := range []string{"fen-relay", "marsh-data"} {
		for days, stays := range map[int]bool{1: true, 3: true, 31: false} {
			m := demoWith(t, id, fmt.Sprintf(`{"station": {"duration": "%d d"}}`, days))
			if free := si(t, kits.Assess(m), "lift.free_end_kg"); (free > 0) != stays {
				t.Errorf("%s: after %d days the free lift is %.0f g", id, days, free*1000)
			}
		}
	}
}

// A small relay on a few ampere-hours talks for ten to twenty hours.
func TestPracticeASmallRelayTalksForTenToTwentyHours(t *testing.T) {
	for _, id := range []string{"fen-relay", "ridge-sphere"} {
		if hours := si(t, kits.Assess(demoWith(t, id, `{}`)), "power.endurance_h") / 3600; hours < 10 || hours > 20 {
			t.Errorf("%s talks for %.1f h", id, hours)
		}
	}
}
