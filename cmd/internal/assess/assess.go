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
	// Format is the format of this report.
	Format string `json:"format"`
	// Kit says which kit was assessed.
	Kit Kit `json:"kit"`
	// Verdict is GO or NO-GO.
	Verdict rules.Decision `json:"verdict"`
	// Facts are the computed values by id, in the unit that the id ends with; null is not shown.
	Facts map[string]any `json:"facts"`
	// Findings are what the rules say.
	Findings []rules.Finding `json:"findings"`
	// Assumptions are the defaults that were taken.
	Assumptions []kits.Assumption `json:"assumptions"`
}

// Kit says which manifest a report is about.
type Kit struct {
	ID       string `json:"id"`
	Name     string `json:"name"`
	Revision string `json:"revision"`
	Digest   string `json:"digest"`
}

// Report makes the report of an assessment.
func (a *Assessment) Report() Report {
	k := a.Manifest.Kit
	return Report{
		Format: Format, Kit: Kit{string(k.ID), k.Name, string(k.Revision), a.Manifest.Digest()},
		Verdict: a.Verdict, Facts: a.Facts.JSON(), Findings: empty(a.Findings), Assumptions: empty(a.Facts.Assumptions),
	}
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
