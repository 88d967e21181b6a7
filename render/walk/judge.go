package walk

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"hoistbook/kits"
	"hoistbook/kits/diag"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

// own are the words for the steps that a kit brings along.
var own = crew.Own{Phase: "This kit's own steps", Done: "done", Anybody: "anybody"}

// A judgement is what follows from the readings: findings, both lists, and the values that a crew watches.
type judgement struct {
	findings []rules.Finding
	lists    map[string][]step
	cautions []rules.Alert
	values   map[string]fact.Value

	amiss   []string        // keys of the readings that their limits do not allow
	without map[string]bool // rules, by ruleKey, that are met when these readings are left out: they follow from them
}

// watched are the facts that a crew watches, with what they are called on a screen.
var watched = []struct {
	name, fact string
	print      func(fact.Value, unit.System) string
}{
	{"Greatest wind", "wind.greatest_m_s", atMost}, {"Neck lift needed", "lift.neck_needed_kg", atLeast}, {"Free lift", "lift.free_kg", value},
	{"Height in the wind", "tether.height_m", value}, {"Lean in the wind", "tether.lean_deg", value}, {"Battery lasts", enduranceFact, atMost},
}

func value(v fact.Value, system unit.System) string   { return v.Print(system, "") }
func atLeast(v fact.Value, system unit.System) string { return v.Limit(unit.AtLeast, system) }
func atMost(v fact.Value, system unit.System) string  { return v.Limit(unit.AtMost, system) }

const enduranceFact = "power.endurance_h"

var lists = []string{Preflight, Change, Recovery}

// A step is an item of a list for its subject. A tally is one whose reading is the count of what is packed together: it is
// answered part by part.
type step struct {
	rules.Step
	key   string
	tally []manifest.Ref
}

func keyOf(item, subject string) string {
	if subject == "" {
		return item
	}
	return item + "/" + subject
}

// judge computes everything from the readings so far. A reading that the manifest cannot take is refused.
func (s *State) judge() (*judgement, error) {
	facts, err := s.readings().Look(s.kit.Manifest)
	var problems diag.Problems
	if errors.As(err, &problems) {
		return nil, refuse(problems[0].Fix, "this does not fit the manifest: %s", problems[0].What)
	} else if err != nil {
		return nil, err
	}
	j := s.kit.judge(facts)
	if err := s.unbiased(j); err != nil {
		return nil, err
	}
	return j, s.trace(j)
}

// trace finds out which rules are broken only by readings that are amiss themselves: what mends those mends these, and nobody at a
// launch site builds another kit.
func (s *State) trace(j *judgement) error {
	for _, list := range lists {
		for _, st := range j.lists[list] {
			a := s.answers[st.key]
			if st.Reading != nil && a.reads != nil && (len(a.feeds) > 0 || a.replaces != "") && amiss(st.Reading, *a.reads) {
				j.amiss = append(j.amiss, st.key)
			}
		}
	}
	if len(j.amiss) == 0 {
		return nil
	}
	facts, err := s.readings(j.amiss...).Look(s.kit.Manifest)
	if err != nil {
		return err
	}
	j.without = map[string]bool{}
	for _, f := range rules.Evaluate(s.kit.Packs, facts, crew.Options(s.kit.Manifest, s.kit.System)) {
		j.without[ruleKey(f.Rule, f.Subject)] = f.Outcome == rules.Met
	}
	return nil
}

