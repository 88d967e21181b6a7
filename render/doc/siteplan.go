package doc

import (
	"math"

	"hoistbook/render/page"
)

// A ring is a distance around the anchor.
type ring struct {
	metres float64
	text   string
	stroke page.Stroke
}

// plan draws from above, to scale, how far around the anchor things reach. It is left out where nothing of it is known.
func (s *sheet) plan() page.Together {
	var rings []ring
	add := func(id, text string, stroke page.Stroke) {
		if v := s.lookup(id); v.Known() && v.Quantity.SI > 0 {
			rings = append(rings, ring{v.Quantity.SI, s.say(text, "distance", s.value(v)), stroke})
		}
	}
	add("station.power_line_needed_m", "plan.power-line", page.Stroke{Width: thick})
	add("tether.greatest_height_m", "plan.reach", page.Stroke{Width: plain})
	add("tether.drift_m", "plan.drift", page.Stroke{Width: plain, Dash: dashed})
	if len(rings) == 0 {
		return nil
	}
	largest := 0.0
	for _, r := range rings {
		largest = max(largest, r.metres)
	}
	const radius = page.MM(48)
	d := s.drawing(s.flow.Frame().W, 2*radius+8)
	one := scaleOf(largest * 1000 / float64(radius))
	perMetre := page.MM(1000 / one)
	d.h = 2*page.MM(largest)*perMetre + 8
	x, y := page.MM(largest)*perMetre+4, d.h/2
	for i, r := range rings {
		on := page.MM(r.metres) * perMetre
		d.add(page.Circle{X: x, Y: y, R: on, Stroke: r.stroke})
		// Each ring is named from its own place on its right flank, so that the leaders do not cross.
		angle := math.Pi / 180 * (-38 + 38*float64(i))
		px, py := x+on*page.MM(math.Cos(angle)), y+on*page.MM(math.Sin(angle))
		left := 2*x + 10
		d.line(px, py, left-2, py, dimStroke)
		d.add(page.Circle{X: px, Y: py, R: 0.7, Fill: page.Black})
		text := label{size: 9.5}
		d.put(r.text, text, left, py-d.height(r.text, text, d.w-left)/2, d.w-left)
	}
	d.add(page.Rect{Box: page.Box{X: x - 1.4, Y: y - 1.4, W: 2.8, H: 2.8}, Fill: page.Black})
	return page.Together{page.Heading{Level: 1, Text: s.say("plan.title")}, d.figure(s.say("plan.caption", "scale", digits(int(one))))}
}
