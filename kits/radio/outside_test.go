package radio

import (
	"testing"

	"hoistbook/kits/internal/outside"
	"hoistbook/kits/unit"
)

func TestPublishedValues(t *testing.T) {
	feet := func(power unit.Power, who People) float64 {
		x := Transmitter{Frequency: 144 * mhz, Power: power, Gain: 24, Duty: 1}
		return ExposureDistance(x, ExposureLimit(FCC, who, x.Frequency)).Quantity().In("ft")
	}
	horizon := func(h1, h2 unit.Length) float64 { return float64(Horizon(h1, h2)) / 1000 }
	leaves := func(depth unit.Length, f unit.Frequency) float64 { return float64(FoliageLoss(depth, f)) }
	apart := func(s unit.Length) float64 { return float64(AntennaIsolation(Antennas{Vertical, s}, 450*mhz, 0, 0)) }
	watts := func(s Standard, who People, f unit.Frequency) float64 { return float64(ExposureLimit(s, who, f)) }
	hata := func(e Environment, d unit.Length, f unit.Frequency, base, mobile unit.Length) float64 {
		return float64(HataLoss(e, d, f, base, mobile))
	}
	const simulator = "reference values of the ns-3 network simulator's tests, worked there by independent scripts"
	const table = "its table is printed a foot short of its own formula"
	outside.Table(t, "kits/radio", "Radio", []outside.Check{
		{What: "free-space loss, 145 MHz, 1 km", Source: "p525", At: "32.45 + 20 log f + 20 log d", Published: "75.68", Unit: "dB", Ours: float64(FreeSpaceLoss(1*km, 145*mhz))},
		{What: "free-space loss, 435 MHz, 10 km", Source: "p525", At: "32.45 + 20 log f + 20 log d", Published: "105.22", Unit: "dB", Ours: float64(FreeSpaceLoss(10*km, 435*mhz))},
		{What: "radio horizon, 30 m and 1.5 m", Source: "p310", At: "4.12 (√h₁ + √h₂) km", Published: "27.6", Unit: "km", Ours: horizon(30, 1.5)},
		{What: "radio horizon, 150 m and 10 m", Source: "p310", At: "4.12 (√h₁ + √h₂) km", Published: "63.5", Unit: "km", Ours: horizon(150, 10)},
		{What: "horizon, nautical miles for 1 m", Source: "glossaries of telecommunication", Published: "2.23", Unit: "nmi", Ours: float64(Horizon(1, 0)) / 1852},
		{What: "loss, 900 MHz, 100 m and 2 m, 4 km, large city", Source: "hata-1980", At: "a textbook's case, from memory", Published: "137.29", Unit: "dB", Ours: hata(LargeCity, 4*km, 900*mhz, 100, 2)},
		{What: "loss, 869 MHz, 30 m and 1 m, 2 km, large city", Source: simulator, Published: "137.93", Unit: "dB", Ours: hata(LargeCity, 2*km, 869*mhz, 30, 1)},
		{What: "loss, 869 MHz, 30 m and 1 m, 2 km, urban", Source: simulator, Published: "137.88", Unit: "dB", Ours: hata(Urban, 2*km, 869*mhz, 30, 1)},
		{What: "loss, 869 MHz, 30 m and 1 m, 2 km, suburban", Source: simulator, Published: "128.03", Unit: "dB", Ours: hata(Suburban, 2*km, 869*mhz, 30, 1), Within: 0.15, Why: "the simulator's own tolerance is 0.1 dB"},
		{What: "loss, 869 MHz, 30 m and 1 m, 2 km, open", Source: simulator, Published: "109.66", Unit: "dB", Ours: hata(Open, 2*km, 869*mhz, 30, 1), Within: 0.15, Why: "the simulator's own tolerance is 0.1 dB"},
		{What: "foliage, 446 MHz, 14 m", Source: "weissberger", Published: "5.0", Unit: "dB", Ours: leaves(14, 446*mhz)},
		{What: "foliage, 446 MHz, 100 m", Source: "weissberger", Published: "15.9", Unit: "dB", Ours: leaves(100, 446*mhz)},
		{What: "foliage, 1 GHz, 100 m", Source: "weissberger", Published: "19.9", Unit: "dB", Ours: leaves(100, 1000*mhz), Within: 0.06, Why: "19.94 as the formula gives it"},
		{What: "isolation of antennas 70 m above each other, 450 MHz", Source: "isolation", Published: "109", Unit: "dB", Ours: apart(70)},
		{What: "isolation of antennas 950 m above each other, 450 MHz", Source: "isolation", Published: "154", Unit: "dB", Ours: apart(950)},
		{What: "limit for the public, 446 MHz", Source: "cfr-47-1.1310", At: "Table 1", Published: "2.97", Unit: "W/m²", Ours: watts(FCC, Public, 446*mhz)},
		{What: "limit for trained people, 446 MHz", Source: "cfr-47-1.1310", At: "Table 1", Published: "14.87", Unit: "W/m²", Ours: watts(FCC, Trained, 446*mhz)},
		{What: "limit for the public, 146 MHz, from 27.5 V/m in 377 ohm", Source: "cfr-47-1.1310", At: "Table 1", Published: "2.0", Unit: "W/m²", Ours: watts(FCC, Public, 146*mhz)},
		{What: "reference level for the public, whole body, 446 MHz", Source: "icnirp-2020", At: "Table 5", Published: "2.23", Unit: "W/m²", Ours: watts(ICNIRPBody, Public, 446*mhz)},
		{What: "reference level for the public, local, 446 MHz", Source: "icnirp-2020", At: "Table 6", Published: "11.0", Unit: "W/m²", Ours: watts(ICNIRPLocal, Public, 446*mhz)},
		{What: "distance, 144 MHz, 24 dBi, 150 W, controlled", Source: "oet-65", At: "Supplement B", Published: "90", Unit: "ft", Ours: feet(150, Trained), Within: 1, Why: table},
		{What: "distance, 144 MHz, 24 dBi, 500 W, controlled", Source: "oet-65", At: "Supplement B", Published: "166", Unit: "ft", Ours: feet(500, Trained)},
		{What: "distance, 144 MHz, 24 dBi, 1500 W, controlled", Source: "oet-65", At: "Supplement B", Published: "287", Unit: "ft", Ours: feet(1500, Trained)},
		{What: "distance, 144 MHz, 24 dBi, 1500 W, uncontrolled", Source: "oet-65", At: "Supplement B", Published: "642", Unit: "ft", Ours: feet(1500, Public), Within: 1, Why: table},
	})
}

