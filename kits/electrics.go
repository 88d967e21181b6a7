package kits

import (
	"fmt"

	"hoistbook/kits/manifest"
	"hoistbook/kits/power"
	"hoistbook/kits/unit"
)

// electrics is the power analysis of the whole kit, and what the manifest does not say of it. What is not said is NaN in
// the system, so that only what depends on it becomes unknown.
type electrics struct {
	power.Result
	gaps []string
}

// faults says why a result is NaN: what cannot be calculated as it is wired, else what nobody has said.
func (e electrics) faults() []string {
	if len(e.Faults) > 0 {
		return e.Faults
	}
	if len(e.gaps) == 0 {
		return []string{"the power analysis has no finite number for it"}
	}
	const few = 4
	var all []string
	for _, gap := range e.gaps[:min(few, len(e.gaps))] {
		all = append(all, "the manifest does not say "+gap)
	}
	if rest := len(e.gaps) - few; rest > 0 {
		all = append(all, fmt.Sprintf("and %d values more", rest))
	}
	return all
}

var powerAnalysis = shared(func(c *frame) electrics {
	g := &gatherer{run: c.run}
	system := g.system()
	return electrics{power.Analyse(system), g.gaps}
})

// A gatherer reads the manifest into the power analysis and notes what it does not find.
type gatherer struct {
	run  *run
	gaps []string
}

func soft[T unit.Scalar[T]](g *gatherer, pointer string, value *T) T {
	if value == nil {
		g.gaps = append(g.gaps, pointer)
		return unit.From[T](nan)
	}
	return *value
}

func softOr[T unit.Scalar[T]](g *gatherer, pointer string, value *T, standard T, because string) T {
	if value == nil {
		g.run.assume(Assumption{Pointer: pointer, Text: standard.Quantity().Text(unit.SI) + ": " + because})
		return standard
	}
	return *value
}

func (g *gatherer) system() power.System {
	var s power.System
	m := g.run.manifest
	for i, state := range manifest.States {
		share, said := unit.Ratio(nan), false
		if m.Station != nil {
			share, said = m.Station.Duty[state]
		}
		if !said {
			g.gaps = append(g.gaps, "/station/duty/"+string(state))
			share = unit.Ratio(nan)
		}
		s.Duty[i] = share
	}
	for ref, p := range manifest.Sorted(m.Parts) {
		number := pieces(p)
		if p.Battery != nil {
			s.Batteries = append(s.Batteries, g.battery(ref, *p.Battery, number))
		}
		if p.Converter != nil {
			s.Converters = append(s.Converters, g.converter(ref, *p.Converter))
		}
		if p.Load != nil {
			s.Loads = append(s.Loads, g.load(ref, *p.Load, number))
		}
		if p.Fuse != nil {
			s.Fuses = append(s.Fuses, power.Fuse{Ref: string(ref), Rail: string(p.Fuse.Rail), Rating: soft(g, at("parts", ref, "fuse", "rating"), p.Fuse.Rating)})
		}
	}
	return s
}

func (g *gatherer) battery(ref manifest.Ref, b manifest.Battery, number int) power.Battery {
	in := func(key string) string { return at("parts", ref, "battery", key) }
	cells := 0
	if b.CellsInSeries != nil {
		cells = *b.CellsInSeries
	} else {
		g.gaps = append(g.gaps, in("cells_in_series"))
	}
	return power.Battery{
		Ref: string(ref), Rail: string(b.Rail), Chemistry: power.Chemistry(b.Chemistry), CellsInSeries: cells, Quantity: number,
		Capacity:        soft(g, in("capacity"), b.Capacity),
		Usable:          softOr(g, in("usable"), b.Usable, unit.Ratio(0.8), "share of the capacity that may be used when nobody says"),
		ColdCapacity:    softOr(g, in("cold_capacity"), b.ColdCapacity, unit.Ratio(1), "share of the capacity left in the cold when nobody says"),
		GreatestCurrent: soft(g, in("greatest_current"), b.GreatestCurrent),
	}
}

func (g *gatherer) converter(ref manifest.Ref, k manifest.Converter) power.Converter {
	in := func(key string) string { return at("parts", ref, "converter", key) }
	input := unit.Range[unit.Voltage]{Low: unit.Voltage(nan), High: unit.Voltage(nan)}
	if k.Input != nil {
		input = *k.Input
	} else {
		g.gaps = append(g.gaps, in("input"))
	}
	efficiency, headroom := unit.Ratio(nan), unit.Voltage(nan)
	if k.Kind != manifest.Linear {
		efficiency = soft(g, in("efficiency"), k.Efficiency)
	}
	if k.Kind != manifest.Boost {
		headroom = soft(g, in("headroom"), k.Headroom)
	}
	return power.Converter{
		Ref: string(ref), Kind: power.Kind(k.Kind), From: string(k.From), To: string(k.To), Input: input, Efficiency: efficiency, Headroom: headroom,
		Output:          soft(g, in("output"), k.Output),
		Tolerance:       soft(g, in("tolerance"), k.Tolerance),
		GreatestCurrent: soft(g, in("greatest_current"), k.GreatestCurrent),
		Quiescent:       soft(g, in("quiescent"), k.Quiescent),
	}
}

func (g *gatherer) load(ref manifest.Ref, l manifest.PowerLoad, number int) power.Load {
	in := func(keys ...any) string { return at(append([]any{"parts", ref, "load"}, keys...)...) }
	var currents power.Currents
	for i, state := range manifest.States {
		current, said := l.Current[state]
		if !said {
			g.gaps = append(g.gaps, in("current", string(state)))
			current = unit.Current(nan)
		}
		currents[i] = current
	}
	wire := manifest.Wire{}
	if l.Wire != nil {
		wire = *l.Wire
	}
	return power.Load{
		Ref: string(ref), Rail: string(l.Rail), Quantity: number, Current: currents,
		Wire: power.Wire{Gauge: soft(g, in("wire", "gauge"), wire.Gauge), Length: soft(g, in("wire", "length"), wire.Length)},
	}
}
