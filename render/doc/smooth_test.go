package doc

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/render/page"
)

// at is a cubic Bézier curve's y where its parameter is t (de Casteljau).
func at(from page.Point, s page.Step, t float64) float64 {
	mix := func(a, b page.MM) page.MM { return a + page.MM(t)*(b-a) }
	y := [3]page.MM{mix(from.Y, s.A.Y), mix(s.A.Y, s.B.Y), mix(s.B.Y, s.To.Y)}
	return float64(mix(mix(y[0], y[1]), mix(y[1], y[2])))
}

// Between two points the curve never leaves what lies between them, whatever the points are.
func TestSmoothStaysBetweenItsPoints(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		heights := rapid.SliceOfN(rapid.Float64Range(-50, 50), 2, 12).Draw(r, "heights")
		points := make([]page.Point, len(heights))
		x := page.MM(0)
		for i, y := range heights {
			points[i] = page.Point{X: x, Y: page.MM(y)}
			x += page.MM(rapid.Float64Range(0.1, 30).Draw(r, "step"))
		}
		path := smooth(points, page.Stroke{})
		from := path.From
		for i, s := range path.Steps {
			low, high := min(float64(from.Y), float64(s.To.Y)), max(float64(from.Y), float64(s.To.Y))
			for k := range 21 {
				if y := at(from, s, float64(k)/20); y < low-1e-9 || y > high+1e-9 {
					r.Fatalf("stretch %d from %v to %v reaches %g", i, from, s.To, y)
				}
			}
			from = s.To
		}
	})
}

// Through seven points of a curve like that of the limits card it stays within a third of a millimetre of it, the width of its own stroke.
func TestSmoothIsNearTheCurve(t *testing.T) {
	curve := func(x float64) float64 { return 20 * math.Pow(x, -0.15) } // the wind profile: where wind falls by a power of height
	var points []page.Point
	for _, x := range []float64{3, 6, 12, 24, 36, 48, 60, 72} {
		points = append(points, page.Point{X: page.MM(x), Y: page.MM(curve(x))})
	}
	path := smooth(points, page.Stroke{})
	from := path.From
	for _, s := range path.Steps {
		for k := range 21 {
			u := float64(k) / 20
			x := float64(from.X) + u*float64(s.To.X-from.X) // thirds: x is linear in the parameter
			if y := at(from, s, u); math.Abs(y-curve(x)) > 0.3 {
				t.Errorf("at %g: %g, the curve is at %g", x, y, curve(x))
			}
		}
		from = s.To
	}
}
