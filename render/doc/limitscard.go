package doc

import (
	"math"

	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

var limitsCard = Document{Name: "limits-card", title: "card.title", field: true, wide: true, write: (*sheet).card}

// card is for the pocket of the launch leader, one sheet that folds in two: how much wind at which line and fill, and how much lift
// for which wind.
func (s *sheet) card() {
	s.add(s.limits())
	half := s.flow.Frame().W/2 - 4 // less half the gap between columns
	s.add(page.Beside{Blocks: [][]page.Block{s.windByLine(half), s.liftByWind(half)}})
}

// The heights of the charts, so that both stand with their tables on one sheet.
const cardChart = page.MM(48)

// unknown is what stands in the place of a chart.
func (s *sheet) unknown(heading, why string) []page.Block {
	return []page.Block{page.Heading{Level: 1, Text: heading}, page.Paragraph{Text: page.Plain(s.say("card.unknown", "why", why))}}
}

// scale turns values held in SI into the numbers of the reader's unit.
type scale struct {
	symbol string // as unit knows it
	text   string // as it is printed
	dim    unit.Dimension
}

func (c scale) of(si float64) float64 { return unit.Quantity{SI: si, Dim: c.dim}.In(c.symbol) }

// held is the quantity of a number in the reader's unit. The units of these scales have no zero of their own.
func (c scale) held(n float64) unit.Quantity {
	return unit.Quantity{SI: n / unit.Quantity{SI: 1, Dim: c.dim}.In(c.symbol), Dim: c.dim}
}

func (s *sheet) scales() (length, speed, mass scale) {
	if s.System == unit.US {
		return scale{"ft", "ft", unit.DimLength}, scale{"mph", "mph", unit.DimSpeed}, scale{"lb", "lb", unit.DimMass}
	}
	return scale{"m", "m", unit.DimLength}, scale{"m/s", "m/s", unit.DimSpeed}, scale{"kg", "kg", unit.DimMass}
}

// windByLine plots the greatest wind over the line paid out, for some neck lifts.
func (s *sheet) windByLine(width page.MM) []page.Block {
	length, speed, _ := s.scales()
	heading := s.say("card.wind", "unit", speed.text)
	out, most := s.lookup("station.tether_out_m"), s.lookup("tether.length_m")
	if !out.Known() {
		return s.unknown(heading, out.Unknown)
	}
	longest := out.Quantity.SI
	if most.Known() {
		longest = max(longest, most.Quantity.SI)
	}
	c := chart{w: width, h: cardChart}
	var winds []float64
	table := page.Table{Columns: []page.Column{{Title: s.say("card.line-column", "unit", length.text), Weight: 1}}}
	step := nice(length.of(longest) / 7)
	steps := int(math.Floor(length.of(longest)/step + 1e-9))
	for i := range steps {
		table.Columns = append(table.Columns, page.Column{Title: s.plain(step * float64(i+1)), Align: page.Right})
	}
	reason := ""
	for k, fill := range s.fills() {
		line := curve{name: fill.name, dash: [][]page.MM{nil, dashed, dashDot, dotted}[k%4], wide: fill.design}
		row := page.Row{Cells: page.Cells(fill.name)}
		try := func(at float64) string {
			limit, why := s.tried().wind(kits.Trial{Out: unit.Length(length.held(at).SI), Neck: fill.neck, AnyHeight: true})
			if why != "" {
				reason = why
				line.points = append(line.points, [2]float64{at, math.NaN()})
				return s.say("value.not-shown")
			}
			line.points = append(line.points, [2]float64{at, speed.of(limit.Wind.SI())})
			winds = append(winds, speed.of(limit.Wind.SI()))
			return s.Words.Number(limit.Wind.Quantity().LimitFigures(unit.AtMost, speed.symbol))
		}
		try(step / 4) // where the curve bends most
		try(step / 2)
		for i := range steps {
			row.Cells = append(row.Cells, page.Cells(try(step*float64(i+1)))...)
		}
		if end := length.of(longest); end > step*float64(steps)*(1+1e-9) {
			try(end)
		}
		c.curves = append(c.curves, line)
		table.Rows = append(table.Rows, row)
	}
	drawn := 0
	for _, k := range c.curves {
		drawn += len(runs(k.points))
	}
	if drawn == 0 {
		return s.unknown(heading, reason)
	}
	c.x = axisOver(s.say("card.line-axis", "unit", length.text), true, 6, length.of(longest))
	c.y = axisOver(s.say("card.wind-column", "unit", speed.text), true, 5, winds...)
	if design := s.lookup("wind.greatest_m_s"); design.Known() {
		c.marks = []mark{{s.say("card.design"), length.of(out.Quantity.SI), speed.of(design.Quantity.SI)}}
	}
	return []page.Block{page.Heading{Level: 1, Text: heading}, s.plot(c, s.say("card.wind-caption", "lean", s.fact("station.greatest_lean_deg"), "height", s.fact("station.lowest_height_m"))), table}
}

// plain prints a number whose unit stands elsewhere.
func (s *sheet) plain(n float64) string { return s.Words.Number(unit.Figures(n, 3)) }

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
		all = append(all, fill{s.say(id, "lift", s.least(fact.Of(unit.Mass(kg).Quantity()))), unit.Mass(kg), design})
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
