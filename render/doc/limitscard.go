package doc

import (
	"math"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

var limitsCard = Document{Name: "limits-card", title: "card.title", field: true, write: (*sheet).card}

// card is for the pocket of the launch leader: how much wind at which line and fill, and how much lift for which wind.
func (s *sheet) card() {
	s.add(s.limits())
	s.windByLine()
	s.liftByWind()
}

// scale turns values held in SI into the numbers of the reader's unit.
type scale struct {
	symbol string // as unit knows it
	text   string // as it is printed
	dim    unit.Dimension
}

func (c scale) of(si float64) float64 { return unit.Quantity{SI: si, Dim: c.dim}.In(c.symbol) }

func (s *sheet) scales() (length, speed, mass scale) {
	if s.System == unit.US {
		return scale{"ft", "ft", unit.DimLength}, scale{"mph", "mph", unit.DimSpeed}, scale{"lb", "lb", unit.DimMass}
	}
	return scale{"m", "m", unit.DimLength}, scale{"m/s", "m/s", unit.DimSpeed}, scale{"kg", "kg", unit.DimMass}
}

// windByLine plots the greatest wind over the line paid out, for some neck lifts.
func (s *sheet) windByLine() {
	s.heading(1, s.say("card.wind"))
	out, most := s.lookup("station.tether_out_m"), s.lookup("tether.length_m")
	if !out.Known() {
		s.paragraph(s.say("card.unknown", "why", out.Unknown))
		return
	}
	longest := out.Quantity.SI
	if most.Known() {
		longest = max(longest, most.Quantity.SI)
	}
	length, speed, _ := s.scales()
	c := chart{w: s.flow.Frame().W, h: 82}
	var winds []float64
	table := page.Table{Columns: []page.Column{{Title: s.say("limit.line"), Whole: true}}}
	const steps = 6
	for i := range steps {
		table.Rows = append(table.Rows, page.Row{Cells: page.Cells(s.length(longest * float64(i+1) / steps))})
	}
	reason := ""
	for k, fill := range s.fills() {
		line := curve{name: fill.name, dash: [][]page.MM{nil, dashed, dashDot, dotted}[k%4], wide: fill.design}
		const points = 24
		for i := range points {
			at := longest * float64(i+1) / points
			limit, why := s.Facts.GreatestWind(kits.Trial{Out: unit.Length(at), Neck: fill.neck, AnyHeight: true})
			wind := speed.of(limit.Wind.SI())
			if why != "" {
				wind, reason = math.NaN(), why
			}
			line.points = append(line.points, [2]float64{length.of(at), wind})
			winds = append(winds, wind)
			if (i+1)%(points/steps) == 0 {
				cell := s.say("value.not-shown")
				if why == "" {
					cell = s.text(limit.Wind.Quantity())
				}
				row := &table.Rows[(i+1)*steps/points-1]
				row.Cells = append(row.Cells, page.Cells(cell)...)
			}
		}
		c.curves = append(c.curves, line)
		table.Columns = append(table.Columns, page.Column{Title: fill.name, Align: page.Right, Weight: 1})
	}
	drawn := 0
	for _, k := range c.curves {
		drawn += len(runs(k.points))
	}
	if drawn == 0 {
		s.paragraph(s.say("card.unknown", "why", reason))
		return
	}
	c.x = axisOver(s.say("card.line-axis", "unit", length.text), true, 6, length.of(longest))
	c.y = axisOver(s.say("card.wind-axis", "unit", speed.text, "height", s.fact("station.wind_measured_at_m")), true, 5, winds...)
	if design := s.lookup("wind.greatest_m_s"); design.Known() {
		c.marks = []mark{{s.say("card.design"), length.of(out.Quantity.SI), speed.of(design.Quantity.SI)}}
	}
	s.add(s.plot(c, s.say("card.wind-caption", "lean", s.fact("station.greatest_lean_deg"), "height", s.fact("station.lowest_height_m"))), table)
}

func (s *sheet) length(si float64) string { return s.text(unit.Quantity{SI: si, Dim: unit.DimLength}) }

// A fill is a neck lift that the crew may see on the scale.
type fill struct {
	name   string
	neck   unit.Mass
	design bool
}

// fills are the neck lift as designed, the least that is needed, and, for an envelope that stretches, a tenth more than
// designed. Two that nobody could tell apart on a scale are one.
func (s *sheet) fills() []fill {
	design, needed := s.lookup("lift.neck_kg"), s.lookup("lift.neck_needed_kg")
	var all []fill
	add := func(id string, kg float64, design bool) {
		for _, f := range all {
			if math.Abs(f.neck.SI()-kg) < 0.02*kg {
				return
			}
		}
		all = append(all, fill{s.say(id, "lift", s.text(unit.Mass(kg).Quantity())), unit.Mass(kg), design})
	}
	if design.Known() {
		add("fill.design", design.Quantity.SI, true)
	}
	if needed.Known() && needed.Quantity.SI > 0 {
		add("fill.needed", needed.Quantity.SI, false)
	}
	if design.Known() && s.stretches() {
		add("fill.more", 1.1*design.Quantity.SI, false)
	}
	if len(all) == 0 {
		all = []fill{{name: s.say("card.design"), design: true}}
	}
	return all
}

func (s *sheet) stretches() bool {
	for _, p := range s.Facts.Manifest.Parts {
		if p.Envelope != nil {
			return p.Envelope.Kind == manifest.Elastic
		}
	}
	return false
}

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
	const points, steps = 24, 6
	longest := 1.25 * greatest
	needed := curve{name: s.say("card.needed"), wide: true}
	var lifts []float64
	reason := ""
	table := page.Table{Columns: []page.Column{{Title: s.say("limit.wind"), Whole: true}, {Title: s.say("limit.neck"), Align: page.Right, Whole: true}, {Title: s.say("card.binds"), Weight: 1}}}
	for i := range points + 1 {
		wind := longest * float64(i) / points
		need, why := s.Facts.NeckLiftNeeded(unit.Speed(wind))
		kg, text, binds := mass.of(need.NeckLift.SI()), s.text(need.NeckLift.Quantity()), s.Words.Name("criterion", string(need.Binds))
		if why != "" {
			kg, text, binds, reason = math.NaN(), s.say("value.not-shown"), "–", why
		}
		needed.points = append(needed.points, [2]float64{speed.of(wind), kg})
		lifts = append(lifts, kg)
		if i > 0 && i%(points/steps) == 0 {
			table.Rows = append(table.Rows, page.Row{Cells: page.Cells(s.text(unit.Speed(wind).Quantity()), text, binds)})
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
		c.curves = append(c.curves, curve{name: s.say("fill.design", "lift", s.value(v)), dash: dashed, points: [][2]float64{{0, level}, {speed.of(longest), level}}})
	}
	c.x = axisOver(s.say("card.wind-axis", "unit", speed.text, "height", s.fact("station.wind_measured_at_m")), true, 6, speed.of(longest))
	c.y = axisOver(s.say("card.lift-axis", "unit", mass.text), true, 5, lifts...)
	wind, lift := s.lookup("station.wind_m_s"), s.lookup("lift.neck_needed_kg")
	if wind.Known() && lift.Known() {
		c.marks = []mark{{s.say("card.design-wind"), speed.of(wind.Quantity.SI), mass.of(lift.Quantity.SI)}}
	}
	s.add(s.plot(c, s.say("card.lift-caption", "line", s.fact("station.tether_out_m"))), table)
}
