package kits

import (
	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var signalFacts = []*Entry{signalDrives.Entry, signalNeeds.Entry, signalWithstands.Entry}

var signals = &family{"signals", func(c *frame) []string {
	var names []string
	for name := range manifest.Sorted(c.run.manifest.Signals) {
		names = append(names, string(name))
	}
	return names
}}

var logic = []source.Ref{source.At("jesd8c", "")}

var signalDrives = member(signals, "signals.*.drives_high_v", "V", "High level that the signal's driver gives", asSaid, logic,
	func(c *frame, name string) unit.Voltage {
		return givenRange(c, at("signals", name, "drives"), c.run.manifest.Signals[manifest.Ref(name)].Drives).High
	})

var signalNeeds = member(signals, "signals.*.needs_high_v", "V", "Least level that the input reads as high", asSaid, logic,
	func(c *frame, name string) unit.Voltage {
		return given(c, at("signals", name, "needs_high"), c.run.manifest.Signals[manifest.Ref(name)].NeedsHigh)
	})

var signalWithstands = member(signals, "signals.*.withstands_v", "V", "Greatest level that the input withstands", asSaid, logic,
	func(c *frame, name string) unit.Voltage {
		return given(c, at("signals", name, "withstands"), c.run.manifest.Signals[manifest.Ref(name)].Withstands)
	})
