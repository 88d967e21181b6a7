package doc

import (
	"math"

	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// A scene is the drawing: metres of the world become millimetres of paper.
type scene struct {
	*drawing
	x0, ground page.MM // where the anchor stands
	perMetre   page.MM
}

func (v scene) x(l unit.Length) page.MM { return v.x0 + page.MM(l.SI())*v.perMetre }
func (v scene) y(l unit.Length) page.MM { return v.ground - page.MM(l.SI())*v.perMetre }

// The margins of the scene, for what is written beside the drawing.
const (
	sceneLeft, sceneRight = page.MM(24), page.MM(11)
	sceneTop, sceneBelow  = page.MM(6), page.MM(19)
)

func (s *sheet) scene(stances []stance, w, h page.MM) page.Figure {
	d := s.drawing(w, h)
	radius := unit.Length(0)
	if v := s.lookup("gas.diameter_m"); v.Known() {
		radius = unit.Length(v.Quantity.SI / 2)
	}
	wide, high := unit.Length(0), unit.Length(0)
	for _, st := range stances {
		wide, high = max(wide, st.Drift), max(high, st.Height)
	}
	room := min(float64(d.w-sceneLeft-sceneRight)/(wide+2*radius).SI(), float64(d.h-sceneTop-sceneBelow)/(high+2*radius).SI())
	one := scaleOf(1000 / room)
	v := scene{d, sceneLeft, d.h - sceneBelow, page.MM(1000 / one)}
	v.x0 += page.MM(radius.SI()) * v.perMetre
	d.h -= v.y(high+2*radius) - sceneTop // no taller than it needs to be
	v.ground = d.h - sceneBelow

	s.terrain(v)
	for i, st := range stances {
		v.balloon(st, radius, digits(i+1))
	}
	s.dimensions(v, stances)
	return d.figure(s.say("elevation.caption", "scale", digits(int(one)), "height", s.text(s.person())))
}

// scaleOf is the next scale, 1 to so many, that people have rulers for.
func scaleOf(n float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(n)))
	for _, m := range []float64{1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5, 10} {
		if one := math.Round(m * power); one >= n {
			return one
		}
	}
	return n
}

// terrain draws the ground, the anchor and a person, to scale.
func (s *sheet) terrain(v scene) {
	v.line(sceneLeft-16, v.ground, v.w-2, v.ground, page.Stroke{Width: plain})
	for x := sceneLeft - 15; x < v.w-4; x += 3 {
		v.line(x+1.5, v.ground, x, v.ground+1.5, page.Stroke{Width: thin})
	}
	v.add(page.Rect{Box: page.Box{X: v.x0 - 1.6, Y: v.ground - 1.6, W: 3.2, H: 1.6}, Fill: page.Black})
	v.person(sceneLeft-5, s.person().SI)
}

// person is the height of somebody, a round number in the reader's units.
func (s *sheet) person() unit.Quantity {
	if s.System == unit.US {
		return unit.Length(6 * 0.3048).Quantity()
	}
	return unit.Length(1.75).Quantity()
}

// person draws somebody of this height in metres.
func (v scene) person(x page.MM, tall float64) {
	h := page.MM(tall) * v.perMetre
	head := h / 14
	st := page.Stroke{Width: max(thin, h/22), Round: true}
	v.add(page.Circle{X: x, Y: v.ground - h + head, R: head, Fill: page.Black})
	v.line(x, v.ground-h+2*head, x, v.ground-h*0.45, st)
	v.line(x, v.ground-h*0.45, x-h*0.12, v.ground, st)
	v.line(x, v.ground-h*0.45, x+h*0.12, v.ground, st)
	v.line(x, v.ground-h*0.75, x-h*0.15, v.ground-h*0.5, st)
	v.line(x, v.ground-h*0.75, x+h*0.15, v.ground-h*0.5, st)
}

// balloon draws the line, the payload and the balloon of one stance, with its number.
func (v scene) balloon(st stance, radius unit.Length, number string) {
	points := make([]page.Point, len(st.Line))
	for i, p := range st.Line {
		points[i] = page.Point{X: v.x(p.Drift), Y: v.y(p.Height)}
	}
	v.add(page.Polygon{Points: points, Open: true, Stroke: st.stroke})
	top, before := st.Line[len(st.Line)-1], st.Line[len(st.Line)-2]
	x, y := v.x(top.Drift), v.y(top.Height)
	sin, cos := direction(before, top)
	r := page.MM(radius.SI()) * v.perMetre
	around := page.Stroke{Width: plain, Dash: st.stroke.Dash}
	cx, cy := x+r*page.MM(sin), y-r*page.MM(cos)
	v.add(page.Circle{X: cx, Y: cy, R: r, Fill: page.White, Stroke: around})
	v.add(page.Rect{Box: page.Box{X: x - 1, Y: y - 0.4, W: 2, H: 1.6}, Fill: page.Black})
	size := page.Pt(8)
	if r < 2.2 {
		cy -= r + 2
	}
	v.add(page.Text{X: cx, Y: cy + size.MM()*0.36, Face: page.Bold, Size: size, Align: page.Middle, Text: number})
}

