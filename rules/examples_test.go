package rules_test

import (
	"errors"
	"strings"
	"testing"

	"hoistbook/kits/jsontree"
	"hoistbook/rules"
)

// assess gives a crane the height that the change of an example says, and 60 m without one.
func assess(kit string, change *jsontree.Node) (rules.Facts, error) {
	if kit != "crane" {
		return nil, errors.New("there is no such kit")
	}
	if change == nil {
		return facts{"crane.height_m": "60 m", "crane.lit": "true"}, nil
	}
	f := facts{"crane.height_m": change.Get("height").Text, "crane.lit": "true"}
	if lit := change.Get("lit"); lit != nil {
		f["crane.lit"] = lit.Text
	}
	return f, nil
}

// The rule asks for 50 m wherever the crane is lit.
func TestExamplesAreTried(t *testing.T) {
	const rule = `"when": {"fact": "crane.lit", "is": true}, "check": {"fact": "crane.height_m", "at_least": "50 m"}`
	const none = "there are no findings"
	for name, c := range map[string]struct {
		keys string
		said []string
	}{
		"good":              {`"trips": {"kit": "crane", "change": {"height": "40 m"}}, "quiet": {"kit": "crane"}`, nil},
		"trips by silence":  {`"trips": {"kit": "crane", "change": {"height": "?"}}, "quiet": {"kit": "crane", "change": {"height": "50 m"}}`, nil},
		"no examples":       {``, []string{`has no example "trips"`, `has no example "quiet"`}},
		"only one":          {`"quiet": {"kit": "crane"}`, []string{`has no example "trips"`}},
		"does not trip":     {`"trips": {"kit": "crane"}, "quiet": {"kit": "crane"}`, []string{`does not complain about its example: [ met]`}},
		"does not apply":    {`"trips": {"kit": "crane", "change": {"height": "40 m", "lit": "false"}}, "quiet": {"kit": "crane", "change": {"height": "60 m", "lit": "false"}}`, []string{`does not complain about its example: ` + none, `does not apply to its quiet example, or is not met by it: ` + none}},
		"is not quiet":      {`"trips": {"kit": "crane", "change": {"height": "40 m"}}, "quiet": {"kit": "crane", "change": {"height": "49 m"}}`, []string{`is not met by it: [ not met] the load is 49 m`}},
		"no such kit":       {`"trips": {"kit": "cran"}, "quiet": {"kit": "crane"}`, []string{`example "trips": there is no such kit`}},
		"no such quiet kit": {`"trips": {"kit": "crane", "change": {"height": "40 m"}}, "quiet": {"kit": "cran"}`, []string{`example "quiet": there is no such kit`}},
	} {
		keys := rule
		if c.keys != "" {
			keys += ", " + c.keys
		}
		r, ok := load(t, oneRule(keys)).Rule("crane.rule")
		if !ok {
			t.Fatal("the rule is lost")
		}
		got := r.TryExamples(assess)
		if len(got) != len(c.said) {
			t.Errorf("%s: got %q, want %q", name, got, c.said)
			continue
		}
		for i, want := range c.said {
			if !strings.HasPrefix(got[i], "packa.json:2:1: rule crane.rule: ") || !strings.Contains(got[i], want) {
				t.Errorf("%s: got %q, want %q in it", name, got[i], want)
			}
		}
	}
	if _, ok := load(t, oneRule(rule)).Rule("crane.other"); ok {
		t.Error("a rule that nobody wrote is found")
	}
}

// A rule over a family complains when one of its members is wrong.
func TestExamplesOverAFamily(t *testing.T) {
	r, _ := load(t, oneRule(`"for_each": "motors", "check": {"fact": "motors.*.lowest_v", "at_least": "5 V"}, "trips": {"kit": "k"}, "quiet": {"kit": "k"}`)).Rule("crane.rule")
	said := r.TryExamples(func(string, *jsontree.Node) (rules.Facts, error) {
		return facts{"motors.A.lowest_v": "6 V", "motors.B.lowest_v": "4 V"}, nil
	})
	if len(said) != 1 || !strings.Contains(said[0], "[A met]") || !strings.Contains(said[0], "[B not met] the load is 4 V and may be 5 V") {
		t.Errorf("got %q", said)
	}
}
