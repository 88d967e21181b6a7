package kits

import (
	"fmt"
	"slices"
	"strings"

	"hoistbook/kits/diag"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A run computes the facts of one manifest, each once.
type run struct {
	manifest    *manifest.Manifest
	facts       map[string]Fact
	workings    map[workingKey]finished
	families    map[*family][]string
	assumptions []Assumption
	bare        bool // nobody will ask where the facts come from
	spare       [][]Input
}

// usualFacts is about how many facts a kit has; maps start with room for them.
const usualFacts = 250

func newRun(m *manifest.Manifest) *run {
	return &run{manifest: m, facts: make(map[string]Fact, usualFacts), workings: map[workingKey]finished{}, families: map[*family][]string{}}
}

type workingKey struct {
	working *byte
	subject string
}

type finished struct {
	value  any
	record record
}

// A frame is what one formula sees: it reads the manifest and other facts through it, and the frame remembers.
type frame struct {
	run *run
	record
}

// open makes a frame that writes its inputs into a used buffer, and close takes what it remembers out of it: formulas read a
// few values or fifty, and most of the time would go into growing lists.
func (r *run) open() *frame {
	c := &frame{run: r}
	if last := len(r.spare) - 1; last >= 0 {
		c.inputs, r.spare = r.spare[last], r.spare[:last]
	}
	return c
}

func (c *frame) close() record {
	r := c.record
	r.inputs = slices.Clone(c.inputs)
	c.run.spare = append(c.run.spare, c.inputs[:0])
	c.inputs = nil
	return r
}

// A record is what a formula read and what it could not know.
type record struct {
	inputs  []Input
	unknown []string
	notes   []string
}

// An Input is something a formula read: another fact or a value of the manifest, with its place when it has one.
type Input struct {
	Name    string // a fact's id, or a JSON pointer into the manifest
	Value   fact.Value
	Symbol  string // unit in which the fact is reported
	Place   diag.Place
	Assumed bool // the manifest is silent and the default was taken
}

// An Assumption is a default that was taken because the manifest is silent, or a limit of a model that the kit lies outside of.
type Assumption struct {
	// Pointer is the JSON pointer to what the manifest could have said.
	Pointer string `json:"pointer,omitempty"`
	// Facts are the ids of the facts whose model is used beyond its limits.
	Facts []string `json:"facts,omitempty"`
	// Text says what was assumed, or what lies beyond.
	Text string `json:"text"`
}

func (c *frame) merge(r record) {
	for _, in := range r.inputs {
		c.read(in)
	}
	c.unknown = append(c.unknown, r.unknown...)
	for _, n := range r.notes {
		c.note(n)
	}
}

func (c *frame) read(in Input) {
	if c.run.bare {
		return
	}
	for i := range c.inputs {
		if c.inputs[i].Name == in.Name {
			return
		}
	}
	c.inputs = append(c.inputs, in)
}

func (r *run) place(pointer string) diag.Place {
	if r.bare {
		return diag.Place{}
	}
	return r.manifest.Place(pointer)
}

// missing makes the fact that is being computed unknown, for this reason.
func (c *frame) missing(format string, args ...any) {
	c.unknown = append(c.unknown, fmt.Sprintf(format, args...))
}

// note says something that the reader of the fact must know, such as a model used outside its stated limits.
func (c *frame) note(text string) {
	if !slices.Contains(c.notes, text) {
		c.notes = append(c.notes, text)
	}
}

// fact reads another fact.
func (c *frame) fact(e *Entry, subject string) fact.Value {
	f := c.run.fact(e, subject)
	c.read(Input{Name: f.ID, Value: f.Value, Symbol: e.Unit})
	if !f.Value.Known() {
		c.missing("%s is not shown", f.ID)
	}
	return f.Value
}

// members lists the subjects of a family.
func (c *frame) members(of *family) []string { return c.run.members(of) }

// given reads a quantity of the manifest; silence makes the fact unknown.
func given[T unit.Scalar[T]](c *frame, pointer string, value *T) T {
	if value == nil {
		c.missing("the manifest does not say %s", pointer)
		return unit.From[T](nan)
	}
	return must(c, pointer, *value)
}

// must reads a quantity that every manifest has.
func must[T unit.Scalar[T]](c *frame, pointer string, value T) T {
	c.read(Input{Name: pointer, Value: fact.Of(value.Quantity()), Place: c.run.place(pointer)})
	return value
}

// otherwise reads a quantity of the manifest, or takes the default and says so.
func otherwise[T unit.Scalar[T]](c *frame, pointer string, value *T, standard T, because string) T {
	if value != nil {
		return must(c, pointer, *value)
	}
	c.assume(pointer, standard.Quantity(), because)
	return standard
}

func (c *frame) assume(pointer string, q unit.Quantity, because string) {
	c.read(Input{Name: pointer, Value: fact.Of(q), Assumed: true})
	if because != "" && !c.run.bare {
		c.run.assume(Assumption{Pointer: pointer, Text: q.Text(unit.SI) + ": " + because})
	}
}

// count reads a plain number of the manifest.
func count[N int | float64](c *frame, pointer string, value *N) float64 {
	if value == nil {
		c.missing("the manifest does not say %s", pointer)
		return nan
	}
	q := unit.Count(*value)
	return float64(must(c, pointer, q))
}

// countOr is count with a default.
func countOr[N int | float64](c *frame, pointer string, value *N, standard N, because string) float64 {
	if value != nil {
		return count(c, pointer, value)
	}
	c.assume(pointer, unit.Count(standard).Quantity(), because)
	return float64(standard)
}

// text reads a word of the manifest; an empty one is silence.
func text[S ~string](c *frame, pointer string, value S) S {
	if value == "" {
		c.missing("the manifest does not say %s", pointer)
		return value
	}
	c.read(Input{Name: pointer, Value: fact.Value{Kind: fact.Word, Text: string(value)}, Place: c.run.place(pointer)})
	return value
}

// why says what could not be known, or nothing.
func (c *frame) why() string {
	reasons := slices.Compact(slices.Clone(c.unknown))
	return strings.Join(reasons[:min(3, len(reasons))], "; ")
}

// known reports whether everything that was read so far has a value.
func (c *frame) known() bool { return len(c.unknown) == 0 }

// truth reads a yes or no of the manifest; silence makes the fact unknown.
func truth(c *frame, pointer string, value *bool) bool {
	if value == nil {
		c.missing("the manifest does not say %s", pointer)
		return false
	}
	c.read(Input{Name: pointer, Value: fact.Value{Kind: fact.YesNo, Yes: *value}, Place: c.run.place(pointer)})
	return *value
}

// cite records values of the manifest that a working used for this fact, where the manifest has them.
func (c *frame) cite(pointers ...string) {
	if c.run.bare {
		return
	}
	for _, p := range pointers {
		if text, ok := c.run.manifest.Text(p); ok {
			c.read(Input{Name: p, Value: fact.Value{Kind: fact.Word, Text: text}, Place: c.run.place(p)})
		}
	}
}

// givenRange is given for a range.
func givenRange[T unit.Scalar[T]](c *frame, pointer string, value *unit.Range[T]) unit.Range[T] {
	if value == nil {
		c.missing("the manifest does not say %s", pointer)
		return unit.Range[T]{Low: unit.From[T](nan), High: unit.From[T](nan)}
	}
	c.cite(pointer)
	return *value
}
