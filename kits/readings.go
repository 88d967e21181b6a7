package kits

import (
	"encoding/json"
	"fmt"
	"maps"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
)

// Readings are what a crew measured at the launch site. They take the place of what the manifest assumes.
type Readings struct {
	Values map[string]unit.Quantity // of the manifest, by JSON pointer
	Facts  map[string]unit.Quantity // of facts, by id
}

// ReadingsFile is the file that a measured value is said to come from.
const ReadingsFile = "readings"

// Assess is Assess with the readings in place of assumptions. The error is diag.Problems when a reading does not fit the
// manifest; a measured fact that cannot be made use of is no error but a fact that is not shown.
func (r Readings) Assess(m *manifest.Manifest) (*Facts, error) {
	laid, err := r.Lay(m)
	if err != nil {
		return nil, err
	}
	return r.On(laid), nil
}

// Look is Assess for who needs single facts, and not where they come from.
func (r Readings) Look(m *manifest.Manifest) (*Glance, error) {
	laid, err := r.Lay(m)
	if err != nil {
		return nil, err
	}
	g := Look(laid)
	g.run.measure(r)
	return g, nil
}

// Lay puts the measured values into a manifest; the first half of Assess. A number that the manifest says already is
// exchanged; anything else is read and checked anew.
func (r Readings) Lay(m *manifest.Manifest) (*manifest.Manifest, error) {
	values := r.cautious(m)
	laid := m
	for _, n := range m.Numbers() {
		q, measured := values[n.Pointer]
		if !measured || q.Dim != n.Value.Dim || n.End != "" || isMass(n.Pointer) {
			continue
		}
		with, err := laid.With(n, q.SI)
		if err != nil {
			continue // reading it anew says better what is wrong
		}
		laid = with
		delete(values, n.Pointer)
	}
	if len(values) == 0 {
		return laid, nil
	}
	r.Values = values
	overlay, err := r.overlay(m)
	if err != nil {
		return nil, err
	}
	return manifest.Load(manifest.Source{Name: m.Place("").File, Data: laid.JSON()}, overlay)
}

// isMass reports whether a pointer is to the mass of a part: a part that is weighed changes its basis too.
func isMass(pointer string) bool {
	names, ok := jsontree.SplitPointer(pointer)
	return ok && len(names) == 3 && names[0] == "parts" && names[2] == "mass"
}

// On computes the facts of a manifest into which the measured values have been put; the second half of Assess.
func (r Readings) On(laid *manifest.Manifest) *Facts {
	run := newRun(laid)
	run.measure(r)
	return run.assess()
}

// overlay is the merge patch that puts the measured values into the manifest.
func (r Readings) overlay(m *manifest.Manifest) (manifest.Source, error) {
	patch := map[string]any{}
	for pointer, q := range r.Values {
		names, ok := jsontree.SplitPointer(pointer)
		if !ok || len(names) == 0 {
			return manifest.Source{}, fmt.Errorf("%q is not a JSON pointer to a value of a manifest", pointer)
		}
		put(patch, names, q.Exact())
		if isMass(pointer) {
			put(patch, []string{names[0], names[1], "mass_basis"}, string(manifest.Weighed))
		}
	}
	text, err := json.Marshal(patch)
	return manifest.Source{Name: ReadingsFile, Data: text}, err
}

func put(into map[string]any, names []string, value string) {
	for _, name := range names[:len(names)-1] {
		inner, ok := into[name].(map[string]any)
		if !ok {
			inner = map[string]any{}
			into[name] = inner
		}
		into = inner
	}
	into[names[len(names)-1]] = value
}

// cautious are the measured values with what a reading cannot take away. A thermometer in the morning knows neither the noon
// nor the night: where it reads between the coldest and the hottest air of the whole station time, both stay. A calm minute
// does not make the station time calm: less wind than planned leaves the planned one, at the height of the meter.
func (r Readings) cautious(m *manifest.Manifest) map[string]unit.Quantity {
	values := maps.Clone(r.Values)
	if m.Station == nil {
		return values
	}
	keep := func(pointer string, better func(a, b float64) float64, planned float64) {
		if q, measured := values[pointer]; measured {
			q.SI = better(q.SI, planned)
			values[pointer] = q
		}
	}
	atLeast := func(a, b float64) float64 { return max(a, b) }
	if s := m.Station.Site; s != nil && s.Coldest != nil {
		keep("/station/site/coldest", func(a, b float64) float64 { return min(a, b) }, s.Coldest.SI())
	}
	if s := m.Station.Site; s != nil && s.Hottest != nil {
		keep("/station/site/hottest", atLeast, s.Hottest.SI())
	}
	w := m.Station.Wind
	if w == nil || w.Speed == nil {
		return values
	}
	planned := unit.Quantity{SI: w.Speed.SI(), Dim: unit.DimSpeed}
	if at, moved := values["/station/wind/measured_at"]; moved && w.MeasuredAt != nil {
		alpha, _ := tether.Terrain(w.Terrain).Exponent() // no terrain: nothing of the wind is known
		planned.SI = tether.Profile{MeasuredAt: *w.MeasuredAt, Exponent: alpha}.At(unit.Length(at.SI), *w.Speed).SI()
		if _, measured := values["/station/wind/speed"]; !measured {
			values["/station/wind/speed"] = planned
		}
	}
	keep("/station/wind/speed", atLeast, planned.SI)
	return values
}
