package rules

import (
	"fmt"
	"slices"

	"hoistbook/kits/diag"
)

// A Decision is what all findings together say.
type Decision string

// The decisions.
const (
	Go   Decision = "GO"
	NoGo Decision = "NO-GO"
)

// Verdict is GO when every MUST is met and there is at least one: no rules at all have shown nothing.
func Verdict(findings []Finding) Decision {
	shown := false
	for _, f := range findings {
		if f.Level != Must {
			continue
		}
		if f.Outcome != Met {
			return NoGo
		}
		shown = true
	}
	if !shown {
		return NoGo
	}
	return Go
}

// Waiver checks one waiver of a manifest: it returns what is wrong with it and what would be right, or nothing.
func (ps Packs) Waiver(id, reason string) (what, fix string) {
	r, ok := ps.Rule(id)
	switch {
	case !ok:
		return fmt.Sprintf("there is no rule %q", id), diag.DidYouMean(id, ps.shoulds(), "rules that may be waived are listed by their ids in the report")
	case r.Level == Must:
		return fmt.Sprintf("the rule %q is a must and cannot be waived", id), "change the kit so that it is met"
	case reason == "":
		return fmt.Sprintf("the waiver of %q gives no reason", id), "say why; the reason is printed"
	}
	return "", ""
}

func (ps Packs) shoulds() []string {
	var ids []string
	for _, p := range ps {
		for _, r := range p.Rules {
			if r.Level == Should {
				ids = append(ids, r.ID)
			}
		}
	}
	slices.Sort(ids)
	return ids
}
