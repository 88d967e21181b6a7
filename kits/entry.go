package kits

import (
	"math"

	"hoistbook/kits/fact"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

// An Entry is a fact's line in the catalogue: what it is, how it is computed, and on whose authority. The inputs are not
// listed here: they are recorded as the formula reads them, so that the pedigree cannot differ from the arithmetic.
type Entry struct {
	fact.Description
	Formula string       // in words, for a reader with a pocket calculator
	Sources []source.Ref // at least one
	family  *family      // whose members the star stands for, or nil
	compute func(c *frame, subject string) fact.Value
}

// A family is a set of subjects in one manifest: its rails, its loads, its ground stations.
type family struct {
	id       string
	subjects func(c *frame) []string
}

// A number is a fact that other formulas can read as a T. Go's own rule for the order of initialisation refuses a circle
// of facts when the program is built.
type number[T unit.Scalar[T]] struct{ *Entry }

// quantity defines a fact of dimension T, reported in the unit with this symbol.
func quantity[T unit.Scalar[T]](id, symbol, title, formula string, sources []source.Ref, compute func(c *frame) T) number[T] {
	return member(nil, id, symbol, title, formula, sources, func(c *frame, _ string) T { return compute(c) })
}

// member defines a fact of dimension T about each member of a family; its id has a star for the subject.
func member[T unit.Scalar[T]](of *family, id, symbol, title, formula string, sources []source.Ref, compute func(c *frame, subject string) T) number[T] {
	var zero T
	return number[T]{&Entry{
		Description: fact.Description{ID: id, Kind: fact.Number, Dim: zero.Dimension(), Unit: symbol, Title: title},
		Formula:     formula, Sources: sources, family: of,
		compute: func(c *frame, subject string) fact.Value {
			value := fact.Of(compute(c, subject).Quantity())
			value.In = always[symbol]
			return value
		},
	}}
}

// always are the units that are kept whatever the size: a blow is told in joules, and only what a battery holds in watt hours.
var always = map[string]string{"J": "J"}

// yesNo defines a fact that is true or false. With a family, its id has a star.
func yesNo(of *family, id, title, formula string, sources []source.Ref, compute func(c *frame, subject string) bool) *Entry {
	return &Entry{
		Description: fact.Description{ID: id, Kind: fact.YesNo, Title: title}, Formula: formula, Sources: sources, family: of,
		compute: func(c *frame, subject string) fact.Value {
			return fact.Value{Kind: fact.YesNo, Yes: compute(c, subject)}
		},
	}
}

// word defines a fact that is one of some words, or any text when none are listed. An empty answer is unknown.
func word(of *family, id, title, formula string, words []string, sources []source.Ref, compute func(c *frame, subject string) string) *Entry {
	return &Entry{
		Description: fact.Description{ID: id, Kind: fact.Word, Title: title, Words: words}, Formula: formula, Sources: sources, family: of,
		compute: func(c *frame, subject string) fact.Value {
			return fact.Value{Kind: fact.Word, Text: compute(c, subject)}
		},
	}
}

// of reads the fact as an input of the formula that asks; unknown reads as NaN and makes the asker unknown too.
func (n number[T]) of(c *frame) T { return n.at(c, "") }

// at is of for one member of the fact's family.
func (n number[T]) at(c *frame, subject string) T {
	value := c.fact(n.Entry, subject)
	if !value.Known() {
		return unit.From[T](math.NaN())
	}
	return unit.From[T](value.Quantity.SI)
}

// A part of the working that several facts share and that is no fact itself: computed once, its inputs handed on.
type working[T any] struct {
	compute func(c *frame, subject string) T
	key     *byte // tells workings apart
}

func shared[T any](compute func(c *frame) T) working[T] {
	return sharedBy(func(c *frame, _ string) T { return compute(c) })
}

func sharedBy[T any](compute func(c *frame, subject string) T) working[T] {
	return working[T]{compute, new(byte)}
}

func (w working[T]) of(c *frame) T { return w.at(c, "") }

func (w working[T]) at(c *frame, subject string) T {
	key := workingKey{w.key, subject}
	done, ok := c.run.workings[key]
	if !ok {
		inner := c.run.open()
		value := w.compute(inner, subject)
		done = finished{value, inner.close()}
		c.run.workings[key] = done
	}
	c.merge(done.record)
	return done.value.(T)
}
