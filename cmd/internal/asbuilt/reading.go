// Package asbuilt turns what a scale read into an overlay for one built copy of a kit, and says where the design was wrong.
//
// A reading is the mass of one piece, as the manifest gives masses; pieces weighed together are divided, and of the tether the
// linear mass is wanted. What was not weighed keeps the design's mass and allowance: nothing is guessed from its neighbours.
package asbuilt

import (
	"fmt"
	"strconv"
	"strings"

	"hoistbook/kits/diag"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A Reading is what one part of one copy weighs.
type Reading struct {
	Ref  manifest.Ref
	Text string        // as it was read
	Mass unit.Quantity // of one piece; of the tether, its linear mass
}

// surprising is how many times heavier or lighter than the design a part may be before the unit of the reading is doubted.
const surprising = 5

// Read reads "301 g", "12.3 g / 3" for pieces that were weighed together, "1.42 g/m" or "85.2 g / 60 m" for the tether. The
// error is diag.Problems at the place.
func Read(m *manifest.Manifest, ref, text string, place diag.Place, sure bool) (Reading, error) {
	fail := func(what, fix string) (Reading, error) {
		return Reading{}, diag.Problems{{Place: place, What: what, Fix: fix}}
	}
	part, ok := m.Parts[manifest.Ref(ref)]
	if !ok {
		var known []string
		for name := range manifest.Sorted(m.Parts) {
			known = append(known, string(name))
		}
		return fail(fmt.Sprintf("there is no part %q", ref), diag.DidYouMean(ref, known, "name a part by its reference in the manifest"))
	}
	mass, err := parse(part, text)
	if err != nil {
		return fail(ref+": "+err.Error(), "")
	}
	if mass.SI <= 0 {
		return fail(fmt.Sprintf("%s: a scale that reads %q shows nothing", ref, text), "leave the part out if it was not weighed")
	}
	if stated, ok := Stated(part); ok && !sure && (mass.SI > surprising*stated.SI || mass.SI < stated.SI/surprising) {
		return fail(fmt.Sprintf("%s: %s was read, and the manifest says %s", ref, mass.Text(unit.SI), stated.Text(unit.SI)),
			"look at the unit and at how many pieces lay on the scale; if it is so, say --sure")
	}
	return Reading{manifest.Ref(ref), text, mass}, nil
}

// Stated is what the manifest says of one piece, or of a metre of the tether.
func Stated(p manifest.Part) (unit.Quantity, bool) {
	switch {
	case p.Tether != nil && p.Tether.LinearMass != nil:
		return p.Tether.LinearMass.Quantity(), true
	case p.Tether == nil && p.Mass != nil:
		return p.Mass.Quantity(), true
	}
	return unit.Quantity{}, false
}

func parse(p manifest.Part, text string) (unit.Quantity, error) {
	text = strings.TrimSpace(text)
	if p.Tether != nil {
		if q, err := unit.ParseQuantity(unit.DimLinearMass, text); err == nil {
			return q, nil
		}
	}
	whole, by, together := cutLast(text)
	if !together && p.Tether != nil {
		return unit.Quantity{}, fmt.Errorf("%q is not the linear mass of a line; write it as \"1.4 g/m\", or a mass and the length that was weighed: \"84 g / 60 m\"", text)
	}
	mass, err := unit.ParseQuantity(unit.DimMass, whole)
	if err != nil {
		return unit.Quantity{}, err
	}
	if !together {
		return mass, nil
	}
	if p.Tether != nil {
		length, err := unit.ParseQuantity(unit.DimLength, by)
		if err != nil {
			return unit.Quantity{}, err
		}
		return unit.Quantity{SI: mass.SI / length.SI, Dim: unit.DimLinearMass}, nil
	}
	pieces, err := strconv.Atoi(by)
	if err != nil || pieces < 1 {
		return unit.Quantity{}, fmt.Errorf("%q is not a number of pieces; write how many were weighed together: \"12.3 g / 3\"", by)
	}
	return unit.Quantity{SI: mass.SI / float64(pieces), Dim: unit.DimMass}, nil
}

// cutLast parts "12.3 g / 3" at its last slash.
func cutLast(text string) (head, tail string, found bool) {
	i := strings.LastIndexByte(text, '/')
	if i < 0 {
		return text, "", false
	}
	return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+1:]), true
}
