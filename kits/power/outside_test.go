package power

import (
	"testing"

	"hoistbook/kits/internal/outside"
	"hoistbook/kits/unit"
)

func TestPublishedValues(t *testing.T) {
	var checks []outside.Check
	add := func(what, source, at, published, u string, ours, within float64, why string) {
		checks = append(checks, outside.Check{What: what, Source: source, At: at, Published: published, Unit: u, Ours: ours, Within: within, Why: why})
	}
	const last = "tables differ by one unit of the last digit"
	for _, row := range []struct {
		gauge                 unit.Gauge
		diameter, perKm, amps string
		ohms                  float64
	}{
		{10, "2.588", "3.28", "55", 0}, {12, "2.053", "5.21", "41", 0}, {14, "1.628", "8.29", "32", 0}, {16, "1.291", "13.17", "22", 0}, {18, "1.024", "20.95", "16", 0},
		{20, "0.812", "33.31", "11", 0.01}, {22, "0.644", "52.96", "7", 0.01}, {24, "0.511", "84.2", "3.5", 0}, {26, "0.405", "133.9", "2.2", 0}, {28, "0.321", "212.9", "1.4", 0},
		{30, "0.255", "338.5", "0.86", 0.1},
	} {
		name, why := row.gauge.String(), ""
		if row.ohms > 0 {
			why = last
		}
		add("diameter of "+name, "astm-b258", "wire tables after it", row.diameter, "mm", float64(WireDiameter(row.gauge))*1000, 0, "")
		add("resistance of 1 km of "+name, "iacs", "wire tables", row.perKm, "ohm", float64(Wire{row.gauge, 500}.Resistance()), row.ohms, why)
		add("current of "+name+" in free air", "ampacity", "", row.amps, "A", float64(Wire{row.gauge, 1}.Ampacity()), 0, "")
	}
	for _, pack := range []struct {
		chemistry             Chemistry
		cells                 int
		cutoff, nominal, full string
	}{{LiIon, 3, "9.0", "11.1", "12.6"}, {LiPo, 2, "6.0", "7.4", "8.4"}, {LiFePO4, 4, "10.0", "12.8", "14.6"}, {NiMH, 10, "10.0", "12.0", "14.5"}, {LeadAcid, 6, "10.5", "12.0", "14.4"}, {Alkaline, 8, "7.2", "12.0", "12.8"}} {
		v := batteryVolts(Battery{Chemistry: pack.chemistry, CellsInSeries: pack.cells})
		add("cutoff of a pack, "+string(pack.chemistry), "cell-data", "packs as they are sold", pack.cutoff, "V", float64(v.lowest), 0, "")
		add("nominal voltage of a pack, "+string(pack.chemistry), "cell-data", "packs as they are sold", pack.nominal, "V", float64(v.nominal), 0, "")
		add("full voltage of a pack, "+string(pack.chemistry), "cell-data", "packs as they are sold", pack.full, "V", float64(v.highest), 0, "")
	}
	linear := func(source, output unit.Voltage, amps unit.Current) float64 {
		return float64(circuitWith(volts{source, source, source}, Converter{Kind: Linear, From: "IN", To: "OUT", Output: output}, amps).Dissipation)
	}
	add("loss of 100 ft of AWG 12 at 20 A, there and back", "electricians' worked example", "", "6.4", "V", float64(Wire{12, unit.Must[unit.Length]("100 ft")}.Drop(20)), 0, "")
	add("heat of a series regulator, 12 V to 5 V, 0.5 A", "electronics teaching pages", "", "3.50", "W", linear(12, 5, 0.5), 0, "")
	add("heat of a series regulator, 12 V to 3.3 V, 0.5 A", "electronics teaching pages", "", "4.35", "W", linear(12, 3.3, 0.5), 0, "")
	add("input of a buck converter, 5 V, 1 A, 90 %, from 12.6 V", "ohm", "from memory", "0.441", "A", float64(circuitWith(volts{12.6, 12.6, 12.6}, Converter{Kind: Buck, From: "IN", To: "OUT", Output: 5, Efficiency: 0.9}, 1).InputCurrent), 0, "")
	add("charging nickel-metal hydride at a tenth of its capacity", "iec-61951", "", "16", "h", ChargeTime(NiMH, unit.Must[unit.Charge]("2 Ah"), 0.2).Hours(), 0, "")
	battery := Battery{Chemistry: LiFePO4, CellsInSeries: 4, Capacity: unit.Must[unit.Charge]("12 Ah"), Usable: 1, ColdCapacity: 1, Quantity: 1}
	add("energy of four lithium iron phosphate cells of 12 Ah", "lithium-by-air", "", "153.6", "Wh", battery.usable().Quantity().In("Wh"), 0, "")
	outside.Table(t, "kits/power", "Power", checks)
}

func TestAgainstFormulasWorkedIndependently(t *testing.T) {
	outside.Rows(t, "power.csv", 1e-9, map[string]func(*outside.Row) float64{
		"diameter": func(r *outside.Row) float64 { return float64(WireDiameter(unit.Gauge(r.Number()))) },
		"drop": func(r *outside.Row) float64 {
			w := Wire{unit.Gauge(r.Number()), unit.Length(r.Number())}
			return float64(w.Drop(unit.Current(r.Number())))
		},
		"endurance": func(r *outside.Row) float64 {
			b := Battery{Ref: "B", Rail: "BAT", Chemistry: Chemistry(r.Text()), CellsInSeries: int(r.Number()), Capacity: unit.Charge(r.Number() * 3600), Usable: unit.Ratio(r.Number()), ColdCapacity: unit.Ratio(r.Number()), Quantity: int(r.Number())}
			l := Load{Ref: "L", Rail: "BAT", Quantity: 1, Current: Currents{unit.Current(r.Number()), unit.Current(r.Number()), unit.Current(r.Number())}}
			duty := unit.Ratio(r.Number())
			return float64(Analyse(System{Duty: Duty{duty, 0.25, 0.75 - duty}, Batteries: []Battery{b}, Loads: []Load{l}}).Endurance)
		},
		"changes": func(r *outside.Row) float64 {
			return float64(Changes(unit.Duration(r.Number()), unit.Duration(r.Number())))
		},
	})
}
