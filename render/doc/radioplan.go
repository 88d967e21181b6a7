package doc

import (
	"cmp"

	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

var radioPlan = Document{Name: "radio-plan", title: "radio.title", write: (*sheet).radio, when: func(in *Input) bool {
	for _, p := range in.Facts.Manifest.Parts {
		if p.Transmitter != nil || p.Receiver != nil {
			return true
		}
	}
	return false
}}

// radio says who talks where, how far it reaches, how well the relay hears beside itself, and how far people keep away.
func (s *sheet) radio() {
	s.paragraph(s.say("radio.about"))
	if why := s.needless("station.identification_interval_min"); why != "" {
		s.paragraph(s.say("radio.no-identification", "why", why))
	} else {
		s.add(s.occasion("radio.call-sign", "radio.licence-holder"))
		s.paragraph(s.say("radio.identify", "interval", s.fact("station.identification_interval_min")))
	}
	s.heading(1, s.say("radio.channels"))
	s.add(s.channels())
	if ground := s.groundStations(); len(ground.Rows) > 0 {
		s.heading(1, s.say("radio.ground"))
		s.add(ground)
		s.reach()
	}
	s.add(page.Beside{Shares: []float64{0.42, 0.58}, Blocks: [][]page.Block{
		s.isolation(),
		{page.Heading{Level: 1, Text: s.say("radio.exposure")}, page.Paragraph{Text: page.Plain(s.say("radio.exposure-about"))}, s.exposure()},
	}})
}

// isolation is how well the relay hears beside itself, or why it need not.
func (s *sheet) isolation() []page.Block {
	heading := page.Heading{Level: 1, Text: s.say("radio.isolation")}
	if why := s.needless("radio.isolation_needed_db"); why != "" {
		return []page.Block{heading, page.Paragraph{Text: page.Plain(s.say("value.not-needed-as", "why", why))}}
	}
	return []page.Block{heading, s.facts("radio.isolation_needed_db", "radio.isolation_available_db"),
		page.Paragraph{Text: page.Plain(s.say("radio.binds", "what", s.Words.Name("isolation", s.fact("radio.isolation_binds"))))}}
}

// channels are the relay's transmitters and receivers.
func (s *sheet) channels() page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("bill.ref"), Whole: true}, {Title: s.say("radio.does"), Whole: true}, {Title: s.say("radio.frequency"), Align: page.Right, Whole: true},
		{Title: s.say("radio.strength"), Align: page.Right, Least: 24}, {Title: s.say("radio.tone"), Align: page.Right, Whole: true}, {Title: s.say("radio.emission"), Whole: true},
		{Title: s.say("radio.antenna"), Weight: 1}, {Title: s.say("radio.feed"), Align: page.Right, Whole: true},
	}}
	row := func(ref manifest.Ref, does, frequency, power, tone, emission string, antenna manifest.Ref, feed string) {
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(string(ref), does, frequency, power, tone, emission, s.antenna(antenna), feed)})
	}
	for ref, p := range manifest.Sorted(s.Facts.Manifest.Parts) {
		if x := p.Transmitter; x != nil {
			emission := "–"
			if x.Emission != "" {
				emission = x.Emission
			}
			row(ref, s.say("radio.sends"), maybe(s, x.Frequency), maybe(s, x.Power), s.tone(x.Tone), emission, x.Antenna, maybe(s, x.FeedLoss))
		}
		if x := p.Receiver; x != nil {
			row(ref, s.say("radio.hears"), maybe(s, x.Frequency), maybe(s, x.Sensitivity), s.tone(x.Tone), "–", x.Antenna, maybe(s, x.FeedLoss))
		}
	}
	return t
}

// tone prints a tone in hertz: nobody speaks of them in kilohertz.
func (s *sheet) tone(f *unit.Frequency) string {
	if f == nil {
		return "–"
	}
	return s.Words.Number(f.Quantity().TextIn("Hz"))
}

func (s *sheet) antenna(ref manifest.Ref) string {
	p, ok := s.Facts.Manifest.Parts[ref]
	if !ok || p.Antenna == nil || p.Antenna.Gain == nil {
		return string(ref)
	}
	return string(ref) + ", " + s.text(p.Antenna.Gain.Quantity())
}

