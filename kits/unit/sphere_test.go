package unit

import (
	"math"
	"testing"
)

// Spheres by diameter, worked by hand from V = π d³/6; 6 ft and 115 ft³ are the two sizes that 14 CFR 101.1 names.
func TestSphere(t *testing.T) {
	for _, c := range []struct {
		name     string
		diameter Length
		volume   Volume
	}{
		{"1.5 m", 1.5, 1.7671},
		{"6 ft", 1.8288, 3.2025},
		{"115 ft3", 1.839, 3.2564},
		{"2 m", 2, 4.1888},
		{"3 m", 3, 14.1372},
	} {
		if got := c.diameter.Ball(); math.Abs(float64(got/c.volume)-1) > 3e-4 {
			t.Errorf("%s: volume %v, want %v", c.name, float64(got), float64(c.volume))
		}
		if got := c.volume.Diameter(); math.Abs(float64(got/c.diameter)-1) > 1e-4 {
			t.Errorf("%s: diameter %v, want %v", c.name, float64(got), float64(c.diameter))
		}
	}
	if got := Length(2).Disc(); math.Abs(float64(got)-math.Pi) > 1e-15 {
		t.Errorf("disc of a 2 m sphere %v, want π", float64(got))
	}
	if got := Length(2).Skin(); math.Abs(float64(got)-4*math.Pi) > 1e-15 {
		t.Errorf("skin of a 2 m sphere %v, want 4π", float64(got))
	}
}
