package power

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/unit"
)

// A rail never rises because its source falls, nor because its converter needs more headroom or is less exact.
func TestALesserSourceNeverRaisesARail(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string, low, high float64) unit.Voltage {
			return unit.Voltage(rapid.Float64Range(low, high).Draw(t, name))
		}
		k := Converter{Kind: rapid.SampledFrom([]Kind{Linear, Buck, Boost}).Draw(t, "kind"), Output: v("output", 1, 15), Headroom: v("headroom", 0, 3),
			Tolerance: unit.Ratio(rapid.Float64Range(0, 0.1).Draw(t, "tolerance"))}
		source := volts{lowest: v("lowest", 0, 20)}
		source.nominal, source.highest = source.lowest+1, source.lowest+2
		before := converterVolts(k, source)
		less := source
		less.lowest -= v("less", 0, 3)
		tighter, inexact := k, k
		tighter.Headroom += v("more headroom", 0, 3)
		inexact.Tolerance += unit.Ratio(rapid.Float64Range(0, 0.05).Draw(t, "more tolerance"))
		for what, after := range map[string]volts{"source": converterVolts(k, less), "headroom": converterVolts(tighter, source), "tolerance": converterVolts(inexact, source)} {
			if after.lowest > before.lowest || after.highest < before.highest {
				t.Fatalf("%s for the worse: from %v to %v", what, before, after)
			}
		}
	})
}

// Each limit is the last value that passes; beyond it there is no number.
func TestTheEdgesOfWhatIsComputed(t *testing.T) {
	share := func(x float64) float64 { return float64(share(unit.Ratio(x))) }
	out := func(change func(*Converter, float64)) func(float64) float64 {
		return func(x float64) float64 {
			k := Converter{Kind: Buck, Output: 5, Tolerance: 0.02}
			change(&k, x)
			return float64(converterVolts(k, volts{9, 10, 12}).highest)
		}
	}
	input := func(change func(*Converter, *unit.Voltage, float64)) func(float64) float64 {
		return func(x float64) float64 {
			k, source := Converter{Kind: Buck, Output: 5, Efficiency: 0.9}, unit.Voltage(12)
			change(&k, &source, x)
			return float64(inputCurrent(k, 1, source))
		}
	}
	heat := func(x float64) float64 {
		return float64(circuitWith(volts{12, 12, 12}, Converter{Kind: Boost, From: "IN", To: "OUT", Output: 15, Efficiency: unit.Ratio(x)}, 1).Dissipation)
	}
	for _, c := range []struct {
		name       string
		try        func(float64) float64
		in, beyond float64
	}{
		{"no share", share, 0, -1e-9}, {"all", share, 1, 1.001},
		{"exact", out(func(k *Converter, x float64) { k.Tolerance = unit.Ratio(x) }), 0, -1e-9},
		{"wild", out(func(k *Converter, x float64) { k.Tolerance = unit.Ratio(x) }), 0.999, 1},
		{"a small output", out(func(k *Converter, x float64) { k.Output = unit.Voltage(x) }), 0.5, 0},
		{"an output below zero", out(func(k *Converter, x float64) { k.Output = unit.Voltage(x) }), 0.5, -1},
		{"lossless", input(func(k *Converter, _ *unit.Voltage, x float64) { k.Efficiency = unit.Ratio(x) }), 1, 1.001},
		{"lossy", input(func(k *Converter, _ *unit.Voltage, x float64) { k.Efficiency = unit.Ratio(x) }), 0.01, 0},
		{"a small source", input(func(_ *Converter, v *unit.Voltage, x float64) { *v = unit.Voltage(x) }), 0.5, 0},
		{"lossless heat", heat, 1, 1.001}, {"lossy heat", heat, 0.01, 0}, {"negative heat", heat, 0.01, -0.5},
		{"one cell", func(x float64) float64 {
			return float64(batteryVolts(Battery{Chemistry: LiIon, CellsInSeries: int(x)}).nominal)
		}, 1, 0},
		{"one battery", func(x float64) float64 { return float64(Battery{Quantity: int(x)}.count()) }, 1, 0},
		{"one load", func(x float64) float64 { return float64(Load{Quantity: int(x)}.count()) }, 1, 0},
		{"a charger", func(x float64) float64 { return float64(ChargeTime(LiIon, 3600, unit.Current(x))) }, 0.001, 0},
		{"a charger backwards", func(x float64) float64 { return float64(ChargeTime(LiIon, 3600, unit.Current(x))) }, 0.001, -1},
		{"an endless charge", func(x float64) float64 { return float64(ChargeTime(LiIon, unit.Charge(x), 1)) }, 1e9, math.Inf(1)},
		{"a station of no time", func(x float64) float64 { return float64(Changes(unit.Duration(x), 3600)) }, 0, -1},
		{"a station without end", func(x float64) float64 { return float64(Changes(unit.Duration(x), 3600)) }, 1e9, math.Inf(1)},
		{"a battery of no time", func(x float64) float64 { return float64(Changes(3600, unit.Duration(x))) }, 0.5, 0},
		{"a battery without end", func(x float64) float64 { return float64(Changes(3600, unit.Duration(x))) }, 1e9, math.Inf(1)},
		{"the thickest wire", func(x float64) float64 { return float64(Wire{unit.Gauge(x), 1}.Ampacity()) }, 10, 9},
		{"the thinnest wire", func(x float64) float64 { return float64(Wire{unit.Gauge(x), 1}.Ampacity()) }, 30, 31},
		{"a wire", func(x float64) float64 { return float64(Wire{20, unit.Length(x)}.Ampacity()) }, 0.5, 0},
		{"a wire without end", func(x float64) float64 { return float64(Wire{20, unit.Length(x)}.Drop(1)) }, 1e9, math.Inf(1)},
		{"a drive without end", func(x float64) float64 {
			return float64(Signal{Drives: unit.Range[unit.Voltage]{High: unit.Voltage(x)}, NeedsHigh: 2}.HighMargin())
		}, 1e9, math.Inf(1)},
	} {
		if got := c.try(c.in); isUnknown(got) {
			t.Errorf("%s: nothing is computed at %v", c.name, c.in)
		}
		if got := c.try(c.beyond); !math.IsNaN(got) {
			t.Errorf("%s: %v gives %v", c.name, c.beyond, got)
		}
	}
	if got := (Wire{Gauge: 20}).Resistance(); got != 0 {
		t.Errorf("no wire has %v", got)
	}
	if got := (Wire{0, 0.5}).Resistance(); !(got > 0) {
		t.Errorf("half a metre of the thickest wire has %v", got)
	}
}

