package power

import "hoistbook/kits/unit"

// FuseMargin is the least ratio of a fuse's rating to the current it carries for long: 125 %, as for overcurrent devices
// under continuous loads [nfpa-70].
const FuseMargin = 1.25

// Analyse computes everything about a System. It never fails: what cannot be calculated is NaN, and Faults says why when
// the wiring is the reason.
func Analyse(s System) Result {
	c := connect(s)
	var r Result
	for _, id := range c.ids {
		v := c.voltage(id)
		r.Rails = append(r.Rails, RailResult{ID: id, Feeder: c.feeder(id), Lowest: v.lowest, Nominal: v.nominal, Highest: v.highest,
			Greatest: c.greatest(id), State: c.current(id)})
	}
	for _, l := range s.Loads {
		r.Loads = append(r.Loads, c.load(l))
	}
	for _, k := range s.Converters {
		r.Converters = append(r.Converters, c.converter(k))
	}
	for _, f := range s.Fuses {
		need := unknown[unit.Current]()
		if f.Rail != "" {
			need = FuseMargin * c.greatest(f.Rail)
		}
		r.Fuses = append(r.Fuses, FuseResult{f.Ref, f.Rail, need, f.Rating})
	}
	for _, b := range s.Batteries {
		r.Batteries = append(r.Batteries, c.battery(b))
	}
	r.Average, r.Usable, r.Endurance, r.Warm = c.energy()
	r.Faults = c.faults
	return r
}

func (c *circuit) feeder(id string) string {
	r := c.rails[id]
	switch {
	case len(r.batteries) > 0:
		return c.Batteries[r.batteries[0]].Ref
	case len(r.feeders) > 0:
		return c.Converters[r.feeders[0]].Ref
	}
	return ""
}

// load: lowest = rail lowest − greatest current × wire resistance; highest = rail highest, as an idle wire drops nothing.
func (c *circuit) load(l Load) LoadResult {
	v := unknownVolts()
	if l.Rail != "" {
		v = c.voltage(l.Rail)
	}
	drop := l.Wire.Drop(l.greatest())
	return LoadResult{Ref: l.Ref, Rail: l.Rail, Lowest: v.lowest - drop, Highest: v.highest, Greatest: l.greatest(), Drop: drop}
}

// converter: the heat of a linear one is (V_in,max − V_out)·I; of a switching one (1/η − 1)·V_out·I.
func (c *circuit) converter(k Converter) ConverterResult {
	if k.From == "" || k.To == "" {
		u := unknown[unit.Voltage]()
		return ConverterResult{k.Ref, unit.Range[unit.Voltage]{Low: u, High: u}, unknown[unit.Current](), unknown[unit.Current](), unknown[unit.Power]()}
	}
	source := c.voltage(k.From)
	out := c.greatestThrough(k)
	result := ConverterResult{Ref: k.Ref, Source: unit.Range[unit.Voltage]{Low: source.lowest, High: source.highest},
		Greatest: out, InputCurrent: inputCurrent(k, out, source.lowest), Dissipation: unknown[unit.Power]()}
	switch {
	case k.Kind == Linear:
		result.Dissipation = unit.Power(max(source.highest-k.Output, 0)) * unit.Power(out)
	case (k.Kind == Buck || k.Kind == Boost) && k.Efficiency > 0 && k.Efficiency <= 1:
		result.Dissipation = unit.Power(1/k.Efficiency-1) * unit.Power(k.Output) * unit.Power(out)
	}
	return result
}

func (c *circuit) battery(b Battery) BatteryResult {
	result := BatteryResult{b.Ref, unknown[unit.Current](), unknown[unit.Current](), b.usable()}
	if b.Rail == "" {
		return result
	}
	result.Greatest, result.Allowed = c.greatest(b.Rail), 0
	for _, i := range c.rails[b.Rail].batteries {
		result.Allowed += c.Batteries[i].count() * c.Batteries[i].GreatestCurrent
	}
	return result
}

func (b Battery) count() unit.Current {
	if b.Quantity < 1 {
		return unknown[unit.Current]()
	}
	return unit.Current(b.Quantity)
}
