package doc

import (
	"strings"

	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
)

// needless says why a kit does not need a value: that is something else than a value which is not shown. It is empty where the kit
// does not say so.
func (s *sheet) needless(id string) string {
	is := func(id string, yes bool) bool {
		v := s.lookup(id)
		return v.Known() && v.Kind == fact.YesNo && v.Yes == yes
	}
	switch {
	case id == "station.identification_interval_min" || id == "plan.identifications":
		if v := s.lookup("station.no_identification"); v.Known() {
			return v.Text
		}
	case strings.HasPrefix(id, "radio.isolation_") || strings.HasPrefix(id, "radio.channel_isolation_") || id == "radio.antenna_separation_m":
		if is("radio.duplex", false) {
			return s.say("needless.isolation")
		}
	case id == "anchor.holding_n":
		if v := s.lookup("anchor.kind"); v.Known() && v.Text == string(manifest.DeadweightAnchor) {
			return s.say("needless.holding")
		}
	case id == "anchor.pieces":
		return s.say("needless.pieces")
	case strings.HasPrefix(id, "radio.transmitters.") && strings.HasSuffix(id, ".stop"):
		return s.needless("station.identification_interval_min")
	case strings.HasPrefix(id, "balloon.releases.") && strings.HasSuffix(id, ".after_h"):
		if v := s.lookup(strings.TrimSuffix(id, "after_h") + "trigger"); v.Known() && v.Text != string(manifest.OnTimer) {
			return s.say("needless.timer")
		}
	case id == "plan.first_change_h":
		if v := s.lookup("power.battery_changes"); v.Known() && v.Quantity.SI == 0 {
			return s.say("needless.change")
		}
	}
	return ""
}

// identifies reports whether the relay identifies itself, as far as anybody says: only a kit that need not is without.
func (s *sheet) identifies() bool { return s.needless("station.identification_interval_min") == "" }

// valueOf prints the value of a fact, or that this kit does not need it, or that it is not shown.
func (s *sheet) valueOf(id string, v fact.Value) string {
	if !v.Known() && s.needless(id) != "" {
		return s.say("value.not-needed")
	}
	return s.value(v)
}
