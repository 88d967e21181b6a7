package change

import (
	"math"
	"slices"
	"strings"

	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// A Fit is the judgement of one part that was replaced or added.
type Fit struct {
	Subject *Subject
	// Alone reports whether the part was judged with nothing else changed. One that stands or falls with other changes is judged with all.
	Alone   bool
	Aspects []Aspect // every one of Ways, in its order
	// Unsaid are the control lines that end at the part and still say what they said of the part before.
	Unsaid []string
}

// Way is one of the ways in which a part fits or does not.
type Way string

// The ways.
const (
	Voltage   Way = "voltage"
	Current   Way = "current"
	Endurance Way = "endurance"
	Level     Way = "level"
	Weight    Way = "mass and lift"
	Reach     Way = "reach"
	Isolation Way = "isolation"
	Price     Way = "price"
	Other     Way = "else"
)

// Ways lists them in the order in which they are told.
var Ways = []Way{Voltage, Current, Endurance, Level, Weight, Reach, Isolation, Price, Other}

// An Aspect is what the rules say of a part in one way.
type Aspect struct {
	Way     Way
	Touched []rules.Shift // the rules that look at anything the part says; none: nothing there depends on it
}

// Outcome is the least outcome of the rules that the part touches.
func (a Aspect) Outcome() rules.Outcome {
	worst := rules.Met
	for _, s := range a.Touched {
		if s.After != nil {
			worst = min(worst, s.After.Outcome)
		}
	}
	return worst
}

// Tightest is the finding to look at: of those with the least outcome the one with the least margin.
func (a Aspect) Tightest() (tightest rules.Shift, ok bool) {
	for _, s := range a.Touched {
		if s.After == nil || s.After.Outcome != a.Outcome() {
			continue
		}
		if !ok || less(s.After.Share, tightest.After.Share) {
			tightest, ok = s, true
		}
	}
	return tightest, ok
}

// less puts what has no margin behind what has one.
func less(a, b float64) bool { return a < b || !math.IsNaN(a) && math.IsNaN(b) }

// Holds reports whether the part fits in every way.
func (f Fit) Holds() bool {
	return !slices.ContainsFunc(f.Aspects, func(a Aspect) bool {
		return slices.ContainsFunc(a.Touched, func(s rules.Shift) bool {
			return s.After != nil && s.After.Level == rules.Must && s.After.Outcome != rules.Met
		})
	})
}

// fits judges the parts that are something else now, or new.
func (c *Comparison) fits(trials []trial, packs rules.Packs) []Fit {
	var all []Fit
	for _, t := range trials {
		if t.subject.Kind != "part" || t.subject.State != Replaced && t.subject.State != New {
			continue
		}
		f := Fit{Subject: t.subject, Alone: t.why == ""}
		side, shifts := t.side, t.shifts
		if !f.Alone {
			side, shifts = c.After, shiftsOf(c.Margins)
		}
		f.Aspects = aspects(t.subject.Ref, side.Facts, shifts, packs)
		if t.subject.State == Replaced {
			f.Unsaid = c.unsaid(t.subject.Ref)
		}
		all = append(all, f)
	}
	return all
}

// unsaid lists the control lines of a part about which nothing new is said.
func (c *Comparison) unsaid(ref string) []string {
	var names []string
	for name, s := range manifest.Sorted(c.After.Manifest.Signals) {
		if (string(s.From) == ref || string(s.To) == ref) && !slices.ContainsFunc(c.Subjects, func(s Subject) bool { return s.Kind == "signal" && s.Ref == string(name) }) {
			names = append(names, string(name))
		}
	}
	return names
}

func shiftsOf(margins []Margin) []rules.Shift {
	shifts := make([]rules.Shift, len(margins))
	for i, m := range margins {
		shifts[i] = m.Shift
	}
	return shifts
}

// aspects sorts the findings that a part touches by the ways in which it may fit.
func aspects(ref string, facts *kits.Facts, shifts []rules.Shift, packs rules.Packs) []Aspect {
	all := make([]Aspect, len(Ways))
	for i, way := range Ways {
		all[i].Way = way
	}
	rests := facts.RestsOn(func(name string) bool { return strings.HasPrefix(name, "/parts/"+ref+"/") })
	for _, s := range shifts {
		rule, ok := packs.Rule(s.Now().Rule)
		if !ok || s.After == nil {
			continue
		}
		reads := rule.Reads(s.Now().Subject)
		if s.Kind() == rules.Same && !slices.ContainsFunc(reads, rests) && !ends(facts.Manifest, ref, s.Now().Subject, reads) {
			continue
		}
		i := slices.Index(Ways, wayOf(s.Now().Fact, reads))
		all[i].Touched = append(all[i].Touched, s)
	}
	return all
}

// ends reports whether a finding is about a control line that ends at the part.
func ends(m *manifest.Manifest, ref, subject string, reads []string) bool {
	line, ok := m.Signals[manifest.Ref(subject)]
	return ok && (string(line.From) == ref || string(line.To) == ref) && strings.HasPrefix(reads[0], "signals.")
}

// wayOf sorts a finding by the fact that decided it, or by the first that its rule reads.
func wayOf(decided string, reads []string) Way {
	id := decided
	if id == "" && len(reads) > 0 {
		id = reads[0]
	}
	about, _ := kits.Catalogue{}.Describe(id)
	topic, _, _ := strings.Cut(id, ".")
	switch topic {
	case "cost":
		return Price
	case "signals":
		return Level
	case "mass", "lift", "gas", "wind", "tether", "anchor", "air", "balloon":
		return Weight
	case "radio":
		if about.Dim == unit.DimDecibel && about.Kind == fact.Number {
			return Isolation
		}
		if strings.Contains(id, "exposure") {
			return Other
		}
		return Reach
	case "power":
		switch {
		case about.Kind != fact.Number:
		case about.Dim == unit.DimVoltage:
			return Voltage
		case about.Dim == unit.DimCurrent || strings.Contains(id, "dissipation"):
			return Current
		case about.Dim == unit.DimDuration || about.Dim == unit.DimEnergy:
			return Endurance
		}
	}
	return Other
}
