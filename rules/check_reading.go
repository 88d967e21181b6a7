package rules

import (
	"errors"
	"fmt"

	"hoistbook/kits/fact"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// reading checks what an item asks the crew to read.
func (c *checker) reading(r *Reading) *readingPlan {
	if r == nil || r.Node == nil {
		return nil
	}
	dim, ok := r.Dimension.dimension()
	if !ok { // said when the pack was read
		return nil
	}
	plan := &readingPlan{dim: dim}
	about := fact.Description{ID: r.Name, Kind: fact.Number, Dim: dim}
	if list := r.Node.Get("plausible"); len(r.Plausible) == 2 {
		plan.low, plan.high = c.quantity(list.Items[0], dim), c.quantity(list.Items[1], dim)
		if plan.low.SI > plan.high.SI {
			c.problems.Add(list.Place(), "the plausible values run backwards", "write the lower one first")
		}
	}
	plan.least, plan.most = c.bound(r.AtLeast, about), c.bound(r.AtMost, about)
	for _, e := range r.Expected {
		if e.Node != nil {
			plan.expected = append(plan.expected, c.expectation(e, about))
		}
	}
	if r.Replaces != "" {
		replaced, known := c.describe(r.Node.Get("replaces"), r.Replaces)
		if known && (replaced.Kind != fact.Number || replaced.Dim != dim) {
			c.problems.Add(r.Node.Get("replaces").Place(), fmt.Sprintf("%q is %s, and the reading is %s", r.Replaces, kindName(replaced), kindName(about)),
				"let the reading replace a fact of its own dimension")
		}
	}
	if feeds := r.Node.Get("feeds"); feeds != nil {
		for _, pointer := range feeds.Items {
			if _, ok := jsontree.SplitPointer(pointer.Text); !ok || pointer.Text == "" {
				c.problems.Add(pointer.Place(), fmt.Sprintf("%q is not a JSON pointer", pointer.Text), `write one such as "/station/wind/speed"`)
			}
		}
	}
	return plan
}

// expectation checks what a reading is expected to be.
func (c *checker) expectation(e *Expectation, about fact.Description) expectation {
	if (e.AtLeast == nil) == (e.AtMost == nil) {
		c.problems.Add(e.Node.Place(), "one limit belongs here: at_least or at_most", "write two expectations for two limits")
	}
	plan := expectation{side: unit.AtMost, limit: c.bound(e.AtMost, about), text: c.template(e.Node, "text"), hint: c.template(e.Node, "hint")}
	if e.AtLeast != nil {
		plan.side, plan.limit = unit.AtLeast, c.bound(e.AtLeast, about)
	}
	return plan
}

// bound checks a limit of a reading. What a law says in feet is told in feet to everybody.
func (c *checker) bound(l *Limit, about fact.Description) *operand {
	if l == nil {
		return nil
	}
	o := c.operand(l, about)
	if l.Fact == "" && l.Constant != nil {
		o.constant.In = unit.SymbolOf(about.Dim, l.Constant.Text)
	}
	return &o
}

func (c *checker) quantity(n *jsontree.Node, dim unit.Dimension) unit.Quantity {
	q, err := unit.ParseQuantity(dim, n.Text)
	var said *unit.Error
	if errors.As(err, &said) {
		c.problems.Add(n.Place(), said.What, said.Fix)
	}
	return q
}

// A DimensionName is the name of a dimension of package unit.
type DimensionName string

// Words lists what may be written.
func (DimensionName) Words() []string {
	var names []string
	for _, d := range unit.Dimensions() {
		names = append(names, d.String())
	}
	return names
}

func (name DimensionName) dimension() (unit.Dimension, bool) {
	for _, d := range unit.Dimensions() {
		if d.String() == string(name) {
			return d, true
		}
	}
	return 0, false
}
