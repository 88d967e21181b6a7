package doc

import "hoistbook/render/page"

// A ring is a distance around the anchor.
type ring struct {
	metres float64
	text   string
	stroke page.Stroke
}

// plan draws from above, to scale, how far around the anchor things reach. It is left out where nothing of it is known.
func (s *sheet) plan(w page.MM) page.Together {
	var rings []ring
	add := func(id, text string, stroke page.Stroke) {
		if v := s.lookup(id); v.Known() && v.Quantity.SI > 0 {
			rings = append(rings, ring{v.Quantity.SI, s.say(text, "distance", s.least(v)), stroke})
		}
	}
	add("station.power_line_needed_m", "plan.power-line", page.Stroke{Width: thick})
	add("tether.greatest_height_m", "plan.reach", page.Stroke{Width: plain})
	add("tether.drift_greatest_m", "plan.drift", page.Stroke{Width: plain, Dash: dashed})
	if len(rings) == 0 {
		return nil
	}
	largest := 0.0
	for _, r := range rings {
		largest = max(largest, r.metres)
	}
	d := s.drawing(w, 0)
	one := scaleOf(largest * 1000 / float64(w/2-2))
	perMetre := page.MM(1000 / one)
	radius := page.MM(largest) * perMetre
	x, y := d.w/2, radius+2
	text, key := label{size: 8.5}, 2*radius+7
	for _, r := range rings {
		d.add(page.Circle{X: x, Y: y, R: page.MM(r.metres) * perMetre, Stroke: r.stroke})
		// The key below names each ring by its stroke: between rings there is no room for words.
		const sample, gap = page.MM(9), page.MM(2)
		d.line(thick, key+2, sample, key+2, r.stroke)
		key = d.put(r.text, text, sample+gap, key, d.w-sample-gap) + 1.5
	}
	d.h = key
	d.add(page.Rect{Box: page.Box{X: x - 1.4, Y: y - 1.4, W: 2.8, H: 2.8}, Fill: page.Black})
	return page.Together{page.Heading{Level: 1, Text: s.say("plan.title")}, d.figure(s.say("plan.caption", "scale", digits(int(one))))}
}