// groundStations are those who work through the relay, with how far each reaches both ways.
func (s *sheet) groundStations() page.Table {
	t := page.Table{Columns: []page.Column{
		{Title: s.say("radio.station"), Weight: 1}, {Title: s.say("radio.power"), Align: page.Right, Whole: true}, {Title: s.say("radio.gain"), Align: page.Right, Whole: true},
		{Title: s.say("radio.height"), Align: page.Right, Whole: true}, {Title: s.say("radio.up"), Align: page.Right, Whole: true},
		{Title: s.say("radio.down"), Align: page.Right, Whole: true}, {Title: s.say("radio.horizon"), Align: page.Right, Whole: true},
	}}
	for _, id := range s.Facts.Subjects("radio.links") {
		g := s.Facts.Manifest.Ground[manifest.Ref(id)]
		link := "radio.links." + id
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(s.station(id), maybe(s, g.Power), maybe(s, g.Gain), maybe(s, g.Height), s.fact(link+".up_km"), s.fact(link+".down_km"), s.fact(link+".horizon_km"))})
	}
	return t
}

// station is what the manifest calls a ground station.
func (s *sheet) station(id string) string {
	return cmp.Or(s.Facts.Manifest.Ground[manifest.Ref(id)].Name, id)
}

// reach draws the distances from the relay to scale: a bar for each link, a line for what is wanted.
func (s *sheet) reach() {
	type bar struct {
		name string
		v    fact.Value
	}
	var bars []bar
	longest := 0.0
	add := func(name, id string) {
		v := s.lookup(id)
		bars = append(bars, bar{name, v})
		if v.Known() {
			longest = max(longest, v.Quantity.SI)
		}
	}
	for _, id := range s.Facts.Subjects("radio.links") {
		add(s.say("radio.up-from", "station", s.station(id)), "radio.links."+id+".up_km")
		add(s.say("radio.down-to", "station", s.station(id)), "radio.links."+id+".down_km")
		add(s.say("radio.horizon-of", "station", s.station(id)), "radio.links."+id+".horizon_km")
	}
	if longest == 0 || len(bars) > 30 {
		return
	}
	wanted, coverage := s.lookup("radio.wanted_km"), s.lookup("radio.coverage_km")
	const rowHigh = page.MM(5.4)
	d := s.drawing(s.flow.Frame().W, rowHigh*page.MM(len(bars))+10)
	left, right := d.w*0.34, d.w-22
	if wanted.Known() {
		longest = max(longest, wanted.Quantity.SI)
	}
	at := func(m float64) page.MM { return left + (right-left)*page.MM(m/longest) }
	name := label{size: 8.5, align: page.Right, shrinks: true}
	for i, b := range bars {
		y := rowHigh*page.MM(i) + 5
		d.put(b.name, name, left-2, y, left-4)
		if !b.v.Known() {
			d.put(s.value(b.v), label{size: 8.5}, left+2, y, 40)
			continue
		}
		d.add(page.Rect{Box: page.Box{X: left, Y: y + 0.9, W: at(b.v.Quantity.SI) - left, H: 2.4}, Fill: page.Grey(0.75), Stroke: page.Stroke{Width: thin}})
		d.put(s.value(b.v), label{size: 8.5}, at(b.v.Quantity.SI)+1.2, y, 22)
	}
	bottom := d.h - 4
	d.line(left, 4, left, bottom, page.Stroke{Width: plain})
	if wanted.Known() {
		x := at(wanted.Quantity.SI)
		d.line(x, 4, x, bottom, page.Stroke{Width: 0.6, Dash: dashed})
		d.put(s.say("radio.wanted", "distance", s.value(wanted)), label{face: page.Bold, size: 8.5, align: page.Middle}, x, 0, 60)
	}
	s.add(d.figure(s.say("radio.reach", "coverage", s.value(coverage), "limit", s.fact("radio.limit"))))
}

// exposure is how far people keep from each transmitting antenna.
func (s *sheet) exposure() page.Table {
	t := page.Table{Columns: []page.Column{{Title: s.say("radio.transmitter"), Weight: 1}, {Title: s.say("radio.eirp"), Align: page.Right, Whole: true},
		{Title: s.say("radio.public"), Align: page.Right, Whole: true}, {Title: s.say("radio.trained"), Align: page.Right, Whole: true}}}
	for _, ref := range s.Facts.Subjects("radio.exposure") {
		id := "radio.exposure." + ref
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(ref+", "+s.Facts.Manifest.Parts[manifest.Ref(ref)].Name, s.fact("radio.transmitters."+ref+".eirp_w"), s.least(s.lookup(id+".public_m")), s.least(s.lookup(id+".trained_m")))})
	}
	return t
}
