package unit

import "strings"

// A Dimension is a row of the table below: one kind of physical quantity. Values of one dimension are held in one unit
// (SI), and a text of one dimension can never be read as another.
type Dimension uint8

// Info describes a dimension for people and for generators.
type Info struct {
	Type    string // Go type in this package
	Name    string // in running text, with its article: "a mass"
	Signed  bool   // may be below zero
	Units   []Unit // the first is the unit values are held in
	Example string
	Doc     string // what the held number is, for the generated type
}

// A Unit is one way to write a dimension: value held = number × Mul ÷ Div + Add. Mul and Div are kept apart so that
// "85 g" is exactly the float nearest to 0.085. A logarithmic unit holds 10^(number/10) × Mul ÷ Div instead.
type Unit struct {
	Symbol   string
	Mul, Div float64
	Add      float64
	Log      bool
	Prefix   bool // the symbol stands before the number ("AWG 24")
}

// The dimensions, in the order of the table.
const (
	DimMass Dimension = iota
	DimLength
	DimArea
	DimVolume
	DimDuration
	DimVoltage
	DimCurrent
	DimCharge
	DimEnergy
	DimPower
	DimDecibel
	DimGain
	DimLevel
	DimFrequency
	DimResistance
	DimTemperature
	DimPressure
	DimSpeed
	DimForce
	DimLinearMass
	DimAngle
	DimRatio
	DimLoss
	DimGauge
	DimDensity
	DimPowerDensity
	DimCount
	dimensions // how many there are
)

// Factors: NIST SP 811 (2008) appendix B.8; the exact ones are exact there.
const (
	inch      = 0.0254
	foot      = 0.3048
	mile      = 1609.344
	pound     = 0.45359237
	ounce     = pound / 16
	gravity   = 9.80665 // standard gravity, m/s², for kgf and lbf (CGPM 1901)
	inHg      = 3386.389
	psi       = pound * gravity / (inch * inch)
	dBdOverdB = 2.15 // gain of a half-wave dipole over isotropic, dB
)

