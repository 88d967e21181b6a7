package size

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// A kit is what is sized, and how the MUST rules judge it as designed.
type kit struct {
	m       *manifest.Manifest
	packs   rules.Packs
	options rules.Options
	system  unit.System
	facts   *kits.Facts
	base    state
}

// A state is one variation of the kit: its facts, and what each MUST rule says of each of its subjects.
type state struct {
	facts    *kits.Glance
	findings []rules.Finding
	index    map[key]int
	none     string // why there is no such variation
}

// A key names a rule and its subject.
type key struct{ rule, subject string }

func keyOf(f rules.Finding) key { return key{f.Rule, f.Subject} }

func (k *kit) judge(m *manifest.Manifest) state {
	s := state{facts: kits.Look(m), index: map[key]int{}}
	s.findings = rules.Evaluate(k.packs, s.facts, k.options)
	for i, f := range s.findings {
		s.index[keyOf(f)] = i
	}
	return s
}

// number looks a fact up that is a number; what is not known is NaN.
func (s state) number(id string) float64 {
	if s.facts == nil {
		return math.NaN()
	}
	v, ok := s.facts.Lookup(id)
	if !ok || !v.Known() || v.Kind != fact.Number {
		return math.NaN()
	}
	return v.Quantity.SI
}

// says reports whether two findings measured the same and came to the same.
func says(a, b rules.Finding) bool {
	return a.Outcome == b.Outcome && alike(a.Measure, b.Measure) && alike(a.Limit, b.Limit)
}

func alike(a, b fact.Value) bool {
	if a.Known() != b.Known() || !a.Known() {
		return a.Known() == b.Known() && a.Unknown == b.Unknown
	}
	return a == b
}

// aside lists the rules that the kit as designed does not meet and that have nothing to do with what is varied: no fact that
// they compare reads it, and they say the same of every variation. They are left out of the search.
func (k *kit) aside(a *axis, states []state) map[key]bool {
	out := map[key]bool{}
	for _, f := range k.base.findings {
		if f.Outcome == rules.Met || k.reads(f, a) {
			continue
		}
		same := true
		for _, s := range states {
			if s.none != "" {
				continue
			}
			i, judged := s.index[keyOf(f)]
			same = same && judged && says(f, s.findings[i])
		}
		out[keyOf(f)] = same
	}
	return out
}

// failing lists what is not met, but for what is set aside.
func (s state) failing(aside map[key]bool) []rules.Finding {
	var out []rules.Finding
	for _, f := range s.findings {
		if f.Outcome != rules.Met && !aside[keyOf(f)] {
			out = append(out, f)
		}
	}
	return out
}

// open lists what is not shown, but for what is set aside.
func (s state) open(aside map[key]bool) []rules.Finding {
	return slices.DeleteFunc(s.failing(aside), func(f rules.Finding) bool { return f.Outcome != rules.NotShown })
}

// goes reports whether the verdict is GO, but for what is set aside.
func (s state) goes(aside map[key]bool) bool {
	return s.none == "" && len(s.findings) > 0 && len(s.failing(aside)) == 0
}

// worth is the least margin of all rules that are not set aside: the nearer to GO, the greater.
func (s state) worth(aside map[key]bool) float64 {
	if s.none != "" {
		return math.Inf(-1)
	}
	least := math.Inf(1)
	for _, f := range s.findings {
		switch {
		case aside[keyOf(f)]:
		case f.Outcome == rules.NotShown:
			return math.Inf(-1)
		case !math.IsNaN(f.Share):
			least = min(least, f.Share)
		case f.Outcome == rules.NotMet:
			least = min(least, -1)
		}
	}
	return least
}

// each does independent pieces of work on all cores.
func each(n int, work func(int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				work(i)
			}
		})
	}
	wait.Wait()
}

// A Binding is a rule that decides, in the words of its finding.
type Binding struct {
	Rule    string `json:"rule"`
	Subject string `json:"subject"`
	Title   string `json:"title"`
	Message string `json:"message"`
}

func bindings(findings []rules.Finding) []Binding {
	out := make([]Binding, len(findings))
	for i, f := range findings {
		out[i] = Binding{f.Rule, f.Subject, f.Title, f.Message}
	}
	return out
}

// setAside lists what was left out.
func (k *kit) setAside(aside map[key]bool) []Binding {
	var out []rules.Finding
	for _, f := range k.base.findings {
		if aside[keyOf(f)] {
			out = append(out, f)
		}
	}
	return bindings(out)
}

// glance looks at the facts alone.
func (k *kit) glance(m *manifest.Manifest) state { return state{facts: kits.Look(m)} }
