package rules

import (
	"cmp"
	"math"
	"slices"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// Options say how to judge one kit.
type Options struct {
	System  unit.System              // in which messages print
	Regions []string                 // whose packs are in force
	Waived  map[string]string        // ids of SHOULD rules that the manifest sets aside, with its reasons
	Say     func(text string) string // what checklists and cautions call a fact that is a word, or not shown, in the reader's language; nil: as it is
}

// Evaluate applies the rules in force to a kit's facts: one finding for each rule and subject, in the order of the packs.
// A rule whose guard is not met applies to nothing and has no finding. A region that no pack has rules for is a MUST that
// is not shown: someone counts on rules that are not there.
func Evaluate(packs Packs, facts Facts, o Options) []Finding {
	var findings []Finding
	for _, region := range o.Regions {
		if !slices.Contains(packs.Regions(), region) {
			findings = append(findings, missingRegion(region))
		}
	}
	for _, p := range packs.InForce(o.Regions) {
		for _, r := range p.Rules {
			findings = append(findings, r.Evaluate(facts, o)...)
		}
	}
	return findings
}

func missingRegion(region string) Finding {
	return Finding{
		Rule: "region." + region, Title: "The rules of the region are at hand", Level: Must, Outcome: NotShown,
		Margin: math.NaN(), Share: math.NaN(), Message: "the manifest asks for the rules of " + region + ", and no pack has them",
		Hint: "add the pack of that region, or take the region out of the manifest", Source: []string{},
	}
}

// Evaluate applies one rule, whether its pack is in force or not.
func (r *Rule) Evaluate(facts Facts, o Options) []Finding {
	var findings []Finding
	for _, subject := range subjects(facts, r.ForEach) {
		if f, applies := r.judge(scope{facts: facts, subject: subject, system: o.System}); applies {
			if r.Level == Should {
				f.Waived = o.Waived[r.ID]
			}
			findings = append(findings, f)
		}
	}
	return findings
}

// subjects lists what an entry runs over; one without a family runs once, for nobody in particular.
func subjects(facts Facts, family string) []string {
	if family == "" {
		return []string{""}
	}
	return facts.Subjects(family)
}

func (r *Rule) judge(s scope) (f Finding, applies bool) {
	guard := s.run(r.plan.when)
	if guard.outcome == NotMet {
		return Finding{}, false
	}
	got := guard
	if guard.outcome == Met {
		got = s.run(r.plan.check)
	}
	f = Finding{
		Rule: r.ID, Pack: r.pack.ID, Subject: s.subject, Title: r.Title, Level: r.Level, Outcome: got.outcome,
		Measure: got.measure, Relation: got.relation, Limit: got.limit, Missing: got.missing, Margin: got.margin, Share: got.share, Source: r.plan.sources,
	}
	if got.by != nil {
		f.Fact, f.Unit = fact.Fill(got.by.fact, s.subject), got.by.about.Unit
	}
	f.Message = r.message(s, got, f)
	if f.Outcome != Met {
		f.Hint = s.expand(r.plan.hint, f)
	}
	return f, true
}

func (r *Rule) message(s scope, got result, f Finding) string {
	switch {
	case f.Outcome == NotShown:
		return got.why
	case f.Outcome == NotMet:
		return s.expand(r.plan.message, f)
	case r.plan.ok != nil:
		return s.expand(r.plan.ok, f)
	case f.HasMargin():
		value, limit := f.Pair(s.system)
		return value + ", " + string(f.Relation) + " " + limit
	}
	return r.Title
}

// run decides a test. No test at all is met: it is how a rule without a guard applies.
func (s scope) run(t *test) result {
	if t == nil {
		return result{outcome: Met, margin: math.NaN(), share: math.NaN()}
	}
	if t.op == opCompare {
		return s.compare(&t.comparison)
	}
	results := make([]result, len(t.kids))
	for i, kid := range t.kids {
		results[i] = s.run(kid)
	}
	switch t.op {
	case opAll:
		return binding(results, slices.MinFunc[[]result], -1)
	case opAny:
		return binding(results, slices.MaxFunc[[]result], +1)
	}
	return results[0].negated()
}

// binding picks the result that decides: the outcome is the least (all) or the greatest (any) of them, and of the results
// with that outcome it is the one with the least (all) or the greatest (any) relative margin, or else the first. What has
// no margin decides before what has one when it fails all, and after it otherwise.
func binding(results []result, pick func([]result, func(a, b result) int) result, sign float64) result {
	outcome := pick(results, func(a, b result) int { return cmp.Compare(a.outcome, b.outcome) }).outcome
	results = slices.DeleteFunc(results, func(r result) bool { return r.outcome != outcome })
	without := math.Inf(-1)
	if sign < 0 && outcome == Met {
		without = math.Inf(1)
	}
	share := func(r result) float64 {
		if math.IsNaN(r.share) {
			return without
		}
		return r.share
	}
	return pick(results, func(a, b result) int { return cmp.Compare(share(a), share(b)) })
}

var negation = map[Relation]Relation{AtLeast: Below, AtMost: Above, Is: IsNot, Present: Absent, Below: AtLeast, Above: AtMost, IsNot: Is, Absent: Present}

func (r result) negated() result {
	r.outcome, r.relation, r.margin, r.share = r.outcome.Not(), negation[r.relation], -r.margin, -r.share
	return r
}
