package kits

import (
	"hoistbook/kits/lift"
	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var massFacts = []*Entry{massAloft.Entry, massAloftWorst.Entry, massEnvelope.Entry, massEnvelopeWorst.Entry, massTetherWorst.Entry, massPayloadWorst.Entry}

var growth = []source.Ref{source.At("mass-growth", "estimated 20 %, calculated 10 %, weighed 2 %")}

var massAloft = quantity("mass.aloft_kg", "kg", "Mass aloft",
	"sum of quantity × mass over the parts aloft, plus linear mass × tether paid out", policy,
	func(c *frame) unit.Mass {
		nominal, _ := lift.Aloft(append(aloft.of(c), line.of(c)))
		return nominal
	})

var massAloftWorst = quantity("mass.aloft_worst_kg", "kg", "Worst mass aloft",
	"each mass aloft × (1 + its growth allowance), added up", growth,
	func(c *frame) unit.Mass {
		_, worst := lift.Aloft(append(aloft.of(c), line.of(c)))
		return worst
	})

var massEnvelope = quantity("mass.envelope_kg", "kg", "Mass of the envelope", "as the manifest says, all of its pieces", policy,
	func(c *frame) unit.Mass {
		e := envelope(c)
		return load(c, e.ref, e.part).Nominal()
	})

var massEnvelopeWorst = quantity("mass.envelope_worst_kg", "kg", "Worst mass of the envelope",
	"mass of the envelope × (1 + its growth allowance)", growth,
	func(c *frame) unit.Mass {
		e := envelope(c)
		return load(c, e.ref, e.part).Worst()
	})

var massTetherWorst = quantity("mass.tether_worst_kg", "kg", "Worst mass of the tether paid out",
	"linear mass × tether paid out × (1 + growth allowance)", growth,
	func(c *frame) unit.Mass { return line.of(c).Worst() })

var massPayloadWorst = quantity("mass.payload_worst_kg", "kg", "Worst mass of what hangs under the balloon",
	"worst mass aloft − worst mass of the envelope − worst mass of the tether", growth,
	func(c *frame) unit.Mass {
		return massAloftWorst.of(c) - massEnvelopeWorst.of(c) - massTetherWorst.of(c)
	})

// aloft is every part that flies, with its growth allowance.
var aloft = shared(func(c *frame) []lift.Load {
	var loads []lift.Load
	for ref, part := range manifest.Sorted(c.run.manifest.Parts) {
		switch {
		case part.Place == manifest.Aloft:
			loads = append(loads, load(c, ref, part))
		case part.Place == "" && part.Tether == nil:
			c.missing("the manifest does not say whether %s flies (%s)", ref, at("parts", ref, "place"))
		}
	}
	return loads
})

// line is the tether paid out.
var line = shared(func(c *frame) lift.Load {
	t := tetherPart(c)
	linear := given(c, t.pointer+"/linear_mass", t.f.LinearMass)
	out := given(c, "/station/tether_out", station(c).TetherOut)
	return lift.Line(linear, out, allowance(c, t.ref, t.part))
})

func load(c *frame, ref manifest.Ref, part manifest.Part) lift.Load {
	return lift.Load{
		Quantity:  unit.Count(countOr(c, at("parts", ref, "quantity"), part.Quantity, 1, "")),
		Mass:      given(c, at("parts", ref, "mass"), part.Mass),
		Allowance: allowance(c, ref, part),
	}
}

// allowance is by how much a part may turn out heavier: as it says itself, or by how its mass is known.
func allowance(c *frame, ref manifest.Ref, part manifest.Part) unit.Ratio {
	if part.MassAllowance != nil {
		return must(c, at("parts", ref, "mass_allowance"), *part.MassAllowance)
	}
	basis := part.MassBasis
	if basis == "" {
		basis = manifest.Estimated
		c.run.assume(Assumption{Pointer: at("parts", ref, "mass_basis"), Text: "estimated: nobody says that the mass was calculated or weighed"})
	}
	share, ok := lift.Basis(basis).Allowance()
	if !ok {
		c.missing("%s has the unknown mass basis %q", ref, basis)
	}
	return share
}
