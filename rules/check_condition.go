package rules

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"hoistbook/kits/diag"
	"hoistbook/kits/fact"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// test checks a condition; it returns nil for none and for one that cannot be so.
func (c *checker) test(cond *Condition) *test {
	if cond == nil || cond.Node == nil {
		return nil
	}
	forms := cond.forms()
	if len(forms) != 1 {
		c.problems.Add(cond.Node.Place(), "a condition is exactly one of a fact, all, any and not, and here stand "+listOr(forms, "none of them"),
			"join conditions with all or any")
		return nil
	}
	switch {
	case cond.All != nil:
		return c.join(opAll, cond.All, cond)
	case cond.Any != nil:
		return c.join(opAny, cond.Any, cond)
	case cond.Not != nil:
		return c.join(opNot, []*Condition{cond.Not}, cond)
	}
	return c.comparison(cond)
}

func (cond *Condition) forms() []string {
	var forms []string
	for _, form := range []struct {
		name string
		is   bool
	}{{"all", cond.All != nil}, {"any", cond.Any != nil}, {"not", cond.Not != nil}, {"fact", cond.Fact != ""}} {
		if form.is {
			forms = append(forms, form.name)
		}
	}
	return forms
}

func (c *checker) join(op op, kids []*Condition, cond *Condition) *test {
	if stray := cond.relations(); len(stray) > 0 {
		c.problems.Add(cond.Node.Place(), fmt.Sprintf("%q has no fact to compare", stray[0]), "a relation stands beside a fact")
	}
	t := &test{op: op}
	for _, kid := range kids {
		t.kids = append(t.kids, c.test(kid))
	}
	return t
}

func (cond *Condition) relations() []string {
	var names []string
	for _, relation := range []struct {
		name string
		is   bool
	}{
		{"at_least", cond.AtLeast != nil}, {"at_most", cond.AtMost != nil}, {"is", cond.Is != nil}, {"within", cond.Within != nil},
		{"present", cond.Present != nil},
	} {
		if relation.is {
			names = append(names, relation.name)
		}
	}
	return names
}

func (c *checker) comparison(cond *Condition) *test {
	if names := cond.relations(); len(names) != 1 {
		c.problems.Add(cond.Node.Place(), "a fact is compared in exactly one way, and here stand "+listOr(names, "none"),
			"write one of at_least, at_most, within, is and present")
		return nil
	}
	about, ok := c.describe(cond.Node.Get("fact"), cond.Fact)
	if !ok {
		return nil
	}
	compareWith := func(relation Relation, limit *Limit) *test {
		t := &test{comparison: comparison{fact: cond.Fact, about: about, relation: relation}}
		if limit != nil {
			t.limit = c.operand(limit, about)
		}
		return t
	}
	ordered := about.Kind == fact.Number || about.Kind == fact.Money
	switch {
	case cond.Present != nil && *cond.Present:
		return compareWith(Present, nil)
	case cond.Present != nil:
		return compareWith(Absent, nil)
	case cond.Is != nil && about.Kind == fact.Number && about.Dim != unit.DimCount, cond.Is != nil && about.Kind == fact.Money:
		c.problems.Add(cond.Node.Place(), fmt.Sprintf("%q is measured, and nothing measured is exactly a number", cond.Fact),
			"write at_least, at_most or within")
		return nil
	case cond.Is != nil:
		return compareWith(Is, cond.Is)
	case !ordered:
		c.problems.Add(cond.Node.Place(), fmt.Sprintf("%q is no number", cond.Fact), "write is or present")
		return nil
	case cond.AtLeast != nil:
		return compareWith(AtLeast, cond.AtLeast)
	case cond.AtMost != nil:
		return compareWith(AtMost, cond.AtMost)
	case len(cond.Within) != 2: // said when the list was read
		return nil
	}
	before := len(*c.problems)
	low, high := compareWith(AtLeast, cond.Within[0]), compareWith(AtMost, cond.Within[1])
	if len(*c.problems) == before && low.limit.fact == "" && high.limit.fact == "" && low.limit.constant.Quantity.SI > high.limit.constant.Quantity.SI {
		c.problems.Add(cond.Node.Get("within").Place(), "the limits run backwards", "write the lower one first")
	}
	return &test{op: opAll, kids: []*test{low, high}}
}