// Of a gauge between two of the table the thinner one's current is taken.
func TestAmpacityBetweenGauges(t *testing.T) {
	for gauge, want := range map[unit.Gauge]unit.Current{11: 41, 13: 32, 15: 22, 17: 16, 19: 11, 21: 7, 23: 3.5, 25: 2.2, 27: 1.4, 29: 0.86} {
		if got := (Wire{gauge, 0.3}).Ampacity(); got != want {
			t.Errorf("%v carries %v, want %v", gauge, got, want)
		}
	}
}

// A boost converter passes a source above its output through: it draws the output's current and its own.
func TestABoostConverterPassesThrough(t *testing.T) {
	k := Converter{Kind: Boost, Output: 5, Efficiency: 1, Quiescent: 0.01}
	near(t, "below", float64(inputCurrent(k, 1, 4)), 5.0/4+0.01, 1e-12)
	near(t, "above", float64(inputCurrent(k, 1, 8)), 1.01, 1e-12)
	if got := inputCurrent(Converter{Kind: "flyback", Efficiency: 1}, 1, 5); !isUnknown(got) {
		t.Errorf("an unknown kind draws %v", got)
	}
	if got := inputCurrent(Converter{Kind: Linear, Quiescent: 0.01}, 1, -1); got != 1.01 {
		t.Errorf("a linear one draws %v", got)
	}
}

// Common practice of care: lithium half full and never charged below freezing, lead full, alkaline never charged.
func TestCare(t *testing.T) {
	want := map[Chemistry]string{
		LiIon: "40 % to 60 % at 3.8 V, charged 0 to 45 °C, 1.3", LiPo: "40 % to 60 % at 3.8 V, charged 0 to 45 °C, 1.3", LiFePO4: "40 % to 60 % at 3.3 V, charged 0 to 45 °C, 1.3",
		NiMH: "40 % to 100 % at NaN V, charged 0 to 45 °C, 1.6", LeadAcid: "100 % to 100 % at 2.12 V, charged -20 to 50 °C, 1.4",
		Alkaline: "100 % to 100 % at NaN V, charged NaN to NaN °C, NaN", "zinc-air": "NaN % to NaN % at NaN V, charged NaN to NaN °C, NaN",
	}
	for c, text := range want {
		care := CareOf(c)
		got := fmt.Sprintf("%v %% to %v %% at %v V, charged %.0f to %.0f °C, %v", 100*float64(care.Store.Low), 100*float64(care.Store.High), float64(care.StoreVoltage),
			care.Charge.Low.Celsius(), care.Charge.High.Celsius(), float64(care.ChargeFactor))
		if got != text {
			t.Errorf("%s: %s, want %s", c, got, text)
		}
		if cell := CellOf(c); care.StoreVoltage <= cell.Cutoff || care.StoreVoltage >= cell.Full {
			t.Errorf("%s is stored at %v, outside %v to %v", c, care.StoreVoltage, cell.Cutoff, cell.Full)
		}
	}
	if all := Chemistries(); len(all) != 6 || all[0] != LiIon || all[5] != Alkaline {
		t.Errorf("the chemistries are %v", all)
	}
}

