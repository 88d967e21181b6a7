package power

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/unit"
)

// relay is a small cross-band relay: a three-cell pack, a 5 V rail for the radios and a 3.3 V rail below it.
func relay() System {
	return System{
		Duty: Duty{0.2, 0.1, 0.7},
		Batteries: []Battery{{Ref: "BAT1", Rail: "BAT", Chemistry: LiIon, CellsInSeries: 3, Capacity: unit.Must[unit.Charge]("5.2 Ah"),
			Usable: 0.8, ColdCapacity: 0.75, GreatestCurrent: 10, Quantity: 1}},
		Converters: []Converter{
			{Ref: "REG1", Kind: Buck, From: "BAT", To: "5V", Output: 5, Tolerance: 0.02, Efficiency: 0.9,
				Input: unit.Range[unit.Voltage]{Low: 6, High: 24}, Headroom: 0.7, GreatestCurrent: 3, Quiescent: 0.005},
			{Ref: "REG2", Kind: Linear, From: "5V", To: "3V3", Output: 3.3, Tolerance: 0.03,
				Input: unit.Range[unit.Voltage]{Low: 3.5, High: 6}, Headroom: 0.3, GreatestCurrent: 0.5, Quiescent: 0.001},
		},
		Loads: []Load{
			{Ref: "TX1", Rail: "5V", Quantity: 1, Current: Currents{0.75, 0.06, 0.06}, Wire: Wire{24, 0.2}},
			{Ref: "RX1", Rail: "5V", Quantity: 1, Current: Currents{0.12, 0.12, 0.09}, Wire: Wire{26, 0.3}},
			{Ref: "CTL1", Rail: "3V3", Quantity: 2, Current: Currents{0.03, 0.03, 0.02}},
		},
		Fuses: []Fuse{{Ref: "FUS1", Rail: "BAT", Rating: 3}},
	}
}

// The whole tree by hand, a line of a pocket calculator each.
func TestRelayByHand(t *testing.T) {
	r := Analyse(relay())
	if len(r.Faults) > 0 {
		t.Fatal(r.Faults)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"battery rail lowest", float64(railOf(t, r, "BAT").Lowest), 9.0},
		{"battery rail highest", float64(railOf(t, r, "BAT").Highest), 12.6},
		{"5 V rail lowest: 5 less 2 %", float64(railOf(t, r, "5V").Lowest), 4.9},
		{"5 V rail highest: 5 and 2 %", float64(railOf(t, r, "5V").Highest), 5.1},
		{"3.3 V rail lowest: 4.9 − 0.3 is above 3.3, so 3.3 less 3 %", float64(railOf(t, r, "3V3").Lowest), 3.201},
		{"3.3 V rail greatest: 2 × 30 mA", float64(railOf(t, r, "3V3").Greatest), 0.06},
		{"5 V rail greatest: 750 + 120 + 60 + 1 mA", float64(railOf(t, r, "5V").Greatest), 0.931},
		{"battery greatest: 5 × 0.931 / (0.9 × 9) + 0.005", float64(railOf(t, r, "BAT").Greatest), 5*0.931/8.1 + 0.005},
		{"fuse: a quarter more", float64(r.Fuses[0].Needed), 1.25 * (5*0.931/8.1 + 0.005)},
		{"battery may give", float64(r.Batteries[0].Allowed), 10},
		{"5 V rail in standby: 60 + 90 + 40 + 1 mA", float64(railOf(t, r, "5V").State[Standby]), 0.191},
		{"heat of the linear one: (5.1 − 3.3) × 60 mA", float64(r.Converters[1].Dissipation), 0.108},
		{"transmitter's wire: AWG 24 has 84.2 ohm/km; 0.4 m at 0.75 A", float64(r.Loads[0].Drop), 0.02526},
		{"usable: 11.1 × 5.2 × 0.8 × 0.75", r.Usable.Quantity().In("Wh"), 34.632},
	} {
		near(t, c.what, c.got, c.want, 1e-4)
	}
	near(t, "at the transmitter", float64(r.Loads[0].Lowest), 4.9-0.02526, 1e-4)
	// 5 V rail: 0.931 A transmitting, 0.06+0.12+0.06+0.001 = 0.241 A receiving, 0.191 A in standby.
	average := 11.1 * (0.2*(5*0.931/(0.9*11.1)) + 0.1*(5*0.241/(0.9*11.1)) + 0.7*(5*0.191/(0.9*11.1)) + 0.005)
	near(t, "average", float64(r.Average), average, 1e-9)
	near(t, "endurance", r.Endurance.Hours(), 34.632/average, 1e-6)
	near(t, "endurance without the cold", r.Warm.Hours(), 34.632/0.75/average, 1e-6)
}

func railOf(t *testing.T, r Result, id string) RailResult {
	t.Helper()
	found, ok := r.Rail(id)
	if !ok {
		t.Fatalf("there is no rail %q", id)
	}
	return found
}

