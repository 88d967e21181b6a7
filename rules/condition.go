package rules

import (
	"fmt"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
)

// A Condition is one fact with one relation, or all, any or not of other conditions.
type Condition struct {
	// All is met when every one of the conditions is.
	All []*Condition `json:"all,omitempty" jsonschema:"minItems=1,example=[{\"fact\": \"station.night\"\\, \"is\": true}]"`
	// Any is met when at least one of the conditions is.
	Any []*Condition `json:"any,omitempty" jsonschema:"minItems=1,example=[{\"fact\": \"station.night\"\\, \"is\": true}]"`
	// Not is met when the condition is not, and not shown when it is not shown.
	Not *Condition `json:"not,omitempty" jsonschema:"example={\"fact\": \"station.night\"\\, \"is\": true}"`
	// Fact is the id of the fact that is compared.
	Fact string `json:"fact,omitempty" jsonschema:"example=lift.free_end_kg"`
	// AtLeast is the least value that is good.
	AtLeast *Limit `json:"at_least,omitempty" jsonschema:"example=20 %"`
	// AtMost is the greatest value that is good.
	AtMost *Limit `json:"at_most,omitempty" jsonschema:"example=60 m"`
	// Is is the word, count or truth that the fact must equal.
	Is *Limit `json:"is,omitempty" jsonschema:"example=helium"`
	// Within holds the least and the greatest value that are good.
	Within []*Limit `json:"within,omitempty" jsonschema:"minItems=2,maxItems=2,example=[\"144 MHz\"\\, \"148 MHz\"]"`
	// Present asks whether the value is known at all: the one relation that is never "not shown".
	Present *bool `json:"present,omitempty" jsonschema:"example=true"`

	Node *jsontree.Node `json:"-"`
}

// A Limit is what a fact is compared with: a quantity with its unit ("20 %", "60 m"), a plain number for a count, a word, a
// truth, an exact decimal for money ("260.00"), or another fact, optionally times a factor.
type Limit struct {
	Constant *jsontree.Node // nil when Fact is set
	Fact     string
	Times    *jsontree.Node // a Number, or nil for 1

	Node *jsontree.Node
}

// limitFact is how a limit that is a fact is written.
type limitFact struct {
	// Fact is the id of the fact that gives the limit.
	Fact string `json:"fact"`
	// Times multiplies it.
	Times *jsontree.Node `json:"times,omitempty"`
}

// BindJSON reads either form of a limit.
func (l *Limit) BindJSON(n *jsontree.Node, problems *diag.Problems) {
	l.Node = n
	switch n.Kind {
	case jsontree.Object:
		var f limitFact
		jsontree.Bind(n, &f, problems)
		l.Fact, l.Times = f.Fact, f.Times
		if f.Times != nil && f.Times.Kind != jsontree.Number {
			problems.Add(f.Times.Place(), fmt.Sprintf("%s stands here", f.Times.Kind), "a number belongs here, such as 0.8")
		}
	case jsontree.String, jsontree.Number, jsontree.Bool:
		l.Constant = n
	default:
		problems.Add(n.Place(), fmt.Sprintf("%s stands here", n.Kind),
			`write a quantity ("20 %"), a number, a word, true or false, or {"fact": …}`)
	}
}
