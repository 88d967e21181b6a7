package power

import (
	"math"
	"testing"

	"hoistbook/kits/unit"
)

// near fails unless got is within half a unit of the last digit that want prints.
func near(t *testing.T, what string, got, want, half float64) {
	t.Helper()
	if !(math.Abs(got-want) <= half) {
		t.Errorf("%s: got %v, published %v ± %v", what, got, want, half)
	}
}

// The wire table as printed in handbooks after ASTM B258: diameter in mm, ohms per kilometre.
func TestWireTable(t *testing.T) {
	for _, row := range []struct {
		gauge            unit.Gauge
		diameter, perKm  float64
		halfMm, halfOhms float64
	}{
		{10, 2.588, 3.28, 0.0005, 0.005},
		{12, 2.053, 5.21, 0.0005, 0.005},
		{14, 1.628, 8.29, 0.0005, 0.005},
		{16, 1.291, 13.17, 0.0005, 0.005},
		{18, 1.024, 20.95, 0.0005, 0.005},
		{20, 0.812, 33.31, 0.0005, 0.01},
		{22, 0.644, 52.96, 0.0005, 0.01},
		{24, 0.511, 84.2, 0.0005, 0.05},
		{26, 0.405, 133.9, 0.0005, 0.05},
		{28, 0.321, 212.9, 0.0005, 0.05},
		{30, 0.255, 338.5, 0.0005, 0.1},
	} {
		near(t, row.gauge.String()+" diameter", float64(WireDiameter(row.gauge))*1000, row.diameter, row.halfMm)
		near(t, row.gauge.String()+" resistance", float64(Wire{row.gauge, 500}.Resistance()), row.perKm, row.halfOhms)
	}
	// Per 1000 ft in the same tables: AWG 22 16.14 ohm, AWG 18 6.385 ohm.
	near(t, "AWG 22 per 1000 ft", float64(Wire{22, 304.8 / 2}.Resistance()), 16.14, 0.005)
	near(t, "AWG 18 per 1000 ft", float64(Wire{18, 304.8 / 2}.Resistance()), 6.385, 0.0015)
}

// An electricians' worked example: 20 A through 100 ft of AWG 12 copper loses 6.4 V there and back.
func TestVoltageDrop(t *testing.T) {
	near(t, "AWG 12, 100 ft, 20 A", float64(Wire{12, unit.Must[unit.Length]("100 ft")}.Drop(20)), 6.4, 0.05)
	if drop := (Wire{}).Drop(5); drop != 0 {
		t.Errorf("no wire loses %v", drop)
	}
}

// Cell makers' data: packs as they are sold, cutoff, nominal and full.
func TestPacks(t *testing.T) {
	for _, pack := range []struct {
		chemistry             Chemistry
		cells                 int
		cutoff, nominal, full float64
		half                  float64
	}{
		{LiIon, 3, 9.0, 11.1, 12.6, 1e-9},
		{LiPo, 2, 6.0, 7.4, 8.4, 1e-9},
		{LiFePO4, 4, 10.0, 12.8, 14.6, 1e-9},
		{NiMH, 10, 10.0, 12.0, 14.5, 1e-9},
		{LeadAcid, 6, 10.5, 12.0, 14.4, 1e-9},
		{Alkaline, 8, 7.2, 12.0, 12.8, 1e-9},
	} {
		v := batteryVolts(Battery{Chemistry: pack.chemistry, CellsInSeries: pack.cells})
		near(t, string(pack.chemistry)+" cutoff", float64(v.lowest), pack.cutoff, pack.half)
		near(t, string(pack.chemistry)+" nominal", float64(v.nominal), pack.nominal, pack.half)
		near(t, string(pack.chemistry)+" full", float64(v.highest), pack.full, pack.half)
	}
}

// Watt-hours of lithium packs as worked in the air carriers' rules for spare batteries: voltage × ampere-hours.
func TestWattHours(t *testing.T) {
	for _, pack := range []struct {
		chemistry Chemistry
		cells     int
		capacity  string
		wh        float64
		half      float64
	}{
		{LiPo, 3, "5 Ah", 55.5, 0.05},
		{LiIon, 2, "13.5 Ah", 99.9, 0.05},
		{LiIon, 4, "10 Ah", 148, 0.5},
		{LiFePO4, 4, "12 Ah", 153.6, 0.05},
	} {
		b := Battery{Chemistry: pack.chemistry, CellsInSeries: pack.cells, Capacity: unit.Must[unit.Charge](pack.capacity), Usable: 1, ColdCapacity: 1, Quantity: 1}
		near(t, pack.capacity, b.usable().Quantity().In("Wh"), pack.wh, pack.half)
	}
}

