package doc

import (
	"math"

	"hoistbook/render/page"
)

var (
	dimStroke  = page.Stroke{Width: thin}
	gridStroke = page.Stroke{Width: thin, Ink: page.Grey(0.72)}
	dashed     = []page.MM{2, 1.2}
	dotted     = []page.MM{0.5, 1}
	dashDot    = []page.MM{4, 1, 0.6, 1}
)

// arrow draws the head of an arrow that points from one place at another.
func (d *drawing) arrow(fromX, fromY, x, y page.MM) {
	const long, half = 2.0, 0.55
	angle := math.Atan2(float64(y-fromY), float64(x-fromX))
	sin, cos := math.Sincos(angle)
	at := func(along, across float64) page.Point {
		return page.Point{X: x + page.MM(-along*cos-across*sin), Y: y + page.MM(-along*sin+across*cos)}
	}
	d.add(page.Polygon{Points: []page.Point{{X: x, Y: y}, at(long, half), at(long, -half)}, Fill: page.Black})
}

// heights dimensions a height: a vertical line with arrows between two levels, its text beside it, turned.
func (d *drawing) heights(x, bottom, top page.MM, text string) {
	d.line(x-1.5, top, x+1.5, top, dimStroke)
	d.line(x, bottom, x, top, dimStroke)
	d.arrow(x, bottom, x, top)
	d.arrow(x, top, x, bottom)
	size := page.Pt(8.5)
	for size > leastSize && d.fonts.Width(page.Sans, size, text) > bottom-top-4 {
		size -= 0.25
	}
	d.add(page.Text{X: x - 1, Y: (bottom + top) / 2, Size: size, Align: page.Middle, Turn: 90, Text: text})
}

// across dimensions a width below a level.
func (d *drawing) across(left, right, y page.MM, text string) {
	d.line(left, y-2, left, y+1.5, dimStroke)
	d.line(right, y-2, right, y+1.5, dimStroke)
	d.line(left, y, right, y, dimStroke)
	d.arrow(left, y, right, y)
	d.arrow(right, y, left, y)
	size := page.Pt(8.5)
	w := d.fonts.Width(page.Sans, size, text)
	// A text that is wider than what it dimensions stands beside it.
	if w > right-left-5 {
		d.add(page.Text{X: right + 2, Y: y + 1.1, Size: size, Text: text})
		return
	}
	d.add(page.Rect{Box: page.Box{X: (left+right-w)/2 - 1, Y: y - 1.6, W: w + 2, H: 3.2}, Fill: page.White})
	d.add(page.Text{X: (left + right) / 2, Y: y + 1.1, Size: size, Align: page.Middle, Text: text})
}

// nice is the least of 1, 2, 2.5 and 5 times a power of ten that is not below a number.
func nice(n float64) float64 {
	if !(n > 0) || math.IsInf(n, 0) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(n)))
	for _, m := range []float64{1, 2, 2.5, 5} {
		if m*power >= n*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}
