package change

import (
	"maps"
	"slices"
	"strings"
)

// labels are the keys of a manifest whose own name, with spaces, would not do in a sentence; by the key and what it stands in.
var labels = map[string]string{
	"name": "what it is", "place": "where it is", "mass_basis": "how the mass is known", "mass_allowance": "allowance for growth",
	"packed_in": "is packed in", "consumable": "used up each time", "quantity": "pieces in a kit",
	"order_code": "order code", "pack": "pieces in a pack", "breaks": "price from", "least_packs": "fewest packs", "lead_time": "delivery time",
	"envelope/kind": "kind of envelope", "cylinder/pressure": "filling pressure", "cylinder/filled_at": "filled at",
	"anchor/kind": "how it holds", "anchor/mass": "mass of the deadweight", "deflation/trigger": "lets the gas out",
	"marker/kind": "kind of marker", "converter/kind": "kind of converter", "load/rail": "fed from rail", "load/rated": "supply voltage, rated",
	"load/damaged_above": "damaged above", "load/current": "current", "battery/rail": "feeds rail", "battery/in_rotation": "sets in rotation",
	"battery/greatest_current": "greatest current", "converter/from": "fed from rail", "converter/to": "feeds rail", "fuse/rail": "protects rail",
	"fuse/rating": "fuse rating", "transmitter/power": "transmitter power", "transmitter/antenna": "transmits through",
	"receiver/antenna": "receives through", "transmitter/frequency": "transmits on", "receiver/frequency": "receives on",
	"antenna/gain": "antenna gain", "filter/protects": "protects", "filter/rejection": "rejection", "wire/gauge": "wire gauge", "wire/length": "wire length",
	"wire/pins": "pin", "wire/colours": "colour of", "charger/battery": "charges", "charger/time": "charging time", "charger/count": "sets charged at once",
	"tether/length": "length on the drum", "kit/id": "id", "kit/name": "name", "kit/serial": "serial number",
	"station/duration": "time on station", "station/tether_out": "line paid out", "station/rules": "regional rules", "station/night": "flies by night",
	"station/deployments": "deployments to order for", "site/name": "name of the place", "site/coldest": "coldest air", "site/hottest": "hottest air",
	"wind/speed": "design wind", "wind/measured_at": "wind is measured at", "wind/terrain": "ground that the wind crosses", "duty": "share of time on",
	"signals/from": "driven by", "signals/to": "read by", "signals/drives": "drives", "signals/needs_high": "high from",
	"budget/per_kit": "what one kit may cost", "budget/currency": "currency", "budget/tax": "tax", "coverage/wanted": "distance wanted",
	"storage/temperature": "kept at", "storage/check_every": "looked over every", "recovery/label": "label for the finder", "recovery/contact": "whom the finder calls",
	"step/text": "what to do", "step/hold": "waits for a second person", "step/time": "takes", "step/note": "note",
	"caution/signal": "signal word", "waivers": "set aside",
}

// Labels lists the English labels, for languages that have their own.
func Labels() []string { return slices.Sorted(maps.Values(labels)) }

// label says what stands at the end of a chain of keys.
func label(names []string) string {
	last := names[len(names)-1]
	if len(names) > 1 {
		within := names[len(names)-2]
		if text, ok := labels[within+"/"+last]; ok {
			return text
		}
		for _, table := range []string{"current", "pins", "colours", "breaks", "duty", "waivers"} { // the last name is no key but the reader's own
			if within != table {
				continue
			}
			head, ok := labels[table]
			if !ok && len(names) > 2 {
				head = labels[names[len(names)-3]+"/"+table]
			}
			if table == "current" {
				return head + " on " + last
			}
			return head + " " + last
		}
	}
	if text, ok := labels[last]; ok {
		return text
	}
	return strings.ReplaceAll(last, "_", " ")
}