var standards = map[string]Standard{"fcc": FCC, "body": ICNIRPBody, "local": ICNIRPLocal}

func TestAgainstFormulasWorkedIndependently(t *testing.T) {
	metres := func(r *outside.Row) unit.Length { return unit.Length(r.Number()) }
	hertz := func(r *outside.Row) unit.Frequency { return unit.Frequency(r.Number()) }
	decibels := func(r *outside.Row) unit.Decibel { return unit.Decibel(r.Number()) }
	limit := func(r *outside.Row) (s Standard, who People) {
		s = standards[r.Text()]
		return s, People(r.Text() == "trained")
	}
	outside.Rows(t, "radio.csv", 1e-8, map[string]func(*outside.Row) float64{
		"free_space": func(r *outside.Row) float64 { return float64(FreeSpaceLoss(metres(r), hertz(r))) },
		"horizon":    func(r *outside.Row) float64 { return float64(Horizon(metres(r), metres(r))) },
		"hata": func(r *outside.Row) float64 {
			return float64(HataLoss(Environment(r.Text()), metres(r), hertz(r), metres(r), metres(r)))
		},
		"foliage": func(r *outside.Row) float64 { return float64(FoliageLoss(metres(r), hertz(r))) },
		"range": func(r *outside.Row) float64 {
			kind := Environment(r.Text())
			l := Link{Frequency: hertz(r), Power: unit.Power(r.Number()), TransmitGain: unit.Gain(r.Number()), FeedLoss: decibels(r), FadeMargin: decibels(r), Sensitivity: unit.DBm(r.Number())}
			l.ReceiveGain, l.TransmitGain = l.TransmitGain/2, l.TransmitGain/2
			base, mobile, depth := metres(r), metres(r), metres(r)
			return float64(Path{kind, depth, base, mobile}.Range(l).Distance)
		},
		"isolation": func(r *outside.Row) float64 {
			arrangement := Arrangement(r.Text())
			return float64(AntennaIsolation(Antennas{arrangement, metres(r)}, hertz(r), unit.Gain(r.Number()), unit.Gain(r.Number())))
		},
		"limit": func(r *outside.Row) float64 {
			s, who := limit(r)
			return float64(ExposureLimit(s, who, hertz(r)))
		},
		"exposure": func(r *outside.Row) float64 {
			s, who := limit(r)
			x := Transmitter{Frequency: hertz(r), Power: unit.Power(r.Number()), Gain: unit.Gain(r.Number()), FeedLoss: decibels(r), Duty: unit.Ratio(r.Number())}
			return float64(ExposureDistance(x, ExposureLimit(s, who, x.Frequency)))
		},
		"needed": func(r *outside.Row) float64 {
			x, h := Transmitter{Frequency: hertz(r)}, Receiver{Frequency: hertz(r)}
			x.Power, h.Sensitivity = unit.Power(r.Number()), unit.DBm(r.Number())
			h.Blocking, x.NoiseFloor, x.HarmonicSuppression, h.ChannelWidth = decibels(r), decibels(r), decibels(r), hertz(r)
			return float64(Isolate(Antennas{Vertical, 3}, x, h).Needed)
		},
	})
}