func TestConverterRanges(t *testing.T) {
	for _, c := range []struct {
		name                 string
		k                    Converter
		source               volts
		lowest, nom, highest float64
	}{
		{"a buck one with enough source", Converter{Kind: Buck, Output: 5, Tolerance: 0.02, Headroom: 0.7}, volts{9, 11.1, 12.6}, 4.9, 5, 5.1},
		{"a linear one that runs out of source", Converter{Kind: Linear, Output: 5, Tolerance: 0.02, Headroom: 0.7}, volts{5.4, 7.4, 8.4}, 4.7, 5, 5.1},
		{"a linear one with less source than headroom", Converter{Kind: Linear, Output: 5, Headroom: 2}, volts{1, 7.4, 8.4}, 0, 5, 5},
		{"a boost one", Converter{Kind: Boost, Output: 12, Tolerance: 0.05}, volts{6, 7.4, 8.4}, 11.4, 12, 12.6},
		{"a boost one whose source is above it", Converter{Kind: Boost, Output: 12, Tolerance: 0.05}, volts{9, 13.2, 14.6}, 11.4, 13.2, 14.6},
	} {
		v := converterVolts(c.k, c.source)
		near(t, c.name+", lowest", float64(v.lowest), c.lowest, 1e-9)
		near(t, c.name+", nominal", float64(v.nominal), c.nom, 1e-9)
		near(t, c.name+", highest", float64(v.highest), c.highest, 1e-9)
	}
}

// What is not known spreads to what depends on it, and no further.
func TestUnknownSpreadsOnlyToWhatDependsOnIt(t *testing.T) {
	none := math.NaN()
	for _, c := range []struct {
		name           string
		change         func(*System)
		unknown, known string
	}{
		{"a load's standby current", func(s *System) { s.Loads[0].Current[Standby] = unit.Current(none) },
			"BAT.greatest 5V.greatest TX1.lowest fuse average endurance", "TX1.highest RX1.lowest 3V3.greatest 5V.lowest usable"},
		{"the capacity", func(s *System) { s.Batteries[0].Capacity = unit.Charge(none) },
			"usable endurance", "average BAT.lowest BAT.greatest fuse TX1.lowest"},
		{"the chemistry", func(s *System) { s.Batteries[0].Chemistry = "zinc-air" },
			"usable endurance average BAT.lowest BAT.greatest 5V.lowest TX1.lowest", "5V.highest 5V.greatest TX1.highest"},
		{"the headroom", func(s *System) { s.Converters[0].Headroom = unit.Voltage(none) },
			"5V.lowest TX1.lowest RX1.lowest", "5V.highest 5V.greatest average endurance BAT.greatest"},
		{"the efficiency", func(s *System) { s.Converters[0].Efficiency = unit.Ratio(none) },
			"BAT.greatest fuse average endurance", "5V.greatest 5V.lowest TX1.lowest usable"},
		{"a wire's length", func(s *System) { s.Loads[0].Wire.Length = unit.Length(none) },
			"TX1.lowest", "TX1.highest RX1.lowest BAT.greatest average endurance"},
		{"the duty", func(s *System) { s.Duty[Transmit] = unit.Ratio(none) },
			"average endurance", "BAT.greatest TX1.lowest usable fuse"},
		{"a kind of converter that does not exist", func(s *System) { s.Converters[0].Kind = "flyback" },
			"5V.lowest 5V.highest BAT.greatest average", "BAT.lowest usable"},
		{"an efficiency above one", func(s *System) { s.Converters[0].Efficiency = 1.2 }, "BAT.greatest average", "5V.lowest"},
		{"a state that never happens", func(s *System) { s.Duty = Duty{0.3, 0, 0.7}; s.Loads[0].Current[Receive] = unit.Current(none) },
			"5V.greatest TX1.lowest", "average endurance"},
	} {
		s := relay()
		c.change(&s)
		values := byName(Analyse(s))
		for _, name := range strings.Fields(c.unknown) {
			if v := value(t, values, name); !math.IsNaN(v) {
				t.Errorf("%s unknown, yet %s is %v", c.name, name, v)
			}
		}
		for _, name := range strings.Fields(c.known) {
			if v := value(t, values, name); math.IsNaN(v) {
				t.Errorf("%s unknown, and %s with it", c.name, name)
			}
		}
	}
}

func value(t *testing.T, values map[string]float64, name string) float64 {
	t.Helper()
	v, ok := values[name]
	if !ok {
		t.Fatalf("there is no value %q", name)
	}
	return v
}

