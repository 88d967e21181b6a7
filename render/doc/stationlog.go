package doc

import (
	"fmt"
	"math"

	"hoistbook/kits/plan"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

var stationLog = Document{Name: "station-log", title: "log.title", field: true, write: (*sheet).log}

// log is what must be done when, on a sheet that is looked at, and then the hours, on sheets that lie: what is read is written there.
func (s *sheet) log() {
	s.add(s.launchSite())
	t := s.Facts.Timetable()
	s.add(s.tiles(s.watched()))
	s.heading(1, s.say("log.plan"))
	s.add(s.events(t))
	if t.Reason != "" {
		s.add(page.Paragraph{Text: page.Plain(s.say("log.because", "reason", t.Reason)), Fine: true})
	}
	for _, gap := range t.Gaps {
		s.add(page.Paragraph{Text: page.Plain(s.say("log.gap", "what", gap)), Fine: true})
	}
	s.flow.SetScale(&page.Desk) // it is kept where it stays dry
	s.add(page.Space(3), s.briefly("station"))
	s.flow.SetScale(&page.Afield)
	if len(t.Hours) == 0 {
		s.heading(1, s.say("log.hours"))
		s.paragraph(s.say("log.no-hours"))
		return
	}
	s.flow.SetPaper(s.Paper.Landscape())
	s.heading(1, s.say("log.hours"))
	s.leading(s.say("log.how"))
	s.add(s.hours(t))
}

// watched are the numbers at which the balloon comes down.
func (s *sheet) watched() []tile {
	tiles := []tile{
		s.windLimit(),
		{s.say("limit.gust"), s.most(s.lookup("station.gust_m_s")), s.say("limit.gust-note")},
		{s.say("limit.lean"), s.most(s.lookup("station.greatest_lean_deg")), s.say("limit.lean-note")},
	}
	if s.identifies() {
		tiles = append(tiles, tile{s.say("log.identify"), s.most(s.lookup("station.identification_interval_min")), s.say("log.identify-note")})
	}
	return tiles
}

// briefly says what to do about the hazards of a place, under their signal words. They were read aloud in full, in their frames,
// before the launch, and stand in the cautions.
func (s *sheet) briefly(place string) page.Columns {
	both := page.Columns{Count: 2}
	for _, a := range s.Cautions {
		if a.Precedes(place) {
			both.Blocks = append(both.Blocks, page.Paragraph{Text: page.Strong(s.panel(a).Word + "  ").Then(page.Plain(sentence(a.Avoidance)))})
		}
	}
	return both
}

// events is what happens when, from the start of the station.
func (s *sheet) events(t plan.Plan) page.Table {
	table := page.Table{Columns: []page.Column{{Title: s.say("log.ok")}, {Title: s.say("log.due"), Align: page.Right, Whole: true}, {Title: s.say("log.clock"), Width: 26}, {Title: s.say("log.what"), Weight: 1}, {Title: s.say("log.volts"), Width: 30}}}
	for i, e := range t.Events {
		field := s.field("event", digits(i+1))
		text := s.event(e)
		volts := page.Cell{}
		if e.Kind == plan.Change || e.Kind == plan.Start {
			volts = page.Cell{Field: field + "/volts", Label: s.say("log.volts")}
		}
		table.Rows = append(table.Rows, page.Row{Cells: []page.Cell{
			{Tick: field, Label: text}, {Words: page.Strong(e.Clock())}, {Field: field + "/clock", Label: s.say("log.clock")}, {Words: page.Plain(text)}, volts,
		}})
	}
	return table
}

func (s *sheet) event(e plan.Event) string {
	on, off := digits(e.Set), digits(e.Off)
	switch e.Kind {
	case plan.Start:
		return s.say("event.start")
	case plan.Change:
		return s.say("event.change", "on", on, "off", off)
	case plan.Back:
		return s.say("event.back", "set", on)
	case plan.Short:
		return s.say("event.short", "off", off)
	case plan.TopUp:
		if e.With {
			return s.say("event.top-up-with")
		}
		return s.say("event.top-up")
	}
	return s.say("event.end")
}

// A logField is a column of the log that is written into.
type logField struct {
	name   string
	column page.Column
}

// readings is how often in an hour the wind is read.
const readings = 4

// hours are lines to write on, one for each hour and one for the end, with a field for each reading of the wind and a box for each
// identification that falls into the hour. What nobody can read from below has no field.
func (s *sheet) hours(t plan.Plan) page.Table {
	speed := s.unitOf("wind.greatest_m_s", unit.DimSpeed)
	boxes, instead := s.identifications()
	fields := []logField{{"clock", page.Column{Title: s.say("log.clock"), Width: 17}}}
	for n := range readings {
		fields = append(fields, logField{"wind/" + digits(n+1), page.Column{Title: s.say("log.wind-at", "minute", fmt.Sprintf("%02d", n*60/readings), "unit", speed), Width: 16}})
	}
	fields = append(fields, logField{"gust", page.Column{Title: s.say("log.gust", "unit", speed), Width: 16}}, logField{"lean", page.Column{Title: s.say("log.lean"), Width: 15}},
		logField{"air", page.Column{Title: s.say("log.air", "unit", s.unitOf("station.hottest_k", unit.DimTemperature)), Width: 15}})
	if s.told() {
		fields = append(fields, logField{"volts", page.Column{Title: s.say("log.battery"), Width: 20}})
	}
	table := page.Table{Columns: []page.Column{{Title: s.say("log.due"), Align: page.Right, Whole: true}}}
	for _, f := range fields {
		table.Columns = append(table.Columns, f.column)
	}
	table.Columns = append(table.Columns, page.Column{Title: s.say("log.battery-left"), Align: page.Right, Least: 15}, page.Column{Title: s.say("log.gas-left"), Align: page.Right, Least: 14})
	if s.identifies() {
		table.Columns = append(table.Columns, page.Column{Title: s.say("log.identified"), Whole: true})
	}
	table.Columns = append(table.Columns, page.Column{Title: s.say("log.remarks"), Weight: 1, Least: 24})
	row := func(name string, at unit.Duration, left, gas string, boxes int, instead string) page.Row {
		r := page.Row{Cells: []page.Cell{{Words: page.Strong(fmt.Sprintf("%d:%02d", int(at)/3600, int(at)/60%60))}}}
		for _, f := range fields {
			r.Cells = append(r.Cells, page.Cell{Field: s.field("hour", name, f.name), Label: f.column.Title})
		}
		r.Cells = append(r.Cells, page.Cell{Words: page.Plain(left)}, page.Cell{Words: page.Plain(gas)})
		switch {
		case !s.identifies():
		case boxes > 0:
			r.Cells = append(r.Cells, page.Cell{Tick: s.field("hour", name, "identified"), Ticks: boxes, Label: s.say("log.identified")})
		default:
			r.Cells = append(r.Cells, page.Cell{Words: page.Plain(instead)})
		}
		r.Cells = append(r.Cells, page.Cell{Field: s.field("hour", name, "remarks"), Label: s.say("log.remarks")})
		return r
	}
	for i, h := range t.Hours {
		table.Rows = append(table.Rows, row(digits(i), h.At, s.share(h.Left), s.share(h.Gas), boxes, instead))
	}
	if end := s.lookup("station.duration_h"); end.Known() {
		table.Rows = append(table.Rows, row("end", unit.Duration(end.Quantity.SI), "–", "–", min(boxes, 1), instead))
	}
	return table
}

// told reports whether the voltage of any battery is heard on the ground while it is aloft.
func (s *sheet) told() bool {
	for _, ref := range s.Facts.Subjects("power.batteries") {
		if v := s.lookup("power.batteries." + ref + ".told"); v.Known() && v.Yes {
			return true
		}
	}
	return false
}

// identifications is how often the relay must identify itself in an hour, each time a box to tick, or what stands there instead.
func (s *sheet) identifications() (boxes int, instead string) {
	v := s.lookup("station.identification_interval_min")
	if !v.Known() || !(v.Quantity.SI > 0) {
		return 0, "–"
	}
	const most = 8
	n := int(math.Ceil(3600/v.Quantity.SI - 1e-9))
	if n > most {
		return 0, s.say("log.every", "interval", s.most(v))
	}
	return n, ""
}

// share is what should be left of battery or gas, to a whole percent.
func (s *sheet) share(left unit.Ratio) string {
	if math.IsNaN(left.SI()) {
		return s.say("value.not-shown")
	}
	return unit.Figures(math.Round(left.SI()*100), 3) + " %"
}

// unitOf is the unit in which a reader writes what a fact is about.
func (s *sheet) unitOf(id string, dim unit.Dimension) string {
	q := unit.Quantity{SI: 1, Dim: dim}
	if v := s.lookup(id); v.Known() {
		q = v.Quantity
	}
	return q.Unit(s.System)
}
