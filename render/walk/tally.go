package walk

import (
	"fmt"
	"strings"

	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// countKey is the step that counts what is packed nowhere.
const countKey = "walk.count-loose"

// pieces is how many of a part go out with one kit, all sets of a battery that is changed on station included.
func pieces(p manifest.Part) int {
	n := 1
	if p.Quantity != nil {
		n = *p.Quantity
	}
	if p.Battery != nil && p.Battery.InRotation != nil {
		n *= *p.Battery.InRotation
	}
	return n
}

// packedIn lists the parts of a box that must come back.
func packedIn(m *manifest.Manifest, box string) []manifest.Ref {
	var refs []manifest.Ref
	for ref, p := range manifest.Sorted(m.Parts) {
		if strings.ReplaceAll(p.PackedIn, ".", " ") == box && p.ComesHome() {
			refs = append(refs, ref)
		}
	}
	return refs
}

// rest makes the step that counts what no step of the packs counts, so that every part is counted whatever the packs say.
func rest(m *manifest.Manifest, steps []step) []step {
	counted := map[manifest.Ref]bool{}
	for _, st := range steps {
		for _, ref := range st.tally {
			counted[ref] = true
		}
	}
	var loose []manifest.Ref
	n := 0
	for ref, p := range manifest.Sorted(m.Parts) {
		if p.ComesHome() && !counted[ref] {
			loose = append(loose, ref)
			n += pieces(p)
		}
	}
	if len(loose) == 0 {
		return nil
	}
	one := rules.Step{
		ID: countKey, Pack: "kit", List: Recovery, Phase: "Count what is packed nowhere else", Role: own.Anybody, Challenge: "Parts that no box has",
		Response: fmt.Sprintf("pieces back: %d", n), Critical: true,
		Reading: &rules.Gauge{
			Name: "pieces counted", Dim: unit.DimCount, High: unit.Count(n).Quantity(), Limited: true,
			Least: fact.Of(unit.Count(n).Quantity()), Most: fact.Of(unit.Count(n).Quantity()),
		},
	}
	return []step{{Step: one, key: countKey, tally: loose}}
}

// count takes how many pieces of a part are back. More than went out is a slip of the finger or the wrong kit.
func count(s *State, e *Entry) error {
	p, err := s.part(e.Part)
	if err != nil {
		return err
	}
	if s.List != Recovery {
		return refuse("go on to the recovery list first", "parts are counted back in on the way home")
	}
	out := pieces(p)
	if e.Pieces == nil || *e.Pieces < 0 {
		return refuse(fmt.Sprintf("write how many of %d are back", out), "how many pieces of %s are back is not said", e.Part)
	}
	if *e.Pieces > out {
		return refuse(fmt.Sprintf("count again: at most %d", out), "%d pieces of %s are more than went out", *e.Pieces, e.Part)
	}
	e.Challenge, e.Response = e.Part+", "+p.Name, fmt.Sprintf("%d out", out)
	return nil
}

// harm notes damage; the same damage with no pieces takes it back.
func harm(s *State, e *Entry) error {
	p, err := s.part(e.Part)
	if err != nil {
		return err
	}
	switch out := pieces(p); {
	case e.Fate != Mend && e.Fate != Replace:
		return refuse("write mend or replace", "what is to become of the damaged %s is not said", e.Part)
	case e.Pieces == nil || *e.Pieces < 0 || *e.Pieces > out:
		return refuse(fmt.Sprintf("write a number from 0 to %d", out), "how many pieces of %s are damaged is not said", e.Part)
	case *e.Pieces > 0 && e.Text == "":
		return refuse("write what is damaged", "what happened to %s is not said", e.Part)
	}
	e.Challenge = e.Part + ", " + p.Name
	return nil
}

func (s *State) part(ref string) (manifest.Part, error) {
	p, ok := s.Manifest.Parts[manifest.Ref(ref)]
	if !ok {
		return p, refuse(s.nearPart(ref), "there is no part %q in this kit", ref)
	}
	return p, nil
}

// tallied is the state of a tally: how many pieces are back, and whether all parts have been counted and none is short.
func (s *State) tallied(st step) (back int, all, short bool) {
	all = true
	for _, ref := range st.tally {
		n, counted := s.counted[string(ref)]
		all = all && counted
		short = short || counted && n < pieces(s.Manifest.Parts[ref])
		back += n
	}
	return back, all, short
}
