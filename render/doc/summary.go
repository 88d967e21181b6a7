package doc

import (
	"cmp"
	"slices"

	"hoistbook/render/page"
	"hoistbook/rules"
)

var summary = Document{Name: "summary", title: "summary.title", write: (*sheet).summary}

// summary is the verdict with what stands behind it, the thinnest margin first.
func (s *sheet) summary() {
	s.add(s.verdict())
	if summary := s.Facts.Manifest.Kit.Summary; summary != "" {
		s.paragraph(summary)
	}
	s.add(page.Beside{Blocks: [][]page.Block{
		{s.facts("tether.height_m", "wind.greatest_m_s", "lift.neck_needed_kg", "lift.neck_kg", "mass.aloft_worst_kg", "lift.free_end_kg", "gas.fill_m3", "gas.cylinders")},
		{s.facts("radio.coverage_km", "radio.wanted_km", "station.duration_h", "power.endurance_h", "power.battery_changes", "radio.isolation_needed_db", "radio.isolation_available_db", "cost.all_sets")},
	}})
	const few = page.MM(80) // less room would show the heading and a row or two
	if s.shortfalls() && s.flow.Room() < few {
		s.add(page.PageBreak{})
	}
	s.margins()
}

// shortfalls lists what is not met or not shown, those that forbid flying first. It reports whether there is anything.
func (s *sheet) shortfalls() bool {
	var open []rules.Finding
	for _, f := range s.Findings {
		if f.Outcome != rules.Met {
			open = append(open, f)
		}
	}
	if len(open) == 0 {
		return false
	}
	slices.SortStableFunc(open, func(a, b rules.Finding) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a.Outcome, b.Outcome))
	})
	s.heading(1, s.say("summary.open"))
	t := page.Table{Columns: []page.Column{{Title: s.say("finding.level"), Whole: true}, {Title: s.say("finding.outcome"), Whole: true}, {Title: s.say("finding.what"), Weight: 1}}}
	for _, f := range open {
		words := page.Strong(sentence(s.name(f))).Then(page.Plain(" " + sentence(f.Message)))
		if f.Hint != "" {
			words = words.Then(page.Plain(" → " + sentence(f.Hint)))
		}
		if f.Waived != "" {
			words = words.Then(page.Plain(" " + s.say("finding.waived", "reason", f.Waived)))
		}
		row := page.Row{Cells: page.Cells(s.Words.Name("level", string(f.Level)), s.Words.Name("outcome", f.Outcome.String()), "")}
		row.Cells[2].Words = words
		t.Rows = append(t.Rows, row)
	}
	s.add(t)
	return true
}

func rank(f rules.Finding) int {
	switch {
	case f.Level == rules.Must:
		return 0
	case f.Waived == "":
		return 1
	}
	return 2
}

// name is what a finding is about.
func (s *sheet) name(f rules.Finding) string {
	if f.Subject == "" {
		return f.Title
	}
	return f.Subject + ": " + f.Title
}
