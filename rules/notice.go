package rules

import (
	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// A Notice is a message that must reach somebody before the launch, as a worksheet: lines that the kit fills in and lines
// left for a pen.
type Notice struct {
	// ID names the notice; no two notices of any packs may share one.
	ID string `json:"id" jsonschema:"pattern=^[a-z][a-z0-9-]*(\\.[a-z0-9-]+)*$,example=us.notice"`
	// Title heads the worksheet.
	Title string `json:"title" jsonschema:"minLength=1,example=Notice to air traffic control"`
	// To says who must be told.
	To string `json:"to" jsonschema:"minLength=1,example=the air traffic control facility nearest to the site"`
	// Ahead is how long before the launch, at the latest.
	Ahead unit.Duration `json:"ahead" jsonschema:"example=24 h"`
	// When leaves the notice out where the condition is not met; where it is not shown, the notice stays in.
	When *Condition `json:"when,omitempty" jsonschema:"example={\"fact\": \"station.night\"\\, \"is\": true}"`
	// Lines are what must be said.
	Lines []NoticeLine `json:"lines" jsonschema:"minItems=1,example=[{\"label\": \"Location\"}]"`
	// Notes say what else to do, in small print.
	Notes string `json:"notes,omitempty" jsonschema:"example=note the name of whoever takes the call"`
	// Source says on whose authority.
	Source []Citation `json:"source" jsonschema:"minItems=1,example=[{\"work\": \"ci-1401\"}]"`

	Node *jsontree.Node `json:"-"`
	pack *Pack
	plan noticePlan
}

// A NoticeLine is one thing that a notice must say.
type NoticeLine struct {
	// Label says what it is.
	Label string `json:"label" jsonschema:"minLength=1,example=Height above ground"`
	// Text is what the kit knows of it; facts may stand in braces. Without it, the line is left for a pen.
	Text string `json:"text,omitempty" jsonschema:"example=at most {tether.greatest_height_m}"`

	Node *jsontree.Node `json:"-"`
}

// A Worksheet is a notice for one kit, its texts in the reader's units.
type Worksheet struct {
	ID, Pack string
	Title    string
	To       string
	Ahead    unit.Duration
	Lines    []WorksheetLine
	Notes    string
	Source   []string
}

// A WorksheetLine is a line of a worksheet; an empty Text is left for a pen.
type WorksheetLine struct{ Label, Text string }

// Notices returns the notices that are due by the packs in force. One whose guard cannot be decided stays in.
func Notices(packs Packs, facts Facts, o Options) []Worksheet {
	var due []Worksheet
	for _, p := range packs.InForce(o.Regions) {
		for _, n := range p.Notices {
			s := scope{facts: facts, system: o.System}
			if s.run(n.plan.when).outcome != NotMet {
				due = append(due, n.worksheet(s))
			}
		}
	}
	return due
}

func (n *Notice) worksheet(s scope) Worksheet {
	w := Worksheet{
		ID: n.ID, Pack: n.pack.ID, Title: n.Title, To: n.To, Ahead: n.Ahead, Notes: s.text(n.plan.notes), Source: n.plan.sources,
	}
	for i, line := range n.Lines {
		w.Lines = append(w.Lines, WorksheetLine{line.Label, s.text(n.plan.lines[i])})
	}
	return w
}

func (c *checker) notice(n *Notice) {
	n.pack = c.pack
	c.begin(n.Node, "")
	n.plan = noticePlan{when: c.test(n.When), notes: c.template(n.Node, "notes"), sources: c.sources(n.Source)}
	for _, line := range n.Lines {
		n.plan.lines = append(n.plan.lines, c.template(line.Node, "text"))
	}
}