func byName(r Result) map[string]float64 {
	values := map[string]float64{"average": float64(r.Average), "usable": float64(r.Usable), "endurance": float64(r.Endurance), "fuse": float64(r.Fuses[0].Needed)}
	for _, x := range r.Rails {
		values[x.ID+".lowest"], values[x.ID+".highest"], values[x.ID+".greatest"] = float64(x.Lowest), float64(x.Highest), float64(x.Greatest)
	}
	for _, x := range r.Loads {
		values[x.Ref+".lowest"], values[x.Ref+".highest"] = float64(x.Lowest), float64(x.Highest)
	}
	return values
}

func TestFaultsInTheWiring(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*System)
		want   string
	}{
		{"a rail without a source", func(s *System) { s.Loads[0].Rail = "9V" }, `[rail "9V" is fed by no battery and no converter]`},
		{"two converters on a rail", func(s *System) { s.Converters[1].To = "5V"; s.Converters[1].From = "BAT"; s.Loads[2].Rail = "5V" },
			`[rail "5V" is fed by more than one source]`},
		{"a circle", func(s *System) { s.Converters[0].From = "3V3" }, `[rails "3V3", "5V" feed each other in a circle]`},
		{"unlike batteries", func(s *System) {
			s.Batteries = append(s.Batteries, Battery{Ref: "BAT2", Rail: "BAT", Chemistry: LiFePO4, CellsInSeries: 3, Quantity: 1})
		}, `[batteries "BAT1" and "BAT2" on rail "BAT" have different voltages and cannot work in parallel]`},
		{"no battery", func(s *System) { s.Batteries = nil }, `[rail "BAT" is fed by no battery and no converter no battery feeds any rail]`},
		{"no rail", func(s *System) { s.Loads[1].Rail = "" }, `[load "RX1" names no rail]`},
		{"a duty of 90 %", func(s *System) { s.Duty[Standby] = 0.6 }, `[the shares of the duty states add up to 90.0 %, not to 100 %]`},
	} {
		s := relay()
		c.change(&s)
		r := Analyse(s)
		if got := fmt.Sprint(r.Faults); got != c.want {
			t.Errorf("%s: got %s\nwant %s", c.name, got, c.want)
		}
		if !isUnknown(r.Average) || !isUnknown(r.Endurance) {
			t.Errorf("%s: average %v and endurance %v are shown", c.name, r.Average, r.Endurance)
		}
	}
}

func TestChanges(t *testing.T) {
	for _, c := range []struct {
		station, endurance unit.Duration
		want               float64
	}{
		{12 * 3600, 13 * 3600, 0}, {12 * 3600, 12 * 3600, 0}, {12 * 3600, 6 * 3600, 1}, {12 * 3600, 5.9 * 3600, 2}, {12 * 3600, 4 * 3600, 2},
		{0.3 * 3600, 0.1 * 3600, 2}, {0, 3600, 0},
	} {
		if got := Changes(c.station, c.endurance); float64(got) != c.want {
			t.Errorf("a station of %v on batteries of %v: %v changes, want %v", c.station, c.endurance, got, c.want)
		}
	}
	for _, e := range []unit.Duration{0, -1, unit.Duration(math.NaN()), unit.Duration(math.Inf(1))} {
		if got := Changes(3600, e); !isUnknown(got) {
			t.Errorf("an endurance of %v needs %v changes", float64(e), got)
		}
	}
}

func TestMoreCurrentNeverLastsLongerNorRaisesAVoltage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := relay()
		for i := range s.Loads {
			for state := range s.Loads[i].Current {
				s.Loads[i].Current[state] = unit.Current(rapid.Float64Range(0, 2).Draw(t, "current"))
			}
		}
		before := Analyse(s)
		i, state := rapid.IntRange(0, 2).Draw(t, "load"), rapid.IntRange(0, 2).Draw(t, "state")
		s.Loads[i].Current[state] += unit.Current(rapid.Float64Range(0, 2).Draw(t, "more"))
		after := Analyse(s)
		if after.Endurance > before.Endurance || after.Average < before.Average {
			t.Fatalf("endurance %v → %v, average %v → %v", before.Endurance, after.Endurance, before.Average, after.Average)
		}
		for n := range after.Loads {
			if after.Loads[n].Lowest > before.Loads[n].Lowest {
				t.Fatalf("%s rose from %v to %v", after.Loads[n].Ref, before.Loads[n].Lowest, after.Loads[n].Lowest)
			}
		}
		for n := range after.Rails {
			if after.Rails[n].Greatest < before.Rails[n].Greatest {
				t.Fatalf("%s fell from %v to %v", after.Rails[n].ID, before.Rails[n].Greatest, after.Rails[n].Greatest)
			}
		}
	})
}

func TestTwoBatteriesLastTwiceAsLong(t *testing.T) {
	one := Analyse(relay())
	s := relay()
	s.Batteries[0].Quantity = 2
	two := Analyse(s)
	near(t, "endurance", two.Endurance.Hours(), 2*one.Endurance.Hours(), 1e-9)
	near(t, "allowed current", float64(two.Batteries[0].Allowed), 20, 1e-9)
}
