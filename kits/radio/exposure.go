package radio

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// A Standard is a set of limits for people near antennas.
type Standard string

// The standards: the exposure limits of 47 CFR 1.1310, and the reference levels of ICNIRP 2020 for the whole body (averaged
// over 30 minutes) and for a part of it (over 6 minutes).
const (
	FCC         Standard = "47 CFR 1.1310"
	ICNIRPBody  Standard = "ICNIRP 2020, whole body"
	ICNIRPLocal Standard = "ICNIRP 2020, local"
)

// Standards lists them.
func Standards() []Standard { return []Standard{FCC, ICNIRPBody, ICNIRPLocal} }

// People are who may be near.
type People bool

// The public knows nothing of the antenna; trained people do, and can keep away.
const (
	Public  People = false
	Trained People = true
)

// A band is a row of a table of limits: up to this frequency in MHz, S = factor · f^power in W/m².
type band struct {
	upTo                    float64
	public, trained         float64
	publicPower, trainPower float64
}

// limits start at 30 MHz. 47 CFR 1.1310 Table 1 [cfr-47-1.1310]; ICNIRP 2020 Tables 5 (from memory) and 6 [icnirp-2020].
var limits = map[Standard][]band{
	FCC:         {{300, 2, 10, 0, 0}, {1500, 1.0 / 150, 1.0 / 30, 1, 1}, {100e3, 10, 50, 0, 0}},
	ICNIRPBody:  {{400, 2, 10, 0, 0}, {2000, 1.0 / 200, 1.0 / 40, 1, 1}, {300e3, 10, 50, 0, 0}},
	ICNIRPLocal: {{400, 10, 50, 0, 0}, {2000, 0.058, 0.29, 0.86, 0.86}, {6000, 40, 200, 0, 0}},
}

// ExposureLimit is the power density that a standard allows. It is NaN outside 30 MHz to the end of the standard's rows
// (6 GHz for the local levels).
func ExposureLimit(s Standard, who People, f unit.Frequency) unit.PowerDensity {
	mhz := megahertz(f)
	if !(mhz >= 30) {
		return unknown[unit.PowerDensity]()
	}
	for _, b := range limits[s] {
		if mhz <= b.upTo {
			if who == Trained {
				return unit.PowerDensity(b.trained * math.Pow(mhz, b.trainPower))
			}
			return unit.PowerDensity(b.public * math.Pow(mhz, b.publicPower))
		}
	}
	return unknown[unit.PowerDensity]()
}

// GroundFactor is by how much a reflection from the ground can raise a power density: (1.6)², OET Bulletin 65 [oet-65].
const GroundFactor = 2.56

// ExposureDistance is where the power density has fallen to a limit:
//
//	S = 2.56 · EIRP · duty / (4π r²), solved for r
//
// in the far field and the main beam (OET Bulletin 65 [oet-65]). In the near field of a small antenna it errs on the safe
// side. Averaging with the duty supposes that the average over any 6 (trained) or 30 minutes (public) is no higher.
func ExposureDistance(x Transmitter, limit unit.PowerDensity) unit.Length {
	if limit <= 0 || x.Duty < 0 {
		return unknown[unit.Length]()
	}
	gain := math.Pow(10, (float64(x.Gain)-float64(x.FeedLoss))/10)
	return known(unit.Length(math.Sqrt(GroundFactor * float64(x.Power) * gain * float64(x.Duty) / (4 * math.Pi * float64(limit)))))
}

// Exposure is how far people keep from one antenna.
type Exposure struct {
	Transmitter     string
	Public, Trained unit.Length // the greatest over the standards
	Binding         Standard    // that asks for Public
	Notes           []string
}

// Expose finds the distances that satisfy every standard asked for, or all when none is named. A standard that says nothing
// at the frequency leaves the distances unknown.
func Expose(x Transmitter, standards ...Standard) Exposure {
	if len(standards) == 0 {
		standards = Standards()
	}
	e := Exposure{Transmitter: x.Ref}
	for _, s := range standards {
		public := ExposureDistance(x, ExposureLimit(s, Public, x.Frequency))
		if e.Binding == "" || public > e.Public || isUnknown(public) && !isUnknown(e.Public) {
			e.Public, e.Binding = public, s
		}
		e.Trained = max(e.Trained, ExposureDistance(x, ExposureLimit(s, Trained, x.Frequency)))
	}
	if near := Wavelength(x.Frequency) / (2 * math.Pi); e.Public < near {
		e.Notes = append(e.Notes, fmt.Sprintf("%s is in the near field, within %s of the antenna, where the far-field formula errs on the safe side", e.Public, near))
	}
	return e
}
