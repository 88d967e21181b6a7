package radio

import (
	"math"

	"hoistbook/kits/unit"
)

// An Environment is the country that a path crosses.
type Environment string

// The environments. LargeCity is Hata's urban area with his correction for large cities; Urban has that for small and
// medium ones, as Suburban and Open do.
const (
	FreeSpace Environment = "free-space"
	Open      Environment = "open"
	Suburban  Environment = "suburban"
	Urban     Environment = "urban"
	LargeCity Environment = "large-city"
)

// FreeSpaceLoss between isotropic antennas: L = 20 log₁₀(4π d/λ), that is 32.4 + 20 log₁₀ f(MHz) + 20 log₁₀ d(km) in
// Recommendation ITU-R P.525 [p525]. It holds in the far field, some wavelengths away.
func FreeSpaceLoss(d unit.Length, f unit.Frequency) unit.Decibel {
	return known(unit.Decibel(20 * (math.Log10(4*math.Pi*float64(d)) - math.Log10(float64(Wavelength(f))))))
}

// Horizon is the distance at which the bulge of the Earth cuts the line between two antennas over smooth ground:
//
//	d = √(2 k R_e) · (√h₁ + √h₂), k = 4/3, R_e = 6371 km
//
// k is the effective Earth radius of the average temperate atmosphere, Recommendation ITU-R P.310 [p310]; on a given day
// it lies anywhere from below 1 to beyond 3. For heights small against the Earth.
func Horizon(h1, h2 unit.Length) unit.Length {
	const k, earth = 4.0 / 3, 6371e3
	return known(unit.Length(math.Sqrt(2*k*earth) * (math.Sqrt(float64(h1)) + math.Sqrt(float64(h2)))))
}

// HataLoss is the median loss of Okumura's measurements in Hata's formulas [hata-1980], f in MHz, heights in m, d in km:
//
//	urban    69.55 + 26.16 log f − 13.82 log h_b − a(h_m) + (44.9 − 6.55 log h_b) log d
//	suburban urban − 2 (log(f/28))² − 5.4
//	open     urban − 4.78 (log f)² + 18.33 log f − 40.94
//
// For 150 to 1500 MHz, h_b 30 to 200 m, h_m 1 to 10 m, 1 to 20 km; Hata states an error of the order of 1 dB against
// Okumura's curves inside these, and the country varies by 6 to 10 dB about them. HataLimits says what is outside.
func HataLoss(e Environment, d unit.Length, f unit.Frequency, base, mobile unit.Length) unit.Decibel {
	if mobile <= 0 { // nothing else that is not above zero has a logarithm
		return unknown[unit.Decibel]()
	}
	logF, logB := math.Log10(megahertz(f)), math.Log10(float64(base))
	correction := MobileCorrection(f, mobile)
	if e == LargeCity {
		correction = LargeCityCorrection(f, mobile)
	}
	loss := 69.55 + 26.16*logF - 13.82*logB - float64(correction) + (44.9-6.55*logB)*math.Log10(float64(d)/1000)
	switch e {
	case Urban, LargeCity:
	case Suburban:
		loss -= 2*math.Pow(math.Log10(megahertz(f)/28), 2) + 5.4
	case Open:
		loss -= 4.78*logF*logF - 18.33*logF + 40.94
	default:
		return unknown[unit.Decibel]()
	}
	return known(unit.Decibel(loss))
}

// MobileCorrection is a(h_m) of small and medium cities: (1.1 log f − 0.7) h_m − (1.56 log f − 0.8) [hata-1980].
func MobileCorrection(f unit.Frequency, mobile unit.Length) unit.Decibel {
	logF := math.Log10(megahertz(f))
	return unit.Decibel((1.1*logF-0.7)*float64(mobile) - (1.56*logF - 0.8))
}

// LargeCityCorrection is a(h_m) of large cities: 8.29 (log 1.54 h_m)² − 1.1 up to 200 MHz, 3.2 (log 11.75 h_m)² − 4.97
// from 400 MHz [hata-1980]. Hata leaves the gap open; the smaller of the two, which gives the greater loss, is taken there.
func LargeCityCorrection(f unit.Frequency, mobile unit.Length) unit.Decibel {
	low := 8.29*math.Pow(math.Log10(1.54*float64(mobile)), 2) - 1.1
	high := 3.2*math.Pow(math.Log10(11.75*float64(mobile)), 2) - 4.97
	switch mhz := megahertz(f); {
	case mhz <= 200:
		return unit.Decibel(low)
	case mhz >= 400:
		return unit.Decibel(high)
	}
	return unit.Decibel(min(low, high))
}

// FoliageLoss is Weissberger's modified exponential decay through trees in leaf [weissberger], f in GHz, depth in m:
//
//	1.33 f^0.284 depth^0.588 for 14 < depth ≤ 400 m, 0.45 f^0.284 depth for depth ≤ 14 m
//
// For 230 MHz to 95 GHz where the ray passes through the wood, not over it. Deeper than 400 m the formula is carried on;
// FoliageLimits says so.
func FoliageLoss(depth unit.Length, f unit.Frequency) unit.Decibel {
	if depth == 0 {
		return 0
	}
	if depth < 0 || f <= 0 {
		return unknown[unit.Decibel]()
	}
	ghz, m := float64(f)/1e9, float64(depth)
	if m <= 14 {
		return known(unit.Decibel(0.45 * math.Pow(ghz, 0.284) * m))
	}
	return known(unit.Decibel(1.33 * math.Pow(ghz, 0.284) * math.Pow(m, 0.588)))
}
