package kits_test

import (
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/unit"
)

// What a checklist asks for follows from what the kit has: worked by hand from the manifests and their changes.
func TestWhatTheCrewIsTold(t *testing.T) {
	for _, tt := range []struct{ name, kit, change, fact, want string }{
		{"two channels", "fen-relay", `{}`, "radio.receivers.RX1.own_channel", "no"},
		{"one channel in turn", "marsh-data", `{}`, "radio.receivers.RAD1.own_channel", "yes"},
		{"nobody hears the battery", "fen-relay", `{}`, "power.batteries.BAT1.told", "no"},
		{"the battery is heard", "fen-relay", `{"parts":{"BAT1":{"battery":{"telemetry":true}}}}`, "power.batteries.BAT1.told", "yes"},
		{"three cells of 3.8 V at half charge", "fen-relay", `{"parts":{"BAT1":{"battery":{"storage_charge":"50 %"}}}}`, "power.batteries.BAT1.storage_v", "11.4 V"},
		{"no voltmeter tells a fifth", "fen-relay", `{"parts":{"BAT1":{"battery":{"storage_charge":"20 %"}}}}`, "power.batteries.BAT1.storage_v", ""},
		{"no voltmeter tells nickel cells", "fen-relay", `{"parts":{"BAT1":{"battery":{"chemistry":"nimh"}}}}`, "power.batteries.BAT1.storage_v", ""},
		{"a timer", "marsh-data", `{}`, "balloon.releases.DEF1.trigger", "timer"},
		{"60 kg in 4 pieces", "fen-relay", `{"parts":{"ANC1":{"anchor":{"mass":"60 kg","pieces":4}}}}`, "anchor.piece_kg", "15 kg"},
		{"15 kg is for one", "fen-relay", `{"parts":{"ANC1":{"anchor":{"mass":"60 kg","pieces":4}}}}`, "anchor.people_a_piece", "1"},
		{"16 kg is for two", "fen-relay", `{"parts":{"ANC1":{"anchor":{"mass":"64 kg","pieces":4}}}}`, "anchor.people_a_piece", "2"},
		{"460 lb are 208.65 kg, or 14 times 15 kg", "fen-relay", `{"parts":{"ANC1":{"anchor":{"mass":"460 lb","pieces":null}}}}`, "anchor.loads", "14"},
		{"nobody says that it comes apart", "fen-relay", `{"parts":{"ANC1":{"anchor":{"mass":"460 lb","pieces":null}}}}`, "anchor.people_a_piece", "14"},
		{"water", "marsh-data", `{}`, "anchor.filled_on_site", "yes"},
		{"sand", "fen-relay", `{}`, "anchor.filled_on_site", "no"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			v, ok := kits.Assess(demoWith(t, tt.kit, tt.change)).Lookup(tt.fact)
			if got := v.Print(unit.SI, ""); !ok || v.Known() && got != tt.want || !v.Known() && tt.want != "" {
				t.Errorf("%s is %q (%s), want %q", tt.fact, got, v.Unknown, tt.want)
			}
		})
	}
}