var table = [dimensions]Info{
	DimMass:     {"Mass", "a mass", false, []Unit{u("kg", 1), frac("g", 1000), u("oz", ounce), u("lb", pound)}, "85 g", "kilograms"},
	DimLength:   {"Length", "a length", false, []Unit{u("m", 1), frac("mm", 1000), frac("cm", 100), u("km", 1000), frac("um", 1e6), u("in", inch), u("ft", foot), u("mi", mile)}, "45 m", "metres"},
	DimArea:     {"Area", "an area", false, []Unit{u("m2", 1), u("ft2", foot*foot)}, "2.5 m2", "square metres"},
	DimVolume:   {"Volume", "a volume", false, []Unit{u("m3", 1), frac("L", 1000), u("ft3", foot*foot*foot)}, "2.2 m3", "cubic metres"},
	DimDuration: {"Duration", "a duration", false, []Unit{u("s", 1), u("min", 60), u("h", 3600), u("d", 86400)}, "12 h", "seconds"},
	DimVoltage:  {"Voltage", "a voltage", true, []Unit{u("V", 1), frac("mV", 1000)}, "5.0 V", "volts"},
	DimCurrent:  {"Current", "a current", false, []Unit{u("A", 1), frac("mA", 1000), frac("uA", 1e6)}, "750 mA", "amperes"},
	DimCharge:   {"Charge", "a battery capacity", false, []Unit{u("C", 1), u("Ah", 3600), u("mAh", 3.6)}, "5.2 Ah", "coulombs"},
	DimEnergy:   {"Energy", "an energy", false, []Unit{u("J", 1), u("Wh", 3600)}, "46 Wh", "joules"},
	DimPower: {"Power", "a power", false, []Unit{u("W", 1), frac("mW", 1000), {Symbol: "dBm", Mul: 1, Div: 1000, Log: true}},
		"1 W", "watts"},
	DimDecibel: {"Decibel", "a ratio in decibels", true, []Unit{u("dB", 1)}, "60 dB", "decibels of power ratio"},
	DimGain: {"Gain", "an antenna gain", true, []Unit{u("dBi", 1), {Symbol: "dBd", Mul: 1, Div: 1, Add: dBdOverdB}},
		"2.15 dBi", "decibels over an isotropic radiator"},
	DimLevel:      {"Level", "a power level", true, []Unit{u("dBm", 1)}, "-118 dBm", "decibels over one milliwatt"},
	DimFrequency:  {"Frequency", "a frequency", false, []Unit{u("Hz", 1), u("kHz", 1e3), u("MHz", 1e6), u("GHz", 1e9)}, "145.250 MHz", "hertz"},
	DimResistance: {"Resistance", "a resistance", false, []Unit{u("ohm", 1), frac("mohm", 1000)}, "0.2 ohm", "ohms"},
	DimTemperature: {"Temperature", "a temperature", true, []Unit{u("K", 1), {Symbol: "degC", Mul: 1, Div: 1, Add: 273.15},
		{Symbol: "degF", Mul: 5, Div: 9, Add: 459.67 * 5 / 9}}, "28 degC", "kelvins"},
	DimPressure: {"Pressure", "a pressure", false, []Unit{u("Pa", 1), u("hPa", 100), u("kPa", 1000), u("bar", 1e5), u("psi", psi), u("inHg", inHg)},
		"1005 hPa", "pascals"},
	DimSpeed:      {"Speed", "a speed", false, []Unit{u("m/s", 1), {Symbol: "km/h", Mul: 1, Div: 3.6}, {Symbol: "kn", Mul: 1852, Div: 3600}, u("mph", 0.44704), u("ft/s", foot)}, "5 m/s", "metres per second"},
	DimForce:      {"Force", "a force", false, []Unit{u("N", 1), u("lbf", pound*gravity), u("kgf", gravity)}, "950 N", "newtons"},
	DimLinearMass: {"LinearMass", "a mass per length", false, []Unit{u("kg/m", 1), frac("g/m", 1000), u("oz/ft", ounce/foot), u("lb/100ft", pound/(100*foot))}, "1.1 g/m", "kilograms per metre"},
	DimAngle:      {"Angle", "an angle", false, []Unit{u("rad", 1), {Symbol: "deg", Mul: radian, Div: 1}}, "40 deg", "radians"},
	DimRatio:      {"Ratio", "a share", false, []Unit{u("", 1), frac("%", 100)}, "20 %", "parts of one"},
	DimLoss:       {"Loss", "a loss per day", false, []Unit{frac("%/d", 100)}, "6 %/d", "parts of one lost in each day, compounding"},
	DimGauge:      {"Gauge", "a wire gauge", false, []Unit{{Symbol: "AWG", Mul: 1, Div: 1, Prefix: true}}, "AWG 24", "American wire gauge numbers (ASTM B258)"},
	DimDensity:    {"Density", "a density", false, []Unit{u("kg/m3", 1)}, "1.2 kg/m3", "kilograms per cubic metre"},
	DimPowerDensity: {"PowerDensity", "a power density", false, []Unit{u("W/m2", 1), u("mW/cm2", 10)}, "2 W/m2",
		"watts per square metre"},
	DimCount: {"Count", "a count", false, []Unit{u("", 1)}, "3", "how many"},
}

const radian = 3.14159265358979323846 / 180

func u(symbol string, scale float64) Unit { return Unit{Symbol: symbol, Mul: scale, Div: 1} }

func frac(symbol string, parts float64) Unit { return Unit{Symbol: symbol, Mul: 1, Div: parts} }

// Dimensions lists all dimensions in the order of the table.
func Dimensions() []Dimension {
	all := make([]Dimension, dimensions)
	for i := range all {
		all[i] = Dimension(i)
	}
	return all
}

// Info returns the dimension's row. It panics for a Dimension that is none of the constants.
func (d Dimension) Info() Info { return table[d] }

// String names the dimension without its article ("mass").
func (d Dimension) String() string {
	_, noun, _ := strings.Cut(table[d].Name, " ")
	return noun
}

// Symbols lists the units that a text of this dimension may use, as people write them.
func (d Dimension) Symbols() []string {
	var all []string
	for _, unit := range table[d].Units {
		if unit.Symbol != "" {
			all = append(all, unit.Symbol)
		}
	}
	return all
}

// unit finds a unit of this dimension by its symbol.
func (d Dimension) unit(symbol string) (Unit, bool) {
	for _, unit := range table[d].Units {
		if unit.Symbol == symbol {
			return unit, true
		}
	}
	return Unit{}, false
}

// Having lists the dimensions that can be written with this unit symbol.
func Having(symbol string) []Dimension {
	var found []Dimension
	for _, d := range Dimensions() {
		if _, ok := d.unit(symbol); ok && symbol != "" {
			found = append(found, d)
		}
	}
	return found
}
