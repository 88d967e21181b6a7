package doc

import (
	"math"

	"hoistbook/render/page"
)

// smooth is a curve through points without a bend at them, as the function between them has none: a point is a search for an
// equilibrium, and a third of them suffice for a line that the eye takes for the whole. The tangents are those of F. N.
// Fritsch and R. E. Carlson, "Monotone Piecewise Cubic Interpolation", SIAM J. Numer. Anal. 17 (1980) 238 (from memory): where
// the points only fall the curve only falls, and it never leaves the points' own range.
func smooth(points []page.Point, stroke page.Stroke) page.Path {
	tangents := monotone(points)
	path := page.Path{From: points[0], Stroke: stroke}
	for i := range points[1:] {
		from, to := points[i], points[i+1]
		third := (to.X - from.X) / 3
		path.Steps = append(path.Steps, page.Step{To: to, Curve: true,
			A: page.Point{X: from.X + third, Y: from.Y + third*page.MM(tangents[i])}, B: page.Point{X: to.X - third, Y: to.Y - third*page.MM(tangents[i+1])}})
	}
	return path
}

// monotone are the slopes at points whose x only grows.
func monotone(points []page.Point) []float64 {
	n := len(points)
	slopes := make([]float64, n-1)
	for i := range slopes {
		slopes[i] = float64((points[i+1].Y - points[i].Y) / (points[i+1].X - points[i].X))
	}
	tangents := make([]float64, n)
	tangents[0], tangents[n-1] = slopes[0], slopes[n-2]
	for i := 1; i < n-1; i++ {
		if slopes[i-1]*slopes[i] > 0 {
			tangents[i] = (slopes[i-1] + slopes[i]) / 2
		}
	}
	for i, slope := range slopes {
		if slope == 0 {
			tangents[i], tangents[i+1] = 0, 0
			continue
		}
		a, b := tangents[i]/slope, tangents[i+1]/slope
		if r := math.Hypot(a, b); r > 3 {
			tangents[i], tangents[i+1] = 3/r*a*slope, 3/r*b*slope
		}
	}
	return tangents
}
