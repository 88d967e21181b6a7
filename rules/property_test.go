package rules_test

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/rules"
)

// The values that a fact may have in the properties below; "?" is unknown.
var values = map[string][]string{
	"crane.height_m": {"10 m", "50 m", "90 m", "?"},
	"crane.load_kg":  {"1 kg", "5 kg", "?"},
	"crane.lit":      {"true", "false", "?"},
	"crane.kind":     {"tower", "mobile", "?"},
}

func drawFacts(t *rapid.T) facts {
	f := facts{}
	for _, id := range []string{"crane.height_m", "crane.load_kg", "crane.lit", "crane.kind"} {
		f[id] = rapid.SampledFrom(values[id]).Draw(t, id)
	}
	return f
}

// drawCondition makes a condition of any shape; "present" is left out, because it alone looks at what is unknown.
func drawCondition(t *rapid.T, depth int) string {
	leaves := []string{
		`{"fact": "crane.height_m", "at_least": "50 m"}`, `{"fact": "crane.height_m", "at_most": "60 m"}`, `{"fact": "crane.height_m", "within": ["20 m", "60 m"]}`,
		`{"fact": "crane.load_kg", "at_most": "3 kg"}`, `{"fact": "crane.lit", "is": true}`, `{"fact": "crane.kind", "is": "tower"}`,
	}
	shape := rapid.IntRange(0, 3).Draw(t, "shape")
	switch {
	case depth == 0 || shape == 0:
		return rapid.SampledFrom(leaves).Draw(t, "leaf")
	case shape == 1:
		return `{"not": ` + drawCondition(t, depth-1) + `}`
	}
	var kids []string
	for range rapid.IntRange(1, 3).Draw(t, "kids") {
		kids = append(kids, drawCondition(t, depth-1))
	}
	return fmt.Sprintf(`{%q: [%s]}`, map[int]string{2: "all", 3: "any"}[shape], strings.Join(kids, ", "))
}

func outcome(t *rapid.T, condition string, f facts) rules.Outcome {
	packs, err := tryLoad(oneRule(`"check": ` + condition))
	if err != nil {
		t.Fatal(err)
	}
	return rules.Evaluate(packs, f, rules.Options{})[0].Outcome
}

// What is decided without knowing a fact stays decided whatever the fact turns out to be.
func TestLearningAFactNeverOverturnsADecision(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		condition, f := drawCondition(t, 3), drawFacts(t)
		before := outcome(t, condition, f)
		for id, value := range f {
			if value != "?" {
				continue
			}
			for _, learned := range values[id] {
				more := maps.Clone(f)
				more[id] = learned
				if after := outcome(t, condition, more); before != rules.NotShown && after != before {
					t.Fatalf("%s is %v with %v and %v once %s is %s", condition, before, f, after, id, learned)
				}
			}
		}
	})
}

// De Morgan's laws hold for all three outcomes.
func TestDeMorgan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, f := drawCondition(t, 2), drawCondition(t, 2), drawFacts(t)
		left := outcome(t, fmt.Sprintf(`{"not": {"all": [%s, %s]}}`, a, b), f)
		right := outcome(t, fmt.Sprintf(`{"any": [{"not": %s}, {"not": %s}]}`, a, b), f)
		if left != right {
			t.Fatalf("not(all) is %v and any(not) is %v, of %s and %s with %v", left, right, a, b, f)
		}
	})
}

// A met finding has no negative margin, one that is not met no positive one.
func TestMarginsHaveTheSignOfTheirOutcome(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		condition, f := drawCondition(t, 3), drawFacts(t)
		packs, err := tryLoad(oneRule(`"check": ` + condition))
		if err != nil {
			t.Fatal(err)
		}
		got := rules.Evaluate(packs, f, rules.Options{})[0]
		if got.Outcome == rules.NotShown && got.HasMargin() || got.Outcome == rules.Met && got.Margin < 0 || got.Outcome == rules.NotMet && got.Margin > 0 {
			t.Fatalf("%s with %v is %v by %v", condition, f, got.Outcome, got.Margin)
		}
	})
}