// A fault is told once and for each of its causes; what is connected nowhere has no number.
func TestWhatIsConnectedNowhere(t *testing.T) {
	s := relay()
	s.Batteries = append(s.Batteries, Battery{Ref: "BAT2", Chemistry: LiIon, CellsInSeries: 3, Quantity: 1})
	s.Converters = append(s.Converters, Converter{Ref: "REG8", Kind: Buck, From: "BAT", Output: 5}, Converter{Ref: "REG9", Kind: Buck, To: "X", Output: 5})
	s.Fuses = append(s.Fuses, Fuse{Ref: "FUS2"})
	r := Analyse(s)
	if got := strings.Join(r.Faults, "|"); got != `battery "BAT2" names no rail|converter "REG8" names no rail|converter "REG9" names no rail|fuse "FUS2" names no rail|rail "X" is fed by no battery and no converter` {
		t.Errorf("got %s", got)
	}
	if b := r.Batteries[1]; !isUnknown(b.Greatest) || !isUnknown(b.Allowed) {
		t.Errorf("a battery on no rail gives %+v", b)
	}
	for _, k := range r.Converters[2:] {
		if !isUnknown(k.Greatest) || !isUnknown(k.Dissipation) || !isUnknown(k.InputCurrent) || !isUnknown(k.Source.Low) || !isUnknown(k.Source.High) {
			t.Errorf("a converter without a rail: %+v", k)
		}
	}
	if f := r.Fuses[1]; !isUnknown(f.Needed) || f.Rating != 0 {
		t.Errorf("a fuse on no rail: %+v", f)
	}
	if !isUnknown(r.Endurance) {
		t.Errorf("with a battery on no rail the endurance is %v", r.Endurance)
	}
	if _, found := r.Rail("Y"); found {
		t.Error("there is a rail that nobody names")
	}
	names := map[string]string{"BAT": "BAT1", "5V": "REG1", "3V3": "REG2", "X": ""}
	for _, rail := range r.Rails {
		if want, ok := names[rail.ID]; !ok || rail.Feeder != want {
			t.Errorf("rail %q is fed by %q, want %q", rail.ID, rail.Feeder, want)
		}
	}
	load := relay()
	load.Loads[0].Rail = ""
	if l := Analyse(load).Loads[0]; !isUnknown(l.Lowest) || !isUnknown(l.Highest) {
		t.Errorf("a load on no rail gets %v to %v", l.Lowest, l.Highest)
	}
}

// A battery and a converter on one rail are two sources, and so are two converters beside a battery; batteries of one kind are not.
func TestWhatMayFeedARail(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*System)
		sound  bool
	}{
		"two like batteries": {func(s *System) {
			b := s.Batteries[0]
			b.Ref = "BAT2"
			s.Batteries = append(s.Batteries, b)
		}, true},
		"a battery beside a converter": {func(s *System) {
			s.Batteries = append(s.Batteries, Battery{Ref: "BAT2", Rail: "5V", Chemistry: LiIon, CellsInSeries: 1, Quantity: 1})
		}, false},
		"more cells": {func(s *System) {
			b := s.Batteries[0]
			b.Ref, b.CellsInSeries = "BAT2", 4
			s.Batteries = append(s.Batteries, b)
		}, false},
		"cells of another kind": {func(s *System) {
			b := s.Batteries[0]
			b.Ref, b.Chemistry = "BAT2", LiPo
			s.Batteries = append(s.Batteries, b)
		}, false},
	} {
		s := relay()
		c.change(&s)
		if r := Analyse(s); (len(r.Faults) == 0) != c.sound || isUnknown(r.Endurance) == c.sound {
			t.Errorf("%s: faults %q, endurance %v", name, r.Faults, r.Endurance)
		}
	}
}

