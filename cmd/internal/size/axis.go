package size

import (
	"errors"
	"fmt"
	"math"
	"sync"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// An axis is one thing that is varied, in a row of round steps.
type axis struct {
	k       *kit
	what    string // in words: "fill"
	varied  string // JSON pointer of the value, or what is added
	follows string // JSON pointer of a value that follows it
	now     float64
	low     float64 // what is looked at, in the unit held
	high    float64
	dim     unit.Dimension
	symbol  string
	step    float64 // in that unit
	places  int     // decimals of the step
	missing string  // why nothing can be varied
	make    func(held float64) (*manifest.Manifest, error)

	lock sync.Mutex
	seen map[float64]state
}

// scale chooses the steps: round ones in the reader's unit, not coarser than a part of the size of things.
func (a *axis) scale(dim unit.Dimension, size, part float64) {
	a.dim, a.seen = dim, map[float64]state{}
	q := unit.Quantity{SI: size, Dim: dim}
	a.symbol = q.Symbol(a.k.system)
	power := int(math.Floor(math.Log10(math.Abs(q.In(a.symbol)) / part)))
	a.step, a.places = math.Pow10(power), max(0, -power)
}

// at is the value of a step, as it is held.
func (a *axis) at(n int) float64 {
	value := float64(n)
	if a.places > 0 {
		value /= math.Pow10(a.places) // a whole number over a power of ten is the float nearest to the decimal that is printed
	} else {
		value *= a.step
	}
	for _, u := range a.dim.Info().Units {
		if u.Symbol == a.symbol {
			return value*u.Mul/u.Div + u.Add
		}
	}
	return math.NaN()
}

// below is the last step not above a value that is held.
func (a *axis) below(held float64) int {
	n := int(math.Floor(unit.Quantity{SI: held, Dim: a.dim}.In(a.symbol)/a.step + 1e-9))
	return n
}

func (a *axis) amount(held float64) Amount {
	return Amount{unit.Quantity{SI: held, Dim: a.dim}, a.symbol, a.places}
}

// judge looks at one value, once.
func (a *axis) judge(held float64) state {
	a.lock.Lock()
	s, done := a.seen[held]
	a.lock.Unlock()
	if done {
		return s
	}
	if m, err := a.make(held); err != nil {
		s.none = err.Error()
	} else {
		s = a.k.judge(m)
	}
	a.lock.Lock()
	a.seen[held] = s
	a.lock.Unlock()
	return s
}

// judgeAll looks at many values on all cores.
func (a *axis) judgeAll(held []float64) []state {
	out := make([]state, len(held))
	each(len(held), func(i int) { out[i] = a.judge(held[i]) })
	return out
}

// number is an axis along a number that the manifest says.
func (k *kit) number(what, pointer string) (*axis, manifest.Number) {
	n, ok := k.m.Number(pointer)
	a := &axis{k: k, what: what, varied: pointer, now: n.Value.SI, make: func(held float64) (*manifest.Manifest, error) { return k.m.With(n, held) }}
	if !ok {
		a.missing = fmt.Sprintf("the manifest does not say %s", pointer)
		a.now = math.NaN()
	}
	return a, n
}

// part finds the pointer to a facet of the one part that has it.
func (k *kit) part(has func(manifest.Part) bool, name string) string {
	for ref, p := range manifest.Sorted(k.m.Parts) {
		if has(p) {
			return "/parts/" + string(ref) + "/" + name
		}
	}
	return "/parts/?/" + name
}

func (k *kit) fill() *axis {
	pointer := k.part(func(p manifest.Part) bool { return p.Envelope != nil }, "envelope/fill_volume")
	a, n := k.number("fill", pointer)
	if a.missing != "" {
		return a
	}
	full := k.base.number("gas.largest_m3")
	if !(full > 0) {
		full = 2 * n.Value.SI
	}
	a.low, a.high = 0.02*n.Value.SI, 1.2*max(full, n.Value.SI)
	a.scale(unit.DimVolume, n.Value.SI, 200)
	return a
}

func (k *kit) wind() *axis {
	a, n := k.number("wind", "/station/wind/speed")
	if a.missing != "" {
		return a
	}
	a.high = max(3*n.Value.SI, 5)
	if most := k.base.number("wind.greatest_m_s"); most > 0 {
		a.high = max(a.high, 2*most)
	}
	a.scale(unit.DimSpeed, max(n.Value.SI, 1), 100)
	return a
}

// addedMass stands for what is added to the payload.
const addedMass = "mass added to the payload"

// payload varies the mass under the balloon by one more part, weighed, that costs nothing; below zero it takes mass away.
func (k *kit) payload() *axis {
	worst, gross := k.base.number("mass.payload_worst_kg"), k.base.number("lift.gross_kg")
	a := &axis{k: k, what: "added mass", varied: addedMass}
	if !(worst > 0 && gross > 0) {
		a.missing, a.now = "the mass aloft or the lift is not known", math.NaN()
		return a
	}
	a.low, a.high = -worst, gross
	a.scale(unit.DimMass, worst, 500)
	ref := manifest.Ref("ADDED")
	for _, taken := k.m.Parts[ref]; taken; _, taken = k.m.Parts[ref] {
		ref += "x"
	}
	a.make = func(held float64) (*manifest.Manifest, error) {
		if held == 0 {
			return k.m, nil
		}
		mass := unit.Mass(held)
		return k.m.Adding(ref, manifest.Part{
			Name: addedMass, Place: manifest.Aloft, Mass: &mass, MassBasis: manifest.Weighed, Offers: []manifest.Offer{{Price: unit.MustDecimal("0")}},
		})
	}
	return a
}

// staysBelow is by which part of itself the lowest height stays below the height at which the balloon stands: what the search
// for that height may be out by.
const staysBelow = 0.002

// line varies the line paid out, and lets the lowest height follow the height at which the balloon then stands.
func (k *kit) line() *axis {
	a, out := k.number("line paid out", "/station/tether_out")
	lowest, ok := k.m.Number("/station/lowest_height")
	if a.missing != "" || !ok {
		if a.missing == "" {
			a.missing = "the manifest does not say /station/lowest_height"
		}
		return a
	}
	bought := k.base.number("tether.length_m")
	if !(bought > 0) {
		bought = out.Value.SI
	}
	a.follows = lowest.Pointer
	a.low, a.high = 0.1*out.Value.SI, 1.3*max(bought, out.Value.SI)
	a.scale(unit.DimLength, out.Value.SI, 200)
	a.make = func(held float64) (*manifest.Manifest, error) {
		m, err := k.m.With(out, held)
		if err != nil {
			return nil, err
		}
		stands := k.glance(m).number("tether.height_m")
		if math.IsNaN(stands) {
			return nil, errors.New("the balloon does not stand")
		}
		return m.With(lowest, (1-staysBelow)*stands)
	}
	return a
}
