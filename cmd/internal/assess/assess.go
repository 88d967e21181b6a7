// Package assess takes a checked manifest through the whole of the job: facts, then findings, then the verdict.
package assess

import (
	"encoding/json"
	"fmt"

	"hoistbook/kits"
	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

// An Assessment is what a manifest does and what the rules say of it.
type Assessment struct {
	Manifest *manifest.Manifest
	Facts    *kits.Facts
	Packs    rules.Packs
	Findings []rules.Finding
	Verdict  rules.Decision
}

// Of assesses a manifest by the packs. The error is diag.Problems: a waiver of the manifest that cannot stand.
func Of(m *manifest.Manifest, packs rules.Packs, system unit.System) (*Assessment, error) {
	o := crew.Options(m, system)
	var problems diag.Problems
	for id, reason := range o.Waived {
		if what, fix := packs.Waiver(id, reason); what != "" {
			problems.Add(m.Place(jsontree.Pointer("waivers", id)), what, fix)
		}
	}
	if err := problems.Err(); err != nil {
		return nil, err
	}
	facts := kits.Assess(m)
	findings := rules.Evaluate(packs, facts, o)
	return &Assessment{m, facts, packs, findings, rules.Verdict(findings)}, nil
}

// Format is the format of reports.
const Format = "hoistbook-report/1"

// Report is an assessment as programs read it.
type Report struct {
	// The format of this report.
	Format string `json:"format" jsonschema:"enum=hoistbook-report/1,example=hoistbook-report/1"`
	// Which kit was assessed.
	Kit manifest.Identity `json:"kit"`
	// Whether the kit may fly as far as the rules can say.
	Verdict rules.Decision `json:"verdict" jsonschema:"enum=GO,enum=NO-GO,example=GO"`
	// The computed values by id, in the unit that the id ends with; null is not shown.
	Facts map[string]any `json:"facts"`
	// What the rules say.
	Findings []rules.Reported `json:"findings"`
	// The defaults that were taken, and the limits of models that the kit lies outside of.
	Assumptions []kits.Assumption `json:"assumptions"`
}

// Report makes the report of an assessment.
func (a *Assessment) Report() Report {
	return Report{
		Format: Format, Kit: a.Manifest.Identity(),
		Verdict: a.Verdict, Facts: a.Facts.JSON(), Findings: reported(a.Findings), Assumptions: empty(a.Facts.Assumptions),
	}
}

func reported(findings []rules.Finding) []rules.Reported {
	list := make([]rules.Reported, len(findings))
	for i, f := range findings {
		list[i] = f.Report()
	}
	return list
}

// empty writes no list as an empty one.
func empty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

// JSON writes the report on one line.
func (a *Assessment) JSON() ([]byte, error) {
	text, err := json.Marshal(a.Report())
	if err != nil {
		return nil, fmt.Errorf("report of %s: %w", a.Manifest.Kit.ID, err)
	}
	return text, nil
}