// direction is where the line points, as the sine and cosine of its angle from the vertical.
func direction(from, to tether.Point) (sin, cos float64) {
	dx, dz := (to.Drift - from.Drift).SI(), (to.Height - from.Height).SI()
	long := math.Hypot(dx, dz)
	if long == 0 {
		return 0, 1
	}
	return dx / long, dz / long
}

// dimensions writes the numbers that decide into the scene.
func (s *sheet) dimensions(v scene, stances []stance) {
	calm := stances[0]
	v.heights(6, v.ground, v.y(calm.Height), s.say("elevation.calm", "height", s.text(calm.Height.Quantity())))
	v.line(6, v.y(calm.Height), v.x(calm.Drift), v.y(calm.Height), gridStroke)
	if lowest := s.lookup("station.lowest_height_m"); lowest.Known() {
		y := v.y(unit.Length(lowest.Quantity.SI))
		v.line(8, y, v.w-2, y, page.Stroke{Width: thin, Dash: dashDot})
		v.add(page.Text{X: v.x(calm.Drift) + 1.5, Y: y - 1, Size: 8, Text: s.say("elevation.lowest", "height", s.value(lowest))})
	}
	for _, st := range stances[1:] {
		if st.name != s.say("stance.design") {
			continue
		}
		x := v.w - 6
		v.heights(x, v.ground, v.y(st.Height), s.say("elevation.design", "height", s.text(st.Height.Quantity())))
		v.line(v.x(st.Drift), v.y(st.Height), x, v.y(st.Height), gridStroke)
		v.across(v.x(0), v.x(st.Drift), v.ground+6, s.say("elevation.drift", "drift", s.text(st.Drift.Quantity())))
		s.lean(v, st)
	}
	s.scaleBar(v)
}

// lean draws the angle of the straight line from anchor to balloon.
func (s *sheet) lean(v scene, st stance) {
	v.line(v.x(0), v.ground, v.x(st.Drift), v.y(st.Height), page.Stroke{Width: thin, Dash: []page.MM{1, 1}})
	r := min(v.y(0)-v.y(st.Height), 60) * 0.45
	const pieces = 16
	arc := make([]page.Point, pieces+1)
	for i := range arc {
		sin, cos := math.Sincos(st.Lean.SI() * float64(i) / pieces)
		arc[i] = page.Point{X: v.x(0) + r*page.MM(sin), Y: v.ground - r*page.MM(cos)}
	}
	v.add(page.Polygon{Points: arc, Open: true, Stroke: dimStroke})
	text := s.text(st.Lean.Quantity())
	sin, cos := math.Sincos(st.Lean.SI() / 2)
	x, y := v.x(0)+(r+4)*page.MM(sin), v.ground-(r+4)*page.MM(cos)
	w := s.Fonts.Width(page.Sans, 8.5, text)
	v.add(page.Rect{Box: page.Box{X: x - w/2 - 0.5, Y: y - 2.6, W: w + 1, H: 3.4}, Fill: page.White}, page.Text{X: x, Y: y, Size: 8.5, Align: page.Middle, Text: text})
}

// scaleBar draws a bar of a round length in the reader's units.
func (s *sheet) scaleBar(v scene) {
	metre, symbol := 1.0, "m"
	if s.System == unit.US {
		metre, symbol = 0.3048, "ft"
	}
	length := nice(25 / float64(v.perMetre) / metre) // about 25 mm of paper
	w := page.MM(length*metre) * v.perMetre
	x, y := v.x0, v.ground+12
	for i := range 2 {
		fill := page.Black
		if i == 1 {
			fill = page.White
		}
		v.add(page.Rect{Box: page.Box{X: x + w/2*page.MM(i), Y: y, W: w / 2, H: 1.2}, Fill: fill, Stroke: page.Stroke{Width: thin}})
	}
	v.add(page.Text{X: x, Y: y + 4.4, Size: 8, Align: page.Middle, Text: "0"},
		page.Text{X: x + w, Y: y + 4.4, Size: 8, Align: page.Middle, Text: s.Words.Number(unit.Figures(length, 3)) + " " + symbol})
}
