package rules

import (
	"math/big"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// What a pack says, checked and with its facts found: everything that evaluation needs.
type (
	rulePlan struct {
		when, check       *test
		message, ok, hint template
		sources           []string
	}
	itemPlan struct {
		when                *test
		challenge, response template
		beyond, notes       template
		reading             *readingPlan
		sources             []string
	}
	readingPlan struct {
		dim         unit.Dimension
		low, high   unit.Quantity
		least, most *operand
		expected    []expectation
	}
	expectation struct {
		side       unit.Side
		limit      *operand
		text, hint template
	}
	cautionPlan struct {
		when                           *test
		hazard, consequence, avoidance template
		sources                        []string
	}
	noticePlan struct {
		when    *test
		lines   []template
		notes   template
		sources []string
	}
)

// A test is a checked condition.
type test struct {
	op   op
	kids []*test
	comparison
}

type op uint8

const (
	opCompare op = iota
	opAll
	opAny
	opNot
)

// A comparison holds one fact against one limit.
type comparison struct {
	fact     string // may have a star
	about    fact.Description
	relation Relation
	limit    operand
}

// An operand is a constant, or a fact times a factor.
type operand struct {
	constant fact.Value // when fact is empty
	fact     string
	times    *big.Rat // nil for 1
}