func (k *Kit) judge(f *kits.Glance) *judgement {
	m := k.Manifest
	o := crew.Options(m, k.System)
	j := &judgement{findings: rules.Evaluate(k.Packs, f, o), lists: map[string][]step{}, values: map[string]fact.Value{}}
	j.cautions = crew.Gravest(append(rules.Cautions(k.Packs, f, o), crew.Cautions(m)...))
	for _, w := range watched {
		if v, ok := f.Lookup(w.fact); ok {
			j.values[w.fact] = v
		}
	}
	if needed, most := number(f, "gas.fill_needed_m3"), number(f, "gas.largest_m3"); needed > most {
		j.values["lift.neck_needed_kg"] = fact.Value{Kind: fact.Word, Text: "more than the balloon holds"}
	}
	boxes := f.Subjects("packing")
	for _, list := range lists {
		steps := crew.Checklist(m, k.Packs, f, o, list, own)
		for _, one := range steps {
			st := step{Step: k.asked(one), key: keyOf(one.ID, one.Subject)}
			if g := one.Reading; g != nil && g.Dim == unit.DimCount && slices.Contains(boxes, one.Subject) {
				st.Step, st.tally = one, packedIn(m, one.Subject)
			}
			j.lists[list] = append(j.lists[list], st)
		}
		if list == Recovery {
			j.lists[list] = slices.Insert(j.lists[list], crew.Closing(steps), rest(m, j.lists[list])...)
		}
	}
	return j
}

// amiss reports whether a reading is not what its limits allow, or what is expected of it.
func amiss(g *rules.Gauge, reading unit.Quantity) bool {
	_, doubted := g.Doubt(reading)
	return doubted || g.Judge(reading) == rules.NotMet
}

// number is a fact's value, or none at all.
func number(f *kits.Glance, id string) float64 {
	v, ok := f.Lookup(id)
	if !ok || !v.Known() {
		return math.NaN()
	}
	return v.Quantity.SI
}

// asked puts the limit of a reading in the place of what was planned: what is asked must be what is judged, and here the limit
// moves with what is measured.
func (k *Kit) asked(st rules.Step) rules.Step {
	if st.Reading != nil && st.Reading.Limited {
		st.Response = st.Reading.Asks(k.System)
	}
	return st
}

// readings gathers what was measured, the later of two for one value; without leaves the readings of some steps out.
func (s *State) readings(without ...string) kits.Readings {
	r := kits.Readings{Values: map[string]unit.Quantity{}, Facts: map[string]unit.Quantity{}}
	keys := make([]string, 0, len(s.answers))
	for key, a := range s.answers {
		if a.reads != nil && !slices.Contains(without, key) {
			keys = append(keys, key)
		}
	}
	slices.SortFunc(keys, func(a, b string) int { return cmp.Compare(s.answers[a].n, s.answers[b].n) })
	for _, key := range keys {
		a := s.answers[key]
		for _, pointer := range a.feeds {
			r.Values[pointer] = *a.reads
		}
		if a.replaces != "" {
			r.Facts[a.replaces] = *a.reads
		}
	}
	for part, w := range s.weighed {
		r.Values["/parts/"+part+"/mass"] = w.mass
	}
	return r
}

// unbiased gives every reading the words and limits that follow from everything but itself: the line that is out must not
// become the line that may be out. Only where readings have moved them is there anything to find out.
func (s *State) unbiased(j *judgement) error {
	if s.base == nil {
		return nil
	}
	var looking sync.WaitGroup
	var failed atomic.Pointer[error]
	for _, list := range lists {
		for i, st := range j.lists[list] {
			a, answered := s.answers[st.key]
			if st.Reading == nil || !answered || len(a.feeds) == 0 && a.replaces == "" || s.base.asksSame(list, st) {
				continue
			}
			looking.Go(func() {
				f, err := s.readings(st.key).Look(s.kit.Manifest)
				if err != nil {
					failed.Store(&err)
					return
				}
				if other, ok := s.kit.Packs.Step(f, crew.Options(s.kit.Manifest, s.kit.System), st.ID, st.Subject); ok {
					j.lists[list][i].Step = s.kit.asked(other)
				}
			})
		}
	}
	looking.Wait()
	if err := failed.Load(); err != nil {
		return *err
	}
	return nil
}

// asksSame reports whether a step asks here what it asks there.
func (j *judgement) asksSame(list string, st step) bool {
	other, ok := j.find(list, st.key)
	return ok && other.Reading != nil && other.Reading.Least == st.Reading.Least && other.Reading.Most == st.Reading.Most &&
		other.Challenge == st.Challenge && other.Response == st.Response
}

func (j *judgement) find(list, key string) (step, bool) {
	for _, st := range j.lists[list] {
		if st.key == key {
			return st, true
		}
	}
	return step{}, false
}
