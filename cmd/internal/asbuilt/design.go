package asbuilt

import (
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A Line is one part of the design against what the scale says of its copies.
type Line struct {
	Ref     manifest.Ref
	Name    string
	Stated  unit.Quantity // of one piece, or of a metre; NaN is none
	Worst   unit.Quantity // with its allowance
	Read    []Reading     // of each copy that has one, in their order
	Mean    unit.Quantity
	Finding Finding
}

// Finding says what the scale makes of the design.
type Finding string

// The findings, by the mean of the copies and by the heaviest.
const (
	Within  Finding = "as designed"
	Beyond  Finding = "heavier than its worst" // at least one copy: the allowance was too small
	Lighter Finding = "lighter than stated by more than its allowance"
	Silent  Finding = "the design says nothing"
)

// Design holds the readings of all copies against the design, in the order of references; parts without a reading are left out.
func Design(facts *kits.Facts, copies []Copy) []Line {
	var lines []Line
	for _, w := range facts.Weighings() {
		part := facts.Manifest.Parts[w.Ref]
		l := Line{Ref: w.Ref, Name: part.Name}
		for _, c := range copies {
			for _, r := range c.Readings {
				if r.Ref == w.Ref {
					l.Read = append(l.Read, r)
				}
			}
		}
		if len(l.Read) > 0 {
			l.judge(part, w.Allowance.Quantity.SI)
			lines = append(lines, l)
		}
	}
	return lines
}

// Unweighed lists what is aloft and has no reading in a copy.
func Unweighed(facts *kits.Facts, c Copy) []manifest.Ref {
	var refs []manifest.Ref
	for _, w := range facts.Weighings() {
		read := false
		for _, r := range c.Readings {
			read = read || r.Ref == w.Ref
		}
		if !read {
			refs = append(refs, w.Ref)
		}
	}
	return refs
}

func (l *Line) judge(part manifest.Part, allowance float64) {
	dim := l.Read[0].Mass.Dim
	sum, heaviest, lightest := 0.0, l.Read[0].Mass.SI, l.Read[0].Mass.SI
	for _, r := range l.Read {
		sum += r.Mass.SI
		heaviest, lightest = max(heaviest, r.Mass.SI), min(lightest, r.Mass.SI)
	}
	l.Mean = unit.Quantity{SI: sum / float64(len(l.Read)), Dim: dim}
	stated, ok := Stated(part)
	if !ok {
		l.Finding = Silent
		return
	}
	l.Stated, l.Worst = stated, unit.Quantity{SI: stated.SI * (1 + allowance), Dim: dim}
	switch {
	case heaviest > l.Worst.SI:
		l.Finding = Beyond
	case lightest < stated.SI*(1-allowance):
		l.Finding = Lighter
	default:
		l.Finding = Within
	}
}