// operand checks a limit against the fact it limits.
func (c *checker) operand(l *Limit, about fact.Description) operand {
	if l.Fact == "" {
		return operand{constant: c.constant(l.Constant, about)}
	}
	other, ok := c.describe(l.Node.Get("fact"), l.Fact)
	if !ok {
		return operand{}
	}
	if other.Kind != about.Kind || other.Kind == fact.Number && other.Dim != about.Dim {
		c.problems.Add(l.Node.Place(), fmt.Sprintf("%q is %s and %q is %s", l.Fact, kindName(other), about.ID, kindName(about)),
			"compare like with like")
		return operand{}
	}
	o := operand{fact: l.Fact}
	if l.Times == nil || l.Times.Kind != jsontree.Number {
		return o
	}
	if !scalable(other) {
		c.problems.Add(l.Times.Place(), fmt.Sprintf("%q is %s, which cannot be multiplied", l.Fact, kindName(other)), "leave times out")
		return o
	}
	o.times, ok = new(big.Rat).SetString(l.Times.Text)
	if !ok || o.times.Sign() <= 0 {
		c.problems.Add(l.Times.Place(), l.Times.Text+" is no factor", "write a number above zero, such as 0.8")
	}
	return o
}

// scalable reports whether a multiple of the fact means anything: not where zero is only a mark on a scale.
func scalable(about fact.Description) bool {
	if about.Kind != fact.Number {
		return about.Kind == fact.Money
	}
	return !slices.Contains([]unit.Dimension{unit.DimTemperature, unit.DimLevel, unit.DimGain, unit.DimDecibel, unit.DimGauge}, about.Dim)
}

// constant reads a limit that is written out.
func (c *checker) constant(n *jsontree.Node, about fact.Description) fact.Value {
	var said *unit.Error
	value := fact.Value{Kind: about.Kind}
	var err error
	switch {
	case n == nil: // said when the limit was read
		return value
	case about.Kind == fact.Number && (n.Kind == jsontree.String || n.Kind == jsontree.Number):
		value.Quantity, err = unit.ParseQuantity(about.Dim, n.Text)
	case about.Kind == fact.Money && n.Kind == jsontree.String:
		value.Text = n.Text
		_, err = unit.ParseDecimal(n.Text)
	case about.Kind == fact.YesNo && n.Kind == jsontree.Bool:
		value.Yes = n.Yes
	case about.Kind == fact.Word && n.Kind == jsontree.String:
		value.Text = n.Text
		if about.Words != nil && !slices.Contains(about.Words, n.Text) {
			err = &unit.Error{What: fmt.Sprintf("%q is never %q", about.ID, n.Text),
				Fix: diag.DidYouMean(n.Text, about.Words, "it is one of "+strings.Join(about.Words, ", "))}
		}
	default:
		err = &unit.Error{What: fmt.Sprintf("%q is %s, and %s stands here", about.ID, kindName(about), n.Kind), Fix: "compare like with like"}
	}
	if errors.As(err, &said) {
		c.problems.Add(n.Place(), said.What, said.Fix)
	} else if err != nil {
		c.problems.Add(n.Place(), err.Error(), "")
	}
	return value
}

func kindName(about fact.Description) string {
	switch about.Kind {
	case fact.Number:
		return about.Dim.Info().Name
	case fact.YesNo:
		return "true or false"
	case fact.Money:
		return "an amount of money"
	}
	return "a word"
}

func listOr(names []string, none string) string {
	if len(names) == 0 {
		return none
	}
	quoted := make([]string, len(names))
	for i, name := range names {
		quoted[i] = strconv.Quote(name)
	}
	return strings.Join(quoted, " and ")
}
