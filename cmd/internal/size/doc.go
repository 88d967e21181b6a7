// Package size finds what can be changed to make a kit fly, or how much room there is: the least and the greatest fill, the
// greatest payload, the greatest wind, the line that gives the most coverage, what those depend on, and which value of the
// manifest matters most for the thinnest margin.
//
// One value of the manifest is varied at a time, the facts are computed anew and the rules judge them. An answer is never
// interpolated: it is a value that was judged GO whose neighbour, one step of its row further on, was judged NO-GO, and the
// rules that the neighbour does not meet bind it. A row is looked at in a few dozen places first; what lies between two of
// them is taken to be like one of the two, so an island of NO-GO narrower than that would not be seen.
package size

import (
	"hoistbook/cmd/internal/assess"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

// Format is the format of the report.
const Format = "hoistbook-size/1"

// A Report is everything that was found.
type Report struct {
	Format      string            `json:"format"`
	Kit         manifest.Identity `json:"kit"`
	Verdict     rules.Decision    `json:"verdict"` // as designed
	Limits      []Limit           `json:"limits"`
	Height      Height            `json:"best_height"`
	Tables      []Table           `json:"tables"`
	Sensitivity Sensitivity       `json:"sensitivity"`
}

// Of sizes a kit that has been assessed. Values are looked for in steps that are round in the system's units.
func Of(a *assess.Assessment, system unit.System) *Report {
	k := &kit{m: a.Manifest, packs: musts(a.Packs), options: crew.Options(a.Manifest, system), system: system, facts: a.Facts}
	k.base = k.judge(a.Manifest)
	r := &Report{Format: Format, Kit: a.Report().Kit, Verdict: a.Verdict}
	r.Limits = []Limit{k.limit(k.fill(), least), k.limit(k.fill(), greatest), k.limit(k.payload(), greatest), k.limit(k.wind(), greatest)}
	r.Height = k.best()
	r.Tables = k.tables()
	r.Sensitivity = k.sensitivity()
	return r
}

// musts leaves only what decides the verdict.
func musts(packs rules.Packs) rules.Packs {
	var kept rules.Packs
	for _, p := range packs {
		must := *p
		must.Rules = nil
		for _, r := range p.Rules {
			if r.Level == rules.Must {
				must.Rules = append(must.Rules, r)
			}
		}
		kept = append(kept, &must)
	}
	return kept
}
