package kits

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

// countFacts say what the kit has and has not. A count of none is known, and is not the same as silence.
var countFacts = []*Entry{
	powerLoadCount.Entry, powerBatteryCount.Entry, powerFuseCount.Entry, radioTransmitterCount.Entry, radioReceiverCount.Entry, radioLinkCount.Entry, powerUnfed.Entry,
	massWeighed.Entry, balloonKind, balloonReused, deflationOnEscape, deflationAny, markersDay, markersSpacing.Entry, markersCount.Entry, markersNeeded.Entry, markersVisible.Entry, markersLit, batteryFused, batteryChargeLow.Entry, batteryChargeHigh.Entry,
	anchorKind, anchorHolding.Entry, anchorPull.Entry, reachHeight.Entry, powerLineNeeded.Entry,
	kitLicence, kitMaintainer, recoveryLabel, recoveryContact, storageLow.Entry, storageHigh.Entry, storageHumidity.Entry, storageCheck.Entry,
	packingPieces.Entry, packingList,
}

var (
	powerLoadCount        = counting("power.load_count", "Modules that take power", func(p manifest.Part) bool { return p.Load != nil })
	powerBatteryCount     = counting("power.battery_count", "Kinds of battery", func(p manifest.Part) bool { return p.Battery != nil })
	powerFuseCount        = counting("power.fuse_count", "Fuses", func(p manifest.Part) bool { return p.Fuse != nil })
	radioTransmitterCount = counting("radio.transmitter_count", "Transmitters", func(p manifest.Part) bool { return p.Transmitter != nil })
	radioReceiverCount    = counting("radio.receiver_count", "Receivers", func(p manifest.Part) bool { return p.Receiver != nil })
)

var radioLinkCount = quantity("radio.link_count", "", "Ground stations", "how many the manifest has", policy,
	func(c *frame) unit.Count { return unit.Count(len(c.run.manifest.Ground)) })

var powerUnfed = quantity("power.unfed_count", "", "Modules whose supply is not described",
	"transmitters, receivers and the parts at either end of a signal that are no load", policy,
	func(c *frame) unit.Count {
		m := c.run.manifest
		wired := map[manifest.Ref]bool{}
		for _, s := range m.Signals {
			wired[s.From], wired[s.To] = true, true
		}
		n := 0
		for ref, p := range m.Parts {
			if (p.Transmitter != nil || p.Receiver != nil || wired[ref]) && p.Load == nil {
				n++
			}
		}
		return unit.Count(n)
	})

func counting(id, title string, is func(manifest.Part) bool) number[unit.Count] {
	return quantity(id, "", title, "how many parts of the manifest are", policy, func(c *frame) unit.Count {
		n := 0
		for _, p := range c.run.manifest.Parts {
			if is(p) {
				n++
			}
		}
		return unit.Count(n)
	})
}

var massWeighed = quantity("mass.weighed_share", "%", "Share of the mass aloft that was weighed",
	"masses aloft whose basis is weighed ÷ mass aloft, the tether paid out included", policy,
	func(c *frame) unit.Ratio {
		weighed := unit.Mass(0)
		for ref, p := range manifest.Sorted(c.run.manifest.Parts) {
			if p.MassBasis != manifest.Weighed {
				continue
			}
			if p.Tether != nil {
				weighed += line.of(c).Nominal()
			} else if p.Place == manifest.Aloft {
				weighed += load(c, ref, p).Nominal()
			}
		}
		return unit.Ratio(weighed.SI() / massAloft.of(c).SI())
	})

var balloonKind = word(nil, "balloon.kind", "Kind of envelope", asSaid, []string{string(manifest.Elastic), string(manifest.Fixed)}, policy,
	func(c *frame, _ string) string {
		e := envelope(c)
		return text(c, e.pointer+"/kind", string(e.f.Kind))
	})

var balloonReused = yesNo(nil, "balloon.reused", "Whether the envelope flies again", "the envelope is no consumable", policy,
	func(c *frame, _ string) bool { return !envelope(c).part.Consumable })

var deflationOnEscape = yesNo(nil, "balloon.escape_deflation", "Whether the gas is let out by itself when the balloon escapes", "a part's deflation is triggered by escape", policy,
	func(c *frame, _ string) bool {
		return has(c, func(p manifest.Part) bool { return p.Deflation != nil && p.Deflation.Trigger == manifest.OnEscape })
	})

var deflationAny = yesNo(nil, "balloon.deflation", "Whether any part lets the gas out", "a part has a deflation device", policy,
	func(c *frame, _ string) bool {
		return has(c, func(p manifest.Part) bool { return p.Deflation != nil })
	})

var markersLit = yesNo(nil, "markers.lit", "Whether there is a light among the markers", "a marker is a light", policy,
	func(c *frame, _ string) bool {
		return has(c, func(p manifest.Part) bool { return p.Marker != nil && p.Marker.Kind == manifest.Light })
	})

func has(c *frame, is func(manifest.Part) bool) bool {
	for _, p := range c.run.manifest.Parts {
		if is(p) {
			return true
		}
	}
	return false
}

