package air

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// A State is what a barometer, a thermometer and a hygrometer say of the air.
type State struct {
	Pressure    unit.Pressure
	Temperature unit.Temperature
	Humidity    unit.Ratio // relative, over water
}

// Constants of CIPM-2007, in the paper's own letters. The gas constant is the paper's (CODATA 2006), because its other
// coefficients were fitted with it.
const (
	cipmR  = 8.314472     // J/(mol K)
	cipmMa = 28.96546e-3  // dry air with 400 ppm CO2, kg/mol
	cipmMv = 18.01528e-3  // water, kg/mol
	psvA   = 1.2378847e-5 // saturation vapour pressure: K^-2
	psvB   = -1.9121316e-2
	psvC   = 33.93711047
	psvD   = -6.3431645e3
	facA   = 1.00062 // enhancement factor
	facB   = 3.14e-8 // 1/Pa
	facC   = 5.6e-7  // 1/°C²
	zA0    = 1.58123e-6
	zA1    = -2.9331e-8
	zA2    = 1.1043e-10
	zB0    = 5.707e-6
	zB1    = -2.051e-8
	zC0    = 1.9898e-4
	zC1    = -2.376e-6
	zD     = 1.83e-11
	zE     = -0.765e-8
)

// Density is that of moist air, ρ = p Ma/(Z R T) · [1 − x_v (1 − Mv/Ma)], with compressibility factor Z and the mole
// fraction of vapour x_v = h f p_sv/p. Stated uncertainty 2.2e-5 (relative) between 600 and 1100 hPa and 15 and 27 °C;
// outside see Caveat. It fails for a state that no weather has: beyond 200 to 1200 hPa or −60 to 60 °C.
//
// Source: cipm-2007, equation (1) and appendix A.1.
func (s State) Density() (unit.Density, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	vapour := s.VapourFraction()
	p, t := s.Pressure.SI(), s.Temperature.Kelvin()
	return unit.Density(p * cipmMa / (s.compressibility(vapour) * cipmR * t) * (1 - vapour*(1-cipmMv/cipmMa))), nil
}

// VapourPressure is what water vapour would have at saturation over water, p_sv = exp(A T² + B T + C + D/T) pascals with T
// in kelvins. Source: cipm-2007, appendix A.1.
func VapourPressure(at unit.Temperature) unit.Pressure {
	t := at.Kelvin()
	return unit.Pressure(math.Exp(psvA*t*t + psvB*t + psvC + psvD/t))
}

// VapourFraction is the mole fraction of water vapour, x_v = h f p_sv/p, with the enhancement factor
// f = α + β p + γ t² (t in °C). Source: cipm-2007, appendix A.1.
func (s State) VapourFraction() float64 {
	p, t := s.Pressure.SI(), s.Temperature.Celsius()
	return s.Humidity.SI() * (facA + facB*p + facC*t*t) * VapourPressure(s.Temperature).SI() / p
}

// compressibility is Z of CIPM-2007, appendix A.1: t in °C inside the coefficients, T in kelvins outside.
func (s State) compressibility(vapour float64) float64 {
	p, t := s.Pressure.SI(), s.Temperature.Celsius()
	pt := p / s.Temperature.Kelvin()
	first := zA0 + zA1*t + zA2*t*t + (zB0+zB1*t)*vapour + (zC0+zC1*t)*vapour*vapour
	return 1 - pt*first + pt*pt*(zD+zE*vapour*vapour)
}

// Caveat says that the state lies outside the range for which CIPM-2007 states its uncertainty, or is empty. Below 15 °C
// and above 27 °C the equation goes on smoothly and stays within 0.1 % of the two-gas ideal law between −20 and 45 °C.
func (s State) Caveat() string {
	p, t := s.Pressure.SI(), s.Temperature.Celsius()
	if p >= 600e2 && p <= 1100e2 && t >= 15 && t <= 27 {
		return ""
	}
	return "outside 600 hPa to 1100 hPa and 15 °C to 27 °C, for which CIPM-2007 states its uncertainty"
}

// check refuses a state that is not finite or that no weather has.
func (s State) check() error {
	p, t, h := s.Pressure.SI(), s.Temperature.Celsius(), s.Humidity.SI()
	switch {
	case !(p >= 200e2 && p <= 1200e2):
		return fmt.Errorf("air: pressure %v is not weather; it must lie between 200 hPa and 1200 hPa", s.Pressure)
	case !(t >= -60 && t <= 60):
		return fmt.Errorf("air: temperature %v is not weather; it must lie between −60 °C and 60 °C", s.Temperature)
	case !(h >= 0 && h <= 1):
		return fmt.Errorf("air: humidity %v is no share; it must lie between 0 %% and 100 %%", s.Humidity)
	}
	return nil
}
