package truth

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"

	"hoistbook/cmd/internal/assess"
	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// FactDifference is a fact that the report inside gives otherwise than today's formulas.
type FactDifference struct {
	// The id of the fact.
	ID string `json:"id" jsonschema:"example=lift.neck_needed_kg"`
	// What it is.
	Title string `json:"title" jsonschema:"example=Neck lift needed"`
	// Its value in the report.
	Printed string `json:"printed" jsonschema:"example=3.1 kg"`
	// Its value today.
	Today string `json:"today" jsonschema:"example=3.2 kg"`
}

// FindingDifference is a finding that the report inside gives otherwise than today's rules.
type FindingDifference struct {
	// The id of the rule.
	Rule string `json:"rule" jsonschema:"example=lift.free"`
	// What it is about, where the rule runs over several.
	Subject string `json:"subject,omitempty" jsonschema:"example=TX1"`
	// What holds when the rule is met.
	Title string `json:"title" jsonschema:"example=The line bears the gust"`
	// What the report says.
	Printed string `json:"printed" jsonschema:"example=met: 49.2 N\\, at most 62.5 N"`
	// What the rule says today.
	Today string `json:"today" jsonschema:"example=not judged"`
	// Its sentence.
	Message string `json:"message" jsonschema:"example=49.2 N\\, at most 62.5 N"`
}

// report is as much of a report as is held against today's.
type report struct {
	Kit      manifest.Identity          `json:"kit"`
	Verdict  string                     `json:"verdict"`
	Facts    map[string]json.RawMessage `json:"facts"`
	Findings []finding                  `json:"findings"`
}

type finding struct {
	Rule    string `json:"rule"`
	Subject string `json:"subject"`
	Title   string `json:"title"`
	Outcome string `json:"outcome"`
	Message string `json:"message"`
}

// Reports holds the report that rides inside against today's.
func Reports(inside []byte, today *assess.Assessment) (digest, verdict string, facts []FactDifference, findings []FindingDifference, err error) {
	fresh, err := today.JSON()
	if err != nil {
		return "", "", nil, nil, err
	}
	var was, is report
	if err := json.Unmarshal(inside, &was); err != nil {
		return "", "", nil, nil, fmt.Errorf("the report inside cannot be read: %w", err)
	}
	if err := json.Unmarshal(fresh, &is); err != nil {
		return "", "", nil, nil, err
	}
	return was.Kit.Digest, was.Verdict, factsOf(was, is), findingsOf(was, is), nil
}

func factsOf(was, is report) []FactDifference {
	ids := map[string]int{}
	for id := range was.Facts {
		ids[id]++
	}
	for id := range is.Facts {
		ids[id]++
	}
	var all []FactDifference
	for _, id := range sorted(ids) {
		before, there := was.Facts[id]
		now, here := is.Facts[id]
		if there == here && sameJSON(before, now) {
			continue
		}
		about, _ := kits.Catalogue{}.Describe(id)
		all = append(all, FactDifference{id, about.Title, printed(about, before, there), printed(about, now, here)})
	}
	return all
}

// sameJSON reports whether two values are equal, numbers to nine figures: the last ones hang on the processor.
func sameJSON(a, b json.RawMessage) bool {
	var x, y float64
	if json.Unmarshal(a, &x) == nil && json.Unmarshal(b, &y) == nil && string(a) != "null" && string(b) != "null" {
		return math.Abs(x-y) <= 1e-9*max(math.Abs(x), math.Abs(y))
	}
	return string(a) == string(b)
}

func printed(about fact.Description, value json.RawMessage, there bool) string {
	var n float64
	switch {
	case !there:
		return "not reported"
	case string(value) == "null":
		return "not shown"
	case about.Kind == fact.Number && json.Unmarshal(value, &n) == nil:
		text := unit.Figures(n, 4)
		if about.Unit != "" {
			text += " " + about.Unit
		}
		return text
	}
	var text string
	if json.Unmarshal(value, &text) == nil {
		return text
	}
	return string(value)
}

func findingsOf(was, is report) []FindingDifference {
	type key struct{ rule, subject string }
	before := map[key]finding{}
	for _, f := range was.Findings {
		before[key{f.Rule, f.Subject}] = f
	}
	var all []FindingDifference
	seen := map[key]bool{}
	for _, f := range is.Findings {
		k := key{f.Rule, f.Subject}
		seen[k] = true
		old, there := before[k]
		switch {
		case !there:
			all = append(all, FindingDifference{f.Rule, f.Subject, f.Title, "not judged", f.Outcome, f.Message})
		case old.Outcome != f.Outcome || old.Message != f.Message:
			all = append(all, FindingDifference{f.Rule, f.Subject, f.Title, old.Outcome + ": " + old.Message, f.Outcome + ": " + f.Message, f.Message})
		}
	}
	for _, f := range was.Findings {
		if !seen[key{f.Rule, f.Subject}] {
			all = append(all, FindingDifference{f.Rule, f.Subject, f.Title, f.Outcome + ": " + f.Message, "not judged", f.Message})
		}
	}
	return all
}

func sorted[T any](m map[string]T) []string { return slices.Sorted(maps.Keys(m)) }
