package doc

import (
	"hoistbook/kits"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

var elevation = Document{Name: "elevation", title: "elevation.title", write: (*sheet).elevation}

// elevation draws to scale how the balloon stands, and lists the pulls.
func (s *sheet) elevation() {
	s.paragraph(s.say("elevation.about"))
	frame := s.flow.Frame()
	const (
		shareOfScene = 0.62
		rest         = page.MM(128) // of the page: title, words and tables
	)
	stances := s.stances()
	switch above := s.plan(frame.W * (1 - shareOfScene - 0.04)); {
	case len(stances) == 0:
		s.paragraph(s.say("elevation.unknown", "why", s.lookup("tether.height_m").Unknown))
		s.add(above)
	case len(above) == 0:
		s.add(s.scene(stances, frame.W, frame.H-rest), s.stanceTable(stances))
	default:
		s.add(page.Beside{Shares: []float64{shareOfScene, 1 - shareOfScene}, Blocks: [][]page.Block{{s.scene(stances, frame.W*(shareOfScene-0.03), frame.H-rest)}, {above}}}, s.stanceTable(stances))
	}
	s.heading(1, s.say("elevation.pulls"))
	right := []string{"tether.working_load_n", "anchor.mass_needed_kg", "anchor.mass_kg", "station.nearest_power_line_m", "station.nearest_airfield_m"}
	for _, id := range []string{"tether.greatest_height_m", "station.power_line_needed_m"} {
		if !s.lookup(id).Known() {
			right = append(right, id) // known ones are rings of the plan
		}
	}
	s.add(page.Beside{Blocks: [][]page.Block{
		{s.facts("wind.at_balloon_m_s", "wind.balloon_drag_n", "tether.tension_top_n", "tether.tension_ground_n", "tether.tension_peak_n")},
		{s.facts(right...)},
	}})
}

// facts lists facts by their titles.
func (s *sheet) facts(ids ...string) page.Table {
	t := page.Table{NoHead: true, Columns: []page.Column{{Weight: 1}, {Align: page.Right, Whole: true}}}
	for _, id := range ids {
		title := id
		if f, ok := s.Facts.Find(id); ok {
			title = s.Words.Fact(f.Entry.ID, f.Entry.Title)
		}
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(title, s.bounded(id))})
	}
	return t
}

// bounded prints a fact, and one that people keep to on its safe side, as the lists do.
func (s *sheet) bounded(id string) string {
	switch id {
	case "lift.neck_needed_kg", "anchor.mass_needed_kg":
		return s.least(s.lookup(id))
	case "wind.greatest_m_s":
		return s.most(s.lookup(id))
	}
	return s.fact(id)
}

// A stance is the kit in one wind, and how its line is drawn.
type stance struct {
	kits.Standing
	name   string
	stroke page.Stroke
}

// stances are still air, the design wind and the greatest wind, as far as each is known.
func (s *sheet) stances() []stance {
	all := []stance{{name: s.say("stance.calm"), Standing: s.Facts.Stand(0), stroke: page.Stroke{Width: plain, Dash: dashed}}}
	add := func(name, id string, stroke page.Stroke) {
		if v := s.lookup(id); v.Known() && v.Quantity.SI > 0 {
			all = append(all, stance{s.Facts.Stand(unit.Speed(v.Quantity.SI)), name, stroke})
		}
	}
	add(s.say("stance.design"), "station.wind_m_s", page.Stroke{Width: 0.6})
	add(s.say("stance.greatest"), "wind.greatest_m_s", page.Stroke{Width: plain, Dash: dotted})
	var known []stance
	for _, st := range all {
		if st.Reason == "" && len(st.Line) > 1 {
			known = append(known, st)
		}
	}
	return known
}

func (s *sheet) stanceTable(stances []stance) page.Table {
	t := page.Table{Columns: []page.Column{{Title: "", Width: 9, Align: page.Middle}, {Title: s.say("stance.stance"), Weight: 1}, {Title: s.say("stance.wind"), Align: page.Right, Whole: true},
		{Title: s.say("stance.height"), Align: page.Right, Whole: true}, {Title: s.say("stance.drift"), Align: page.Right, Whole: true}, {Title: s.say("stance.lean"), Align: page.Right, Whole: true}}}
	for i, st := range stances {
		t.Rows = append(t.Rows, page.Row{Cells: page.Cells(digits(i+1), st.name, s.text(st.Wind.Quantity()), s.text(st.Height.Quantity()), s.aside(st), s.text(st.Lean.Quantity()))})
	}
	t.Rows = append(t.Rows, page.Row{Cells: page.Cells("", s.say("stance.allowed"), "", s.say("stance.at-least", "limit", s.least(s.lookup("station.lowest_height_m"))), "", s.say("stance.at-most", "limit", s.most(s.lookup("station.greatest_lean_deg"))))})
	return t
}

// aside is the drift, a dash for none.
func (s *sheet) aside(st stance) string {
	if st.Drift.SI() < 0.01 {
		return "–"
	}
	return s.text(st.Drift.Quantity())
}
