package air

import (
	"fmt"

	"hoistbook/kits/unit"
)

// beaufort holds the lowest speed of each force from 1 up, in m/s, at 10 m over open ground. The published bands have
// gaps of 0.1 m/s ("0.3 to 1.5, 1.6 to 3.3"); a speed inside a gap belongs to the lower force.
var beaufort = [...]float64{0.3, 1.6, 3.4, 5.5, 8.0, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5, 32.7}

// Beaufort is the force on the scale from 0 (calm) to 12 (hurricane) of a wind at 10 m over open ground.
// Source: wmo-8, Beaufort scale.
func Beaufort(wind unit.Speed) (int, error) {
	if !(wind >= 0 && wind < 150) {
		return 0, fmt.Errorf("air: no Beaufort force for a wind of %v", wind)
	}
	force := 0
	for force < len(beaufort) && wind.SI() >= beaufort[force] {
		force++
	}
	return force, nil
}