// dayMarkers are the pennants and streamers.
func dayMarkers(c *frame) []facet[manifest.Marker] {
	all := every(c, "marker", func(p manifest.Part) *manifest.Marker { return p.Marker })
	day := slices.DeleteFunc(all, func(m facet[manifest.Marker]) bool { return m.f.Kind == manifest.Light })
	if len(day) == 0 {
		c.missing("there is no pennant or streamer")
	}
	return day
}

var markersDay = word(nil, "markers.day_kinds", "What makes the line seen by day", "kinds of the markers that are no light", []string{"pennants", "streamers", "pennants and streamers"}, policy,
	func(c *frame, _ string) string {
		var kinds []string
		for _, m := range dayMarkers(c) {
			if kind := text(c, m.pointer+"/kind", string(m.f.Kind)) + "s"; !slices.Contains(kinds, kind) {
				kinds = append(kinds, kind)
			}
		}
		slices.Sort(kinds)
		return strings.Join(kinds, " and ")
	})

var markersSpacing = quantity("markers.day_spacing_m", "m", "Greatest distance between pennants or streamers",
	"the greatest that a pennant or streamer of the manifest says, or, where that is more, tether paid out ÷ (pennants and streamers + 1): too few of them leave more line bare", policy,
	func(c *frame) unit.Length {
		return max(markersSaid(c), unit.Length(stationOut.of(c).SI()/(markersCount.of(c).SI()+1)))
	})

// markersSaid is the greatest distance between two of them that the manifest says.
func markersSaid(c *frame) unit.Length {
	greatest := 0.0
	for _, m := range dayMarkers(c) {
		greatest = math.Max(greatest, given(c, m.pointer+"/spacing", m.f.Spacing).SI())
	}
	return unit.Length(greatest)
}

var markersCount = quantity("markers.day_count", "", "Pennants and streamers in the kit", "quantities of the parts that are pennants or streamers", policy,
	func(c *frame) unit.Count {
		n := 0.0
		for _, m := range dayMarkers(c) {
			n += countOr(c, at("parts", m.ref, "quantity"), m.part.Quantity, 1, "")
		}
		return unit.Count(n)
	})

var markersNeeded = quantity("markers.day_needed", "", "Pennants and streamers that mark the whole line",
	"tether paid out ÷ the distance that the manifest says, rounded up, less one: the balloon marks the upper end", policy,
	func(c *frame) unit.Count {
		gaps := math.Ceil(stationOut.of(c).SI()/markersSaid(c).SI() - 1e-9)
		return unit.Count(max(0, gaps-1))
	})

var markersVisible = quantity("markers.day_visible_m", "m", "Least distance from which pennants and streamers are seen", "the least that a pennant or streamer of the manifest says", policy,
	func(c *frame) unit.Length {
		least := math.Inf(1)
		for _, m := range dayMarkers(c) {
			least = math.Min(least, given(c, m.pointer+"/visible_from", m.f.VisibleFrom).SI())
		}
		return unit.Length(least)
	})

var batteryFused = yesNo(batteries, "power.batteries.*.fused", "Whether a fuse stands on the battery's rail", "a fuse of the manifest protects the rail that the battery feeds", policy,
	func(c *frame, ref string) bool {
		rail := part(c, ref).Battery.Rail
		return has(c, func(p manifest.Part) bool { return p.Fuse != nil && p.Fuse.Rail == rail })
	})

var batteryChargeLow = member(batteries, "power.batteries.*.charge_lowest_k", "K", "Coldest air in which the battery may be charged", asSaid, policy,
	func(c *frame, ref string) unit.Temperature { return chargedAt(c, ref).Low })

var batteryChargeHigh = member(batteries, "power.batteries.*.charge_highest_k", "K", "Hottest air in which the battery may be charged", asSaid, policy,
	func(c *frame, ref string) unit.Temperature { return chargedAt(c, ref).High })

func chargedAt(c *frame, ref string) unit.Range[unit.Temperature] {
	return givenRange(c, at("parts", ref, "battery", "charged_at"), part(c, ref).Battery.ChargedAt)
}

var anchorKind = word(nil, "anchor.kind", "Kind of anchor", asSaid, []string{string(manifest.DeadweightAnchor), string(manifest.FixedAnchor)}, policy,
	func(c *frame, _ string) string {
		a := anchor(c)
		return text(c, a.pointer+"/kind", string(a.f.Kind))
	})

var anchorHolding = quantity("anchor.holding_n", "N", "Pull that a fixed anchor is shown to hold", asSaid, policy,
	func(c *frame) unit.Force {
		a := anchor(c)
		return given(c, a.pointer+"/holding", a.f.Holding)
	})

var anchorPull = quantity("anchor.pull_n", "N", "Pull that the anchor must hold", "design factor × tension at the ground in the gust", []source.Ref{source.At("statics", "")},
	func(c *frame) unit.Force {
		a := anchor(c)
		factor := anchorFactor(c, a)
		return unit.Force(factor * designGust.of(c).TensionGround.SI())
	})

