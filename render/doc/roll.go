package doc

import (
	"slices"

	"hoistbook/render/crew"
	"hoistbook/render/page"
)

// roll is who is who: every role that answers an item of this kit with the people it takes and a line for their names, and beside it
// whom the crew may have to call.
func (s *sheet) roll() page.Block {
	roles := s.Packs.Roles()
	for i := range roles {
		r := &roles[i]
		r.Name, r.With = s.Words.Name("role", r.Name), s.Words.Name("role", r.With)
	}
	roll := crew.Roll(roles, slices.Concat(s.Preflight, s.Change, s.Recovery))
	who := page.Table{Columns: []page.Column{{Title: s.say("roll.role"), Width: 42}, {Title: s.say("roll.people"), Align: page.Right, Least: 12}, {Title: s.say("roll.names"), Weight: 1}}}
	for _, r := range roll {
		role, people := page.Strong(r.Name), digits(r.Least)
		if r.With != "" {
			role, people = role.Then(page.Plain(" "+s.say("roll.with", "role", r.With))), "–"
		}
		who.Rows = append(who.Rows, page.Row{Cells: []page.Cell{{Words: role}, {Words: page.Plain(people)}, {Field: s.field("crew", r.Name), Label: r.Name}}})
	}
	call := page.Table{Columns: []page.Column{{Title: s.say("roll.call"), Width: 33}, {Title: s.say("roll.number"), Weight: 1}}}
	for _, c := range crew.Calls(s.Facts.Manifest, slices.Concat(s.Preflight, s.Change, s.Recovery), s.Cautions) {
		number := page.Cell{Words: page.Plain(c.Number)}
		if c.Number == "" {
			number = page.Cell{Field: s.field("call", c.Who), Label: c.Who}
		}
		call.Rows = append(call.Rows, page.Row{Cells: []page.Cell{{Words: page.Strong(s.Words.Name("call", c.Who))}, number}})
	}
	title := page.Heading{Level: 2, Text: s.say("roll.title", "people", digits(crew.People(roll)))}
	return page.Beside{Shares: []float64{0.58, 0.42}, Blocks: [][]page.Block{{title, who}, {page.Heading{Level: 2, Text: s.say("roll.calls")}, call}}}
}
