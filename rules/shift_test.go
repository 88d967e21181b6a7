package rules_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/rules"
)

func found(rule string, outcome rules.Outcome, share float64) rules.Finding {
	return rules.Finding{Rule: rule, Level: rules.Must, Outcome: outcome, Share: share, Margin: share}
}

func TestShiftsTheWorstFirst(t *testing.T) {
	nan := math.NaN()
	should := found("broken should", rules.NotShown, nan)
	should.Level = rules.Should
	before := []rules.Finding{
		found("same", rules.Met, 0.5), found("mended", rules.NotMet, -0.1), found("wider", rules.Met, 0.1), found("far and less", rules.Met, 5.58),
		found("near and less", rules.Met, 0.03), found("gone", rules.Met, nan), found("broken should", rules.Met, nan), found("broken", rules.Met, 0.2),
		found("worse", rules.NotMet, -0.1), found("none left", rules.Met, 0.0001),
	}
	after := []rules.Finding{
		found("begun", rules.Met, 0.3), found("new and bad", rules.NotMet, -2), should, found("broken", rules.NotMet, -0.2),
		found("same", rules.Met, 0.5), found("mended", rules.Met, 0.1), found("wider", rules.Met, 0.2), found("far and less", rules.Met, 4),
		found("near and less", rules.Met, 0.01), found("worse", rules.NotMet, -0.2), found("none left", rules.Met, 0),
	}
	want := []string{
		"broken: broken", "new and bad: broken", "broken should: broken", "worse: thinner", "near and less: thinner", "far and less: thinner", "none left: thinner",
		"gone: gone", "begun: begun", "same: same", "wider: wider", "mended: mended",
	}
	var got []string
	for _, s := range rules.Shifts(before, after) {
		got = append(got, s.Now().Rule+": "+s.Kind().String())
	}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

// Nothing is lost and nothing is said twice; what is broken one way is mended the other way; a kit compared with itself is the same.
func TestShiftsAreFair(t *testing.T) {
	draw := func(t *rapid.T, name string) []rules.Finding {
		var list []rules.Finding
		for _, rule := range rapid.SliceOfDistinct(rapid.SampledFrom([]string{"a", "b", "c", "d", "e"}), rapid.ID).Draw(t, name) {
			share := rapid.SampledFrom([]float64{0, 0.1, 0.2, 3}).Draw(t, "share")
			outcome := rapid.SampledFrom([]rules.Outcome{rules.Met, rules.NotMet, rules.NotShown}).Draw(t, "outcome")
			switch outcome {
			case rules.NotMet:
				share = -share - 0.01
			case rules.NotShown:
				share = math.NaN()
			}
			list = append(list, found(rule, outcome, share))
		}
		return list
	}
	opposite := map[rules.Kind]rules.Kind{rules.Broken: rules.Mended, rules.Mended: rules.Broken, rules.Thinner: rules.Wider, rules.Wider: rules.Thinner, rules.Same: rules.Same, rules.Changed: rules.Changed}
	rapid.Check(t, func(t *rapid.T) {
		before, after := draw(t, "before"), draw(t, "after")
		there, back := rules.Shifts(before, after), rules.Shifts(after, before)
		seen := map[string]rules.Kind{}
		for _, s := range there {
			if _, again := seen[s.Now().Rule]; again || s.Before == nil && s.After == nil {
				t.Fatalf("%s is told twice, or nothing is", s.Now().Rule)
			}
			seen[s.Now().Rule] = s.Kind()
		}
		for _, f := range slices.Concat(before, after) {
			if _, told := seen[f.Rule]; !told {
				t.Fatalf("%s is lost", f.Rule)
			}
		}
		for _, s := range back {
			if s.Before != nil && s.After != nil && s.Kind() != opposite[seen[s.Now().Rule]] {
				t.Fatalf("%s is %s one way and %s the other way", s.Now().Rule, seen[s.Now().Rule], s.Kind())
			}
		}
		for _, s := range rules.Shifts(before, before) {
			if s.Kind() != rules.Same {
				t.Fatalf("%s is %s against itself", s.Now().Rule, s.Kind())
			}
		}
	})
}

func TestReads(t *testing.T) {
	packs := load(t, oneRule(`"for_each": "motors", "when": {"any": [{"fact": "crane.lit", "is": true}, {"not": {"fact": "crane.lines", "at_least": 2}}]},
"check": {"all": [{"fact": "motors.*.lowest_v", "at_least": {"fact": "motors.*.rated_v", "times": 0.9}}, {"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg"}}]}`))
	rule, _ := packs.Rule("crane.rule")
	want := []string{"crane.lit", "crane.lines", "motors.M1.lowest_v", "motors.M1.rated_v", "crane.load_kg", "crane.rated_kg"}
	if got := rule.Reads("M1"); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