// Series regulators, from electronics teaching pages: 12 V to 5 V at 0.5 A wastes 3.50 W, 12 V to 3.3 V at 500 mA 4.35 W,
// 12 V to 5 V at 1 A 7 W.
func TestRegulatorHeat(t *testing.T) {
	for _, c := range []struct{ source, output, current, heat float64 }{{12, 5, 0.5, 3.50}, {12, 3.3, 0.5, 4.35}, {12, 5, 1, 7}} {
		k := Converter{Ref: "R", Kind: Linear, From: "IN", To: "OUT", Output: unit.Voltage(c.output)}
		source := unit.Voltage(c.source)
		near(t, "heat", float64(circuitWith(volts{source, source, source}, k, unit.Current(c.current)).Dissipation), c.heat, 0.005)
	}
	k := Converter{Ref: "R", Kind: Linear, From: "IN", To: "OUT", Output: 5}
	if heat := circuitWith(volts{4, 4, 4}, k, 1).Dissipation; heat != 0 {
		t.Errorf("a source below the output heats by %v", heat)
	}
}

// circuitWith runs one converter from a source of the given voltage.
func circuitWith(source volts, k Converter, out unit.Current) ConverterResult {
	c := connect(System{
		Batteries:  []Battery{{Ref: "B", Rail: k.From, Quantity: 1}},
		Converters: []Converter{k},
		Loads:      []Load{{Ref: "L", Rail: k.To, Quantity: 1, Current: Currents{out, out, out}}},
	})
	c.rails[k.From].volts = &source
	return c.converter(k)
}

// Switching regulators (from memory): 5 V at 1 A out of 12.6 V at 90 % takes 0.441 A.
func TestBuckInput(t *testing.T) {
	k := Converter{Ref: "R", Kind: Buck, From: "IN", To: "OUT", Output: 5, Efficiency: 0.9}
	near(t, "input", float64(circuitWith(volts{12.6, 12.6, 12.6}, k, 1).InputCurrent), 0.441, 0.0005)
	// 90 % of the power goes on, 10 % of the input stays: 5 W / 0.9 − 5 W (definition of efficiency).
	near(t, "heat", float64(circuitWith(volts{12.6, 12.6, 12.6}, k, 1).Dissipation), 0.556, 0.0005)
}

// NFPA 70, 125 % of a continuous load (from memory): 3.2 A wants a 4.0 A fuse.
func TestFuse(t *testing.T) {
	r := Analyse(System{
		Batteries: []Battery{{Ref: "B", Rail: "BAT", Chemistry: LiIon, CellsInSeries: 3, Quantity: 1}},
		Loads:     []Load{{Ref: "L", Rail: "BAT", Quantity: 1, Current: Currents{3.2, 1, 1}}},
		Fuses:     []Fuse{{Ref: "F", Rail: "BAT", Rating: 5}},
	})
	near(t, "fuse", float64(r.Fuses[0].Needed), 4.0, 1e-9)
}

// Interface levels for 3.3 V and 5 V logic, JEDEC JESD8C.01 and TTL data sheets: 3.3 V logic drives a TTL input with
// 0.4 V to spare; a 5 V output is 1.4 V too much for a 3.6 V input; 3.3 V CMOS does not reach the 3.5 V of 5 V CMOS.
func TestSignals(t *testing.T) {
	out := func(high unit.Voltage) unit.Range[unit.Voltage] { return unit.Range[unit.Voltage]{Low: 0, High: high} }
	near(t, "LVTTL into TTL", float64(Signal{Drives: out(2.4), NeedsHigh: 2.0}.HighMargin()), 0.4, 1e-9)
	near(t, "5 V into 3.3 V logic", float64(Signal{Drives: out(5.0), Withstands: 3.6}.DamageMargin()), -1.4, 1e-9)
	near(t, "3.3 V into 5 V CMOS", float64(Signal{Drives: out(3.3), NeedsHigh: 3.5}.HighMargin()), -0.2, 1e-9)
	if margin := (Signal{Drives: out(3.3), NeedsHigh: unknown[unit.Voltage]()}).HighMargin(); !isUnknown(margin) {
		t.Errorf("an unknown need left a margin of %v", margin)
	}
}

// A battery maker's rule for slow charging (1.6 × capacity / current at a twentieth of the capacity) and IEC 61951-2 (a
// tenth of the capacity for 16 h, from memory).
func TestChargeTime(t *testing.T) {
	near(t, "NiMH at C/10", ChargeTime(NiMH, unit.Must[unit.Charge]("2 Ah"), 0.2).Hours(), 16, 1e-9)
	if t1 := ChargeTime(Alkaline, unit.Must[unit.Charge]("2 Ah"), 0.2); !isUnknown(t1) {
		t.Errorf("alkaline cells charge in %v", t1)
	}
	if t1 := ChargeTime(LiIon, unit.Must[unit.Charge]("2 Ah"), 0); !isUnknown(t1) {
		t.Errorf("a charger without current charges in %v", t1)
	}
}

// Common practice: a small relay on a few ampere-hours talks ten to twenty hours.
func TestRelayTalksTenToTwentyHours(t *testing.T) {
	r := Analyse(relay())
	if h := r.Endurance.Hours(); !(h >= 10 && h <= 20) {
		t.Errorf("the relay lasts %v h", h)
	}
}
