package doc

import (
	"math"

	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// liftByWind plots the neck lift that is needed over the wind.
func (s *sheet) liftByWind(width page.MM) []page.Block {
	_, speed, mass := s.scales()
	heading := s.say("card.lift", "unit", mass.text)
	greatest := 0.0
	for _, id := range []string{"wind.greatest_m_s", "station.wind_m_s"} {
		if v := s.lookup(id); v.Known() {
			greatest = max(greatest, v.Quantity.SI)
		}
	}
	if greatest == 0 {
		return s.unknown(heading, s.lookup("wind.greatest_m_s").Unknown)
	}
	longest := 1.25 * speed.of(greatest)
	step := nice(longest / 7)
	needed := curve{name: s.say("card.needed"), wide: true}
	var lifts []float64
	reason, largest := "", s.lookup("gas.largest_m3")
	table := page.Table{Columns: []page.Column{{Title: s.say("card.wind-column", "unit", speed.text), Weight: 1}}, Rows: []page.Row{{Cells: page.Cells(s.say("limit.neck"))}, {Cells: page.Cells(s.say("card.binds"))}}}
	const between = 2
	for i := 0; step*float64(i)/between <= longest; i++ {
		wind := speed.held(step * float64(i) / between)
		need, why := s.tried().lift(unit.Speed(wind.SI))
		kg, text, binds := mass.of(need.NeckLift.SI()), s.Words.Number(need.NeckLift.Quantity().LimitFigures(unit.AtLeast, mass.symbol)), s.Words.Name("criterion", string(need.Binds))
		if why != "" {
			kg, text, binds, reason = math.NaN(), s.say("value.not-shown"), "–", why
		} else if largest.Known() && need.Volume.SI() > largest.Quantity.SI {
			kg, text, binds = math.NaN(), "–", s.say("card.overfull") // nobody fills what the envelope does not hold
		}
		needed.points = append(needed.points, [2]float64{speed.of(wind.SI), kg})
		lifts = append(lifts, kg)
		if i > 0 && i%between == 0 {
			table.Columns = append(table.Columns, page.Column{Title: s.plain(speed.of(wind.SI)), Align: page.Right})
			table.Rows[0].Cells = append(table.Rows[0].Cells, page.Cells(text)...)
			table.Rows[1].Cells = reaching(table.Rows[1].Cells, binds)
		}
	}
	if len(runs(needed.points)) == 0 {
		return s.unknown(heading, reason)
	}
	c := chart{w: width, h: cardChart, curves: []curve{needed}}
	if v := s.lookup("lift.neck_kg"); v.Known() {
		level := mass.of(v.Quantity.SI)
		lifts = append(lifts, level)
		c.curves = append(c.curves, curve{name: s.say("fill.design", "lift", s.least(v)), dash: dashed, points: [][2]float64{{0, level}, {longest, level}}})
	}
	c.x = axisOver(s.say("card.wind-axis", "unit", speed.text, "height", s.fact("station.wind_measured_at_m")), true, 6, longest)
	c.y = axisOver(s.say("card.lift-axis", "unit", mass.text), true, 5, lifts...)
	wind, lift := s.lookup("station.wind_m_s"), s.lookup("lift.neck_needed_kg")
	if wind.Known() && lift.Known() {
		c.marks = []mark{{s.say("card.design-wind"), speed.of(wind.Quantity.SI), mass.of(lift.Quantity.SI)}}
	}
	return []page.Block{page.Heading{Level: 1, Text: heading}, s.plot(c, s.say("card.lift-caption", "line", s.fact("station.tether_out_m"))), table}
}

// reaching adds a cell to a row, or lets the last one reach further if it says the same.
func reaching(row []page.Cell, text string) []page.Cell {
	if n := len(row) - 1; n > 0 && row[n].Words.String() == text {
		row[n].Span++
		return row
	}
	return append(row, page.Cell{Words: page.Plain(text), Span: 1})
}
