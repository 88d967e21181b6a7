package doc

import (
	"fmt"
	"math"
	"slices"

	"hoistbook/kits/plan"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

var stationLog = Document{Name: "station-log", title: "log.title", field: true, write: (*sheet).log}

// underCover is for the cautions at the end of the log: it is kept where it stays dry, and they were read aloud before the launch.
var underCover = func() page.Scale {
	s := page.Afield
	s.Body = page.Style{Face: page.Sans, Size: 10.5, Leading: 5}
	s.Signal = page.Style{Face: page.Bold, Size: 13, Leading: 6.1}
	return s
}()

// log is written hour by hour while the balloon is up: what must be done when is printed, what is read is written.
func (s *sheet) log() {
	s.add(s.launchSite())
	t := s.Facts.Timetable()
	tiles := []tile{s.windLimit(), {s.say("limit.line"), s.most(s.lookup("station.tether_out_m")), s.say("limit.line-note", "length", s.fact("tether.length_m"))}}
	if s.identifies() {
		tiles[1] = tile{s.say("log.identify"), s.most(s.lookup("station.identification_interval_min")), s.say("log.identify-note")}
	}
	s.add(s.tiles(tiles))
	s.heading(1, s.say("log.plan"))
	s.add(s.events(t))
	if t.Reason != "" {
		s.add(page.Paragraph{Text: page.Plain(s.say("log.because", "reason", t.Reason)), Fine: true})
	}
	for _, gap := range t.Gaps {
		s.add(page.Paragraph{Text: page.Plain(s.say("log.gap", "what", gap)), Fine: true})
	}
	s.heading(1, s.say("log.hours"))
	if len(t.Hours) == 0 {
		s.paragraph(s.say("log.no-hours"))
	} else {
		s.add(s.hours(t))
	}
	s.change(t)
	s.heading(1, s.say("log.cautions"))
	s.flow.SetScale(&underCover)
	s.warn(s.warnings("station"))
	s.flow.SetScale(&page.Afield)
}

// change says how a battery is changed or gas topped up while the station stands, where its timetable has such an hour.
func (s *sheet) change(t plan.Plan) {
	if !slices.ContainsFunc(t.Events, func(e plan.Event) bool { return e.Kind == plan.Change || e.Kind == plan.TopUp }) {
		return
	}
	steps := page.List{Numbered: true}
	for _, id := range []string{"log.change-down", "log.change-battery", "log.change-gas", "log.change-sky", "log.change-up"} {
		steps.Items = append(steps.Items, page.Plain(s.say(id, "lift", s.fact("lift.neck_needed_kg"))))
	}
	s.add(page.Together{page.Heading{Level: 1, Text: s.say("log.change")}, steps})
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

// hours are lines to write on, one for each hour, with a box for each identification that falls into it.
func (s *sheet) hours(t plan.Plan) page.Table {
	table := page.Table{Columns: []page.Column{
		{Title: s.say("log.due"), Align: page.Right, Whole: true}, {Title: s.say("log.clock"), Width: 20}, {Title: s.say("log.wind", "unit", s.unitOf("wind.greatest_m_s", unit.DimSpeed)), Width: 20},
		{Title: s.say("log.battery"), Width: 23}, {Title: s.say("log.battery-left"), Align: page.Right, Whole: true}, {Title: s.say("log.gas-left"), Align: page.Right, Whole: true},
	}}
	if s.identifies() {
		table.Columns = append(table.Columns, page.Column{Title: s.say("log.identified"), Whole: true})
	}
	table.Columns = append(table.Columns, page.Column{Title: s.say("log.remarks"), Weight: 1, Least: 24})
	boxes, instead := s.identifications()
	for i, h := range t.Hours {
		field := s.field("hour", digits(i))
		identified := page.Cell{Words: page.Plain(instead)}
		if boxes > 0 {
			identified = page.Cell{Tick: field + "/identified", Ticks: boxes, Label: s.say("log.identified")}
		}
		row := page.Row{Cells: []page.Cell{
			{Words: page.Strong(fmt.Sprintf("%d:%02d", int(h.At)/3600, int(h.At)/60%60))}, {Field: field + "/clock", Label: s.say("log.clock")},
			{Field: field + "/wind", Label: s.say("log.wind", "unit", "")}, {Field: field + "/volts", Label: s.say("log.battery")}, {Words: page.Plain(s.share(h.Left))}, {Words: page.Plain(s.share(h.Gas))},
		}}
		if s.identifies() {
			row.Cells = append(row.Cells, identified)
		}
		row.Cells = append(row.Cells, page.Cell{Field: field + "/remarks", Label: s.say("log.remarks")})
		table.Rows = append(table.Rows, row)
	}
	return table
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
