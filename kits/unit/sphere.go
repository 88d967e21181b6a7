package unit

import "math"

// Ball is the volume of a sphere of this diameter, V = π d³/6.
func (v Length) Ball() Volume { return Volume(math.Pi / 6 * float64(v) * float64(v) * float64(v)) }

// Disc is the area of a circle of this diameter, A = π d²/4: what a sphere of this diameter shows to the wind.
func (v Length) Disc() Area { return Area(math.Pi / 4 * float64(v) * float64(v)) }

// Skin is the surface of a sphere of this diameter, A = π d².
func (v Length) Skin() Area { return Area(math.Pi * float64(v) * float64(v)) }

// Diameter is the diameter of the sphere that holds this volume, d = (6 V/π)^⅓.
func (v Volume) Diameter() Length { return Length(math.Cbrt(6 / math.Pi * float64(v))) }