// A circle of three rails is told once, by its names.
func TestACircleIsToldOnce(t *testing.T) {
	s := relay()
	s.Converters = []Converter{{Ref: "A", Kind: Buck, From: "r3", To: "r1"}, {Ref: "B", Kind: Buck, From: "r1", To: "r2"}, {Ref: "C", Kind: Buck, From: "r2", To: "r3"}, {Ref: "D", Kind: Buck, From: "r1", To: "5V"}, {Ref: "E", Kind: Buck, From: "5V", To: "3V3"}}
	if got := fmt.Sprint(Analyse(s).Faults); got != `[rails "r1", "r2", "r3" feed each other in a circle]` {
		t.Errorf("got %s", got)
	}
}

// Shares that are rounded may miss 100 % by 0.15 %; one below zero is none.
func TestDuty(t *testing.T) {
	for _, c := range []struct {
		duty   Duty
		faults string
	}{
		{Duty{0.333, 0.333, 0.333}, "[]"}, {Duty{0.3, 0.3, 0.3986}, "[]"}, {Duty{0.3, 0.3, 0.398}, "[the shares of the duty states add up to 99.8 %, not to 100 %]"},
		{Duty{0.3, 0.3, 0.4014}, "[]"}, {Duty{0.3, 0.3, 0.401505}, "[the shares of the duty states add up to 100.2 %, not to 100 %]"},
		{Duty{-0.1, 0.1, 1}, "[the share of duty state 0 is negative]"}, {Duty{0, 0, 1}, "[]"},
	} {
		s := relay()
		s.Duty = c.duty
		if r := Analyse(s); fmt.Sprint(r.Faults) != c.faults {
			t.Errorf("%v: got %q, want %s", c.duty, r.Faults, c.faults)
		}
	}
}

// An average is that of all battery rails; the rail that is empty first ends the station.
func TestTwoBatteryRails(t *testing.T) {
	s := relay()
	one := Analyse(s)
	s.Batteries = append(s.Batteries, Battery{Ref: "BAT2", Rail: "B2", Chemistry: LiIon, CellsInSeries: 1, Capacity: unit.Must[unit.Charge]("1 Ah"), Usable: 1, ColdCapacity: 0.5, Quantity: 1})
	s.Loads = append(s.Loads, Load{Ref: "LMP", Rail: "B2", Quantity: 1, Current: Currents{1, 1, 1}})
	two := Analyse(s)
	near(t, "average", float64(two.Average), float64(one.Average)+3.7, 1e-9)
	near(t, "usable", two.Usable.Quantity().In("Wh"), one.Usable.Quantity().In("Wh")+1.85, 1e-9)
	near(t, "in the cold", two.Endurance.Hours(), 0.5, 1e-9)
	near(t, "in the warm", two.Warm.Hours(), 1, 1e-9)
	s.Loads[3].Current = Currents{0.01, 0.01, 0.01}
	near(t, "the other rail is first", Analyse(s).Endurance.Hours(), one.Endurance.Hours(), 1e-9)
	if none := Analyse(System{Duty: Duty{0, 0, 1}}); !isUnknown(none.Average) || !isUnknown(none.Endurance) || !isUnknown(none.Warm) {
		t.Errorf("without a battery: %v, %v", none.Average, none.Endurance)
	}
}

// Ratings of the best cells that are sold, by their data sheets (common practice): all below what a chemistry may claim, and
// none so far below that half as much again would pass.
func TestTheBestCellsClaimNoMoreThanTheirChemistry(t *testing.T) {
	for _, c := range []struct {
		chemistry   Chemistry
		volts, amps float64
		kilograms   float64
	}{
		{LiIon, 3.6, 3.5, 0.048}, {LiPo, 3.7, 5.0, 0.075}, {LiFePO4, 3.2, 6.0, 0.138}, {NiMH, 1.2, 2.5, 0.030}, {LeadAcid, 12, 7.2, 2.2}, {Alkaline, 1.5, 2.6, 0.023},
	} {
		has, most := c.volts*c.amps/c.kilograms, MostEnergy(c.chemistry)
		if !(has < most && 1.5*has > most) {
			t.Errorf("%s: a good cell has %.0f Wh/kg, and %.0f may be claimed", c.chemistry, has, most)
		}
	}
	if got := MostEnergy("wood"); !math.IsNaN(got) {
		t.Errorf("wood: got %v, want nothing", got)
	}
}
