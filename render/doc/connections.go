package doc

import (
	"cmp"
	"fmt"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

var connections = Document{Name: "connections", title: "connections.title", write: (*sheet).connections}

// connections list every pin, every control line and every joint, each with a box to tick when it was checked.
func (s *sheet) connections() {
	s.paragraph(s.say("connections.about"))
	if t := s.pins(); len(t.Rows) > 0 {
		s.heading(1, s.say("connections.pins"))
		s.add(t)
	}
	if t := s.controlLines(); len(t.Rows) > 0 {
		s.heading(1, s.say("connections.signals"))
		s.add(t)
	}
	var last page.Together // nobody signs a page on which nothing stands
	if t := s.joints(); len(t.Rows) > 0 {
		last = page.Together{page.Heading{Level: 1, Text: s.say("connections.joints")}, t}
	}
	s.add(append(last, page.Space(4), s.signatures("sign.wired", "sign.checker")))
}

// pins are the plugs of the modules, pin by pin.
func (s *sheet) pins() page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("connections.ok")}, {Title: s.say("connections.pin"), Whole: true}, {Title: s.say("connections.carries"), Weight: 1}, {Title: s.say("connections.colour"), Weight: 1},
		{Title: s.say("connections.gauge"), Whole: true}, {Title: s.say("connections.length"), Align: page.Right, Whole: true}, {Title: s.say("connections.voltage"), Align: page.Right, Whole: true},
	}}
	for ref, p := range manifest.Sorted(s.Facts.Manifest.Parts) {
		if p.Load == nil {
			continue
		}
		w := p.Load.Wire
		if w == nil {
			w = &manifest.Wire{}
		}
		plug := s.say("connections.plug-unknown")
		if w.Connector != "" {
			plug = w.Connector
		}
		t.Rows = append(t.Rows, page.Row{Kind: page.Group, Cells: []page.Cell{{Words: page.Plain(string(ref) + ", " + p.Name + ": " + plug), Span: len(t.Columns)}}})
		pins := w.Pins
		if len(pins) == 0 {
			pins = manifest.Pins{"+": p.Load.Rail, "-": "GND"}
		}
		for pin, carries := range manifest.Sorted(pins) {
			volts := ""
			if carries == p.Load.Rail {
				id := "power.loads." + string(ref)
				volts = s.say("value.range", "low", s.fact(id+".lowest_v"), "high", s.fact(id+".highest_v"))
			}
			t.Rows = append(t.Rows, s.joint(string(ref)+"/"+string(pin), string(pin), string(carries), cmp.Or(w.Colours[carries], "–"), s.gaugeOf(w.Gauge), maybe(s, w.Length), volts))
		}
	}
	return t
}

// gaugeOf prints a wire gauge.
func (s *sheet) gaugeOf(g *unit.Gauge) string { return maybe(s, g) }

// joint is a row that begins with a box to tick.
func (s *sheet) joint(name string, texts ...string) page.Row {
	tick := page.Cell{Tick: s.field("joint", name), Label: s.say("connections.checked", "what", name)}
	return page.Row{Cells: append([]page.Cell{tick}, page.Cells(texts...)...)}
}

// controlLines are the signals, with the levels that must fit each other.
func (s *sheet) controlLines() page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("connections.ok")}, {Title: s.say("connections.signal"), Whole: true}, {Title: s.say("connections.from-to"), Weight: 1},
		{Title: s.say("connections.drives"), Align: page.Right, Whole: true}, {Title: s.say("connections.needs"), Align: page.Right, Whole: true},
		{Title: s.say("connections.withstands"), Align: page.Right, Whole: true}, {Title: s.say("connections.wire"), Whole: true},
	}}
	for name, sig := range manifest.Sorted(s.Facts.Manifest.Signals) {
		drives, wire := "–", "–"
		if sig.Drives != nil {
			drives = s.say("value.range", "low", s.text(sig.Drives.Low.Quantity()), "high", s.text(sig.Drives.High.Quantity()))
		}
		if w := sig.Wire; w != nil {
			wire = fmt.Sprintf("%s, %s", s.gaugeOf(w.Gauge), maybe(s, w.Length))
		}
		t.Rows = append(t.Rows, s.joint("signal/"+string(name), string(name), s.say("connections.to", "from", string(sig.From), "to", string(sig.To)),
			drives, maybe(s, sig.NeedsHigh), maybe(s, sig.Withstands), wire))
	}
	return t
}

// joints are what hangs together besides plugs: batteries, fuses and converters on rails, antennas and filters on radios.
func (s *sheet) joints() page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("connections.ok")}, {Title: s.say("connections.part"), Whole: true}, {Title: s.say("bill.part"), Weight: 1}, {Title: s.say("connections.joins"), Weight: 1}}}
	for ref, p := range manifest.Sorted(s.Facts.Manifest.Parts) {
		add := func(kind, text string) {
			t.Rows = append(t.Rows, s.joint("part/"+string(ref)+"/"+kind, string(ref), p.Name, text))
		}
		if b := p.Battery; b != nil {
			add("battery", s.say("joins.battery", "rail", string(b.Rail)))
		}
		if f := p.Fuse; f != nil {
			add("fuse", s.say("joins.fuse", "rail", string(f.Rail)))
		}
		if k := p.Converter; k != nil {
			add("converter", s.say("joins.converter", "from", string(k.From), "to", string(k.To)))
		}
		if x := p.Transmitter; x != nil {
			add("transmitter", s.say("joins.antenna", "antenna", string(x.Antenna)))
		}
		if x := p.Receiver; x != nil {
			add("receiver", s.say("joins.antenna", "antenna", string(x.Antenna)))
		}
		if x := p.Filter; x != nil {
			add("filter", s.say("joins.filter", "receiver", string(x.Protects)))
		}
	}
	return t
}
