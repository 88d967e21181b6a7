package doc

import (
	"hoistbook/render/page"
	"hoistbook/rules"
)

var preflight = Document{Name: "preflight", title: "preflight.title", field: true, write: (*sheet).preflight}

// preflight is the list that is read aloud in the field, every limit computed.
func (s *sheet) preflight() {
	s.add(s.launchSite())
	if rules.Verdict(s.Findings) != rules.Go {
		s.add(s.stopped())
	}
	s.add(s.limits())
	s.add(s.roll())
	s.checklist("preflight", s.say("checklist.how"), s.Preflight, launchItem, s.decision)
}

// launchItem is the item with which the balloon leaves the hand. Who decides signs before it.
const launchItem = "preflight.launch"

// decision is signed on the ground, with everything above it ticked.
func (s *sheet) decision() {
	decide := []string{"sign.in-charge"}
	if s.identifies() {
		decide = append(decide, "sign.licence-holder")
	}
	s.add(page.Space(6), page.Together{
		page.Heading{Level: 1, Text: s.say("preflight.decision")}, page.Paragraph{Text: page.Plain(s.say("preflight.no-go-if"))},
		s.signatures(decide...),
	})
}

// stopped says across the sheet that the design itself has not passed.
func (s *sheet) stopped() page.Figure {
	d := s.drawing(s.flow.Frame().W, 0)
	text := label{face: page.Bold, size: 14, ink: page.White, align: page.Middle}
	d.h = d.height(s.say("preflight.stopped"), text, d.w-10) + 6
	d.add(page.Rect{Box: page.Box{W: d.w, H: d.h}, Fill: page.Black})
	d.put(s.say("preflight.stopped"), text, d.w/2, 3, d.w-10)
	return d.figure("")
}

// limits are the numbers that decide, large enough to be read from where the launch leader stands.
func (s *sheet) limits() page.Figure {
	tiles := []tile{
		{s.say("limit.neck"), s.least(s.lookup("lift.neck_needed_kg")), s.say("limit.neck-note", "most", s.most(s.lookup("lift.neck_greatest_kg")))},
		s.windLimit(),
		{s.say("limit.line"), s.most(s.lookup("station.tether_out_m")), s.say("limit.line-note", "length", s.fact("tether.length_m"))},
	}
	for _, ref := range s.Facts.Subjects("power.batteries") {
		tiles = append(tiles, s.batteryLimit(ref))
		if len(tiles) == 6 {
			break // the checklist asks for every battery
		}
	}
	return s.tiles(tiles)
}

// batteryLimit is the least voltage with which a battery goes up, and when it comes off: by a voltage only where one is told on the
// ground, and otherwise by the clock.
func (s *sheet) batteryLimit(ref string) tile {
	battery := "power.batteries." + ref
	t := tile{s.say("limit.battery", "battery", ref), s.least(s.lookup(battery + ".fresh_v")), s.say("limit.battery-note", "full", s.fact(battery+".full_v"))}
	change, told := s.lookup("plan.first_change_h"), s.lookup(battery+".told")
	switch {
	case told.Known() && told.Yes:
		t.note += "; " + s.say("limit.battery-volts", "volts", s.least(s.lookup(battery+".cutoff_v")))
	case change.Known():
		t.note += "; " + s.say("limit.battery-clock", "time", s.most(change))
	}
	return t
}

// windLimit is the wind that the least neck lift stands: the design wind, or what the kit bears if that is less. A fuller balloon bears more.
func (s *sheet) windLimit() tile {
	greatest, design, at := s.lookup("wind.greatest_m_s"), s.lookup("station.wind_m_s"), s.fact("station.wind_measured_at_m")
	t := tile{s.say("limit.wind"), s.most(greatest), s.say("limit.wind-note", "height", at)}
	if greatest.Known() && (!design.Known() || design.Quantity.SI < greatest.Quantity.SI) {
		t.value, t.note = s.most(design), s.say("limit.wind-more", "height", at, "most", s.most(greatest), "lift", s.least(s.lookup("lift.neck_kg")))
	}
	return t
}

// A tile is one number with what it is above it and what to know below it.
type tile struct{ name, value, note string }

// tiles sets numbers two in a row: what it is on the left, the number on the right, as large as the row allows.
func (s *sheet) tiles(all []tile) page.Figure {
	const gap, pad = page.MM(3), page.MM(2.5)
	d := s.drawing(s.flow.Frame().W, 0)
	w := (d.w - gap) / 2
	name, value, note := label{face: page.Bold, size: 11}, label{face: page.Bold, size: 22, align: page.Right, shrinks: true}, label{size: 10}
	room := func(t tile) (left, right page.MM) {
		right = min(s.Fonts.Width(value.face, value.size, t.value), w/2)
		return w - right - 3*pad, right
	}
	y := page.MM(0)
	for from := 0; from < len(all); from += 2 {
		row := all[from:min(from+2, len(all))]
		h := page.MM(0)
		for _, t := range row {
			left, right := room(t)
			h = max(h, d.height(t.name, name, left)+d.height(t.note, note, left), d.height(t.value, value, right))
		}
		h += 2 * pad
		for i, t := range row {
			left, right := room(t)
			x := page.MM(i) * (w + gap)
			d.add(page.Rect{Box: page.Box{X: x + thick/2, Y: y + thick/2, W: w - thick, H: h - thick}, Stroke: page.Stroke{Width: thick}})
			below := d.put(t.name, name, x+pad, y+pad, left)
			d.put(t.note, note, x+pad, below, left)
			d.put(t.value, value, x+w-pad, y+(h-d.height(t.value, value, right))/2, right)
		}
		y += h + gap
	}
	d.h = y - gap
	return d.figure("")
}

// launchSite are the lines of who, when and where; the place for which the kit was computed is printed on its line, and below
// under whose rules and with what laid over the shared kit.
func (s *sheet) launchSite() page.Table {
	t := s.occasion("preflight.date", "preflight.site", "preflight.leader", "preflight.scribe")
	if name := s.site(); name != "" {
		t.Rows[0].Cells[3].Words = page.Plain(name)
	}
	for _, kv := range s.madeBy() {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Words: page.Strong(kv.Key)}, {Words: kv.Value, Span: 3}}})
	}
	return t
}

// occasion are lines to write on: when, where, who.
func (s *sheet) occasion(ids ...string) page.Table {
	t := page.Table{NoHead: true, Columns: []page.Column{{Whole: true}, {Weight: 1}, {Whole: true}, {Weight: 1}}}
	for i := 0; i < len(ids); i += 2 {
		var row page.Row
		for _, id := range ids[i:min(i+2, len(ids))] {
			row.Cells = append(row.Cells, page.Cell{Words: page.Strong(s.say(id))}, page.Cell{Field: s.field(id), Label: s.say(id)})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// signatures are lines to sign, each for what its id says.
func (s *sheet) signatures(ids ...string) page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("sign.for"), Weight: 1, Least: 50}, {Title: s.say("sign.name"), Width: 40}, {Title: s.say("sign.signature"), Width: 42}, {Title: s.say("sign.when"), Width: 34}}}
	for _, id := range ids {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{
			{Words: page.Strong(s.say(id))}, {Field: s.field(id, "name"), Label: s.say("sign.name")}, {Words: page.Plain("\n\u00a0")}, {Field: s.field(id, "when"), Label: s.say("sign.when")},
		}})
	}
	return t
}
