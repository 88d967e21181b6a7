package unit

import "math"

// Celsius makes a Temperature of degrees Celsius.
func Celsius(t float64) Temperature { return Temperature{t + 273.15} }

// Kelvin makes a Temperature of kelvins.
func Kelvin(t float64) Temperature { return Temperature{t} }

// Celsius returns degrees Celsius.
func (v Temperature) Celsius() float64 { return v.held - 273.15 }

// Kelvin returns kelvins.
func (v Temperature) Kelvin() float64 { return v.held }

// DBm makes a Level of decibels over one milliwatt.
func DBm(level float64) Level { return Level{level} }

// DBm returns decibels over one milliwatt.
func (v Level) DBm() float64 { return v.held }

// Plus raises the level by a gain, or lowers it by a negative one.
func (v Level) Plus(gain Decibel) Level { return Level{v.held + float64(gain)} }

// Over returns by how much the level exceeds another.
func (v Level) Over(other Level) Decibel { return Decibel(v.held - other.held) }

// Level expresses a power in decibels over one milliwatt; no power at all is −Inf.
func (v Power) Level() Level { return Level{10 * math.Log10(float64(v)*1000)} }

// Weight is the force of gravity on a mass.
func (v Mass) Weight() Force { return Force(float64(v) * gravity) }

// Mass is the mass that weighs this force.
func (v Force) Mass() Mass { return Mass(float64(v) / gravity) }

// Over is the energy that the power delivers in a time.
func (v Power) Over(t Duration) Energy { return Energy(float64(v) * float64(t)) }

// Degrees returns the angle in degrees.
func (v Angle) Degrees() float64 { return float64(v) / radian }

// Hours returns the duration in hours.
func (v Duration) Hours() float64 { return float64(v) / 3600 }

// Days returns the duration in days.
func (v Duration) Days() float64 { return float64(v) / 86400 }
