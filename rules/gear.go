package rules

import (
	"cmp"

	"hoistbook/kits/jsontree"
)

// Gear is a thing that people take along to do what an entry asks: no part of the kit, and missed in the field all the same.
type Gear struct {
	// What it is; facts may stand in braces.
	What string `json:"what" jsonschema:"minLength=1,example=spring scale for more than {lift.neck_kg}"`
	// Box is the box or bag in which it travels.
	Box string `json:"box" jsonschema:"minLength=1,example=instrument bag"`
	// Count is how many are needed at once; one when nobody says.
	Count int `json:"count,omitempty" jsonschema:"minimum=1,maximum=1000,example=2"`
	// Each asks for one for everybody of the crew.
	Each bool `json:"each,omitempty" jsonschema:"example=true"`

	Node *jsontree.Node `json:"-"`
	what template
}

// A Role is somebody who answers items.
type Role struct {
	// Name is that which items have in "role".
	Name string `json:"name" jsonschema:"minLength=1,example=winch hand"`
	// Least is how many people it takes; one when nobody says.
	Least int `json:"least,omitempty" jsonschema:"minimum=1,maximum=100,example=2"`
	// With is another role whose people can take this one as well.
	With string `json:"with,omitempty" jsonschema:"example=person in charge"`

	Node *jsontree.Node `json:"-"`
}

// A Tool is a piece of gear for one kit, in the reader's units.
type Tool struct {
	What, Box string
	Count     int
	Each      bool
}

func (s scope) tools(gear []*Gear) []Tool {
	var tools []Tool
	for _, g := range gear {
		tools = append(tools, Tool{What: s.text(g.what), Box: g.Box, Count: cmp.Or(g.Count, 1), Each: g.Each})
	}
	return tools
}

func (c *checker) gear(gear []*Gear) {
	for _, g := range gear {
		if g.Node != nil {
			g.what = c.template(g.Node, "what")
		}
	}
}

// Roles are those that packs describe, each once: a later pack speaks for an earlier one.
func (ps Packs) Roles() []Role {
	var all []Role
	at := map[string]int{}
	for _, p := range ps {
		for _, r := range p.Roles {
			one := *r
			one.Least = cmp.Or(one.Least, 1)
			if i, known := at[r.Name]; known {
				all[i] = one
				continue
			}
			at[r.Name] = len(all)
			all = append(all, one)
		}
	}
	return all
}
