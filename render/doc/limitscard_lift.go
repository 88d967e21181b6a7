package doc

import (
	"math"

	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// liftByWind plots the neck lift that is needed over the wind.
func (s *sheet) liftByWind() {
	s.heading(1, s.say("card.lift"))
	_, speed, mass := s.scales()
	greatest := 0.0
	for _, id := range []string{"wind.greatest_m_s", "station.wind_m_s"} {
		if v := s.lookup(id); v.Known() {
			greatest = max(greatest, v.Quantity.SI)
		}
	}
	if greatest == 0 {
		s.paragraph(s.say("card.unknown", "why", s.lookup("wind.greatest_m_s").Unknown))
		return
	}
	longest := 1.25 * speed.of(greatest)
	step := nice(longest / 9)
	needed := curve{name: s.say("card.needed"), wide: true}
	var lifts []float64
	reason := ""
	table := page.Table{Columns: []page.Column{{Title: s.say("card.wind-column"), Whole: true}, {Title: s.say("limit.neck"), Align: page.Right, Whole: true}, {Title: s.say("card.binds"), Weight: 1}}}
	const between = 3
	for i := 0; step*float64(i)/between <= longest; i++ {
		wind := speed.held(step * float64(i) / between)
		need, why := s.tried().lift(unit.Speed(wind.SI))
		kg, text, binds := mass.of(need.NeckLift.SI()), s.text(need.NeckLift.Quantity()), s.Words.Name("criterion", string(need.Binds))
		if why != "" {
			kg, text, binds, reason = math.NaN(), s.say("value.not-shown"), "–", why
		}
		needed.points = append(needed.points, [2]float64{speed.of(wind.SI), kg})
		lifts = append(lifts, kg)
		if i > 0 && i%between == 0 {
			table.Rows = append(table.Rows, page.Row{Cells: page.Cells(s.text(wind), text, binds)})
		}
	}
	if len(runs(needed.points)) == 0 {
		s.paragraph(s.say("card.unknown", "why", reason))
		return
	}
	c := chart{w: s.flow.Frame().W, h: 72, curves: []curve{needed}}
	if v := s.lookup("lift.neck_kg"); v.Known() {
		level := mass.of(v.Quantity.SI)
		lifts = append(lifts, level)
		c.curves = append(c.curves, curve{name: s.say("fill.design", "lift", s.value(v)), dash: dashed, points: [][2]float64{{0, level}, {longest, level}}})
	}
	c.x = axisOver(s.say("card.wind-axis", "unit", speed.text, "height", s.fact("station.wind_measured_at_m")), true, 6, longest)
	c.y = axisOver(s.say("card.lift-axis", "unit", mass.text), true, 5, lifts...)
	wind, lift := s.lookup("station.wind_m_s"), s.lookup("lift.neck_needed_kg")
	if wind.Known() && lift.Known() {
		c.marks = []mark{{s.say("card.design-wind"), speed.of(wind.Quantity.SI), mass.of(lift.Quantity.SI)}}
	}
	s.add(s.plot(c, s.say("card.lift-caption", "line", s.fact("station.tether_out_m"))), table)
}