var reachHeight = quantity("tether.greatest_height_m", "m", "Height of the top of the balloon in still air, and reach of a fallen line",
	"tether paid out + diameter of the filled balloon", policy,
	func(c *frame) unit.Length { return stationOut.of(c) + gasDiameter.of(c) })

var powerLineNeeded = quantity("station.power_line_needed_m", "m", "Least distance from the anchor to any power line",
	"reach of a fallen line + 13.72 m (45 ft), the clearance for the highest voltages, as the voltage is not known",
	[]source.Ref{source.At("cfr-29-1926.1408", "Table A")},
	func(c *frame) unit.Length { return reachHeight.of(c) + 13.72 })

var kitLicence = word(nil, "kit.licence", "Licence of the manifest", asSaid, nil, policy,
	func(c *frame, _ string) string { return text(c, "/kit/licence", c.run.manifest.Kit.Licence) })

var kitMaintainer = word(nil, "kit.maintainer", "Who answers for the manifest", asSaid, nil, policy,
	func(c *frame, _ string) string { return text(c, "/kit/maintainer", c.run.manifest.Kit.Maintainer) })

var recoveryLabel = word(nil, "recovery.label", "What the payload says to its finder", asSaid, nil, policy,
	func(c *frame, _ string) string { return text(c, "/recovery/label", homecoming(c).Label) })

var recoveryContact = word(nil, "recovery.contact", "Whom the finder calls", asSaid, nil, policy,
	func(c *frame, _ string) string { return text(c, "/recovery/contact", homecoming(c).Contact) })

func homecoming(c *frame) *manifest.Recovery {
	if r := c.run.manifest.Recovery; r != nil {
		return r
	}
	return &manifest.Recovery{}
}

func storage(c *frame) *manifest.Storage {
	if s := c.run.manifest.Storage; s != nil {
		return s
	}
	return &manifest.Storage{}
}

var storageLow = quantity("storage.lowest_k", "K", "Coldest place in which the kit may be kept", asSaid, policy,
	func(c *frame) unit.Temperature {
		return givenRange(c, "/storage/temperature", storage(c).Temperature).Low
	})

var storageHigh = quantity("storage.highest_k", "K", "Hottest place in which the kit may be kept", asSaid, policy,
	func(c *frame) unit.Temperature {
		return givenRange(c, "/storage/temperature", storage(c).Temperature).High
	})

var storageHumidity = quantity("storage.greatest_humidity", "%", "Dampest air in which the kit may be kept", asSaid, policy,
	func(c *frame) unit.Ratio {
		return given(c, "/storage/greatest_humidity", storage(c).GreatestHumidity)
	})

var storageCheck = quantity("storage.check_every_d", "d", "Time after which the stored kit is looked over", asSaid, policy,
	func(c *frame) unit.Duration { return given(c, "/storage/check_every", storage(c).CheckEvery) })

// packing is every box or bag, in the order in which parts first name it.
var packing = &family{"packing", func(c *frame) []string {
	var boxes []string
	for _, p := range manifest.Sorted(c.run.manifest.Parts) {
		if name := subject(p.PackedIn); name != "" && !slices.Contains(boxes, name) {
			boxes = append(boxes, name)
		}
	}
	return boxes
}}

// subject makes a box's name fit into the id of a fact.
func subject(name string) string { return strings.ReplaceAll(name, ".", " ") }

var packingPieces = member(packing, "packing.*.pieces", "", "Pieces in the box or bag", "quantities of the parts packed in it, all sets of a battery and cylinders among them, other consumables left out", policy,
	func(c *frame, box string) unit.Count {
		n := 0
		packed(c, box, func(_ manifest.Ref, quantity int) { n += quantity })
		return unit.Count(n)
	})

var packingList = word(packing, "packing.*.list", "What is in the box or bag", "quantity and reference of the parts packed in it, cylinders among them, other consumables left out", nil, policy,
	func(c *frame, box string) string {
		var list []string
		packed(c, box, func(ref manifest.Ref, quantity int) { list = append(list, strconv.Itoa(quantity)+" "+string(ref)) })
		return strings.Join(list, ", ")
	})

// packed visits what comes home in a box. Of what is used up, a cylinder does: its gas is what was used.
func packed(c *frame, box string, visit func(manifest.Ref, int)) {
	for ref, p := range manifest.Sorted(c.run.manifest.Parts) {
		if subject(p.PackedIn) == box && p.ComesHome() {
			visit(ref, carried(p))
		}
	}
}

// carried is how many of a part travel with one kit: of a battery, all the sets that are changed on station.
func carried(p manifest.Part) int {
	n := pieces(p)
	if p.Battery != nil && p.Battery.InRotation != nil {
		n *= *p.Battery.InRotation
	}
	return n
}

// pieces is how many of a part one kit holds.
func pieces(p manifest.Part) int {
	if p.Quantity == nil {
		return 1
	}
	return *p.Quantity
}
