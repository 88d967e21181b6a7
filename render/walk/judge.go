package walk

import (
	"cmp"
	"errors"
	"slices"
	"sync"
	"sync/atomic"

	"hoistbook/kits"
	"hoistbook/kits/diag"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

// own are the words for the steps that a kit brings along.
var own = crew.Own{Phase: "This kit's own steps", Done: "done", Anybody: "anybody"}

// A judgement is what follows from the readings: facts, findings and both lists.
type judgement struct {
	facts    *kits.Facts
	findings []rules.Finding
	lists    map[string][]step
	cautions []rules.Alert
}

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
	r := s.readings("")
	laid, err := r.Lay(s.kit.Manifest)
	var problems diag.Problems
	if errors.As(err, &problems) {
		return nil, refuse(problems[0].Fix, "this does not fit the manifest: %s", problems[0].What)
	} else if err != nil {
		return nil, err
	}
	j := s.kit.judge(r.On(laid))
	return j, s.unbiased(j)
}

func (k *Kit) judge(f *kits.Facts) *judgement {
	m := f.Manifest
	o := crew.Options(m, k.System)
	j := &judgement{facts: f, findings: rules.Evaluate(k.Packs, f, o), lists: map[string][]step{}}
	j.cautions = crew.Gravest(append(rules.Cautions(k.Packs, f, o), crew.Cautions(m)...))
	boxes := f.Subjects("packing")
	for _, list := range []string{Preflight, Recovery} {
		for _, one := range crew.Checklist(m, k.Packs, f, o, list, own) {
			st := step{Step: one, key: keyOf(one.ID, one.Subject)}
			if g := one.Reading; g != nil && g.Dim == unit.DimCount && slices.Contains(boxes, one.Subject) {
				st.tally = packedIn(m, one.Subject)
			} else if g != nil && g.Limited {
				st.Response = g.Asks(k.System) // paper says what was planned; what is asked here must be what is judged
			}
			j.lists[list] = append(j.lists[list], st)
		}
	}
	at := beforeClosing(j.lists[Recovery])
	j.lists[Recovery] = slices.Insert(j.lists[Recovery], at, rest(m, j.lists[Recovery])...)
	return j
}

// readings gathers what was measured, the later of two for one value; without leaves one step's reading out.
func (s *State) readings(without string) kits.Readings {
	r := kits.Readings{Values: map[string]unit.Quantity{}, Facts: map[string]unit.Quantity{}}
	keys := make([]string, 0, len(s.answers))
	for key, a := range s.answers {
		if a.reads != nil && key != without {
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
	for _, list := range []string{Preflight, Recovery} {
		for i, st := range j.lists[list] {
			a, answered := s.answers[st.key]
			if st.Reading == nil || !answered || len(a.feeds) == 0 && a.replaces == "" || s.base.asksSame(list, st) {
				continue
			}
			looking.Go(func() {
				f, err := s.readings(st.key).Assess(s.kit.Manifest)
				if err != nil {
					failed.Store(&err)
					return
				}
				if other, ok := s.kit.judge(f).find(list, st.key); ok {
					j.lists[list][i].Step = other.Step
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
