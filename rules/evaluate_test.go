package rules_test

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

func TestComparisons(t *testing.T) {
	for name, c := range map[string]struct {
		check string
		facts facts
		want  rules.Outcome
		share float64 // as a part of the limit; NaN for none
	}{
		"at least, with room":      {`"fact": "crane.height_m", "at_least": "50 m"`, facts{"crane.height_m": "60 m"}, rules.Met, 0.2},
		"at least, exactly":        {`"fact": "crane.height_m", "at_least": "50 m"`, facts{"crane.height_m": "50 m"}, rules.Met, 0},
		"at least, short":          {`"fact": "crane.height_m", "at_least": "50 m"`, facts{"crane.height_m": "40 m"}, rules.NotMet, -0.2},
		"at least, unknown":        {`"fact": "crane.height_m", "at_least": "50 m"`, facts{"crane.height_m": "?"}, rules.NotShown, nan},
		"at least, missing":        {`"fact": "crane.height_m", "at_least": "50 m"`, facts{}, rules.NotShown, nan},
		"at most, with room":       {`"fact": "crane.height_m", "at_most": "50 m"`, facts{"crane.height_m": "40 m"}, rules.Met, 0.2},
		"at most, in other units":  {`"fact": "crane.height_m", "at_most": "100 ft"`, facts{"crane.height_m": "30.48 m"}, rules.Met, 0},
		"at most, over":            {`"fact": "crane.height_m", "at_most": "50 m"`, facts{"crane.height_m": "60 m"}, rules.NotMet, -0.2},
		"another fact":             {`"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg"}`, facts{"crane.load_kg": "8 kg", "crane.rated_kg": "10 kg"}, rules.Met, 0.2},
		"another fact, times":      {`"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg", "times": 0.8}`, facts{"crane.load_kg": "8 kg", "crane.rated_kg": "10 kg"}, rules.Met, 0},
		"another fact, times, no":  {`"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg", "times": 0.5}`, facts{"crane.load_kg": "8 kg", "crane.rated_kg": "10 kg"}, rules.NotMet, -0.6},
		"another fact, unknown":    {`"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg"}`, facts{"crane.load_kg": "8 kg", "crane.rated_kg": "?"}, rules.NotShown, nan},
		"a count":                  {`"fact": "crane.lines", "at_least": 3`, facts{"crane.lines": "4"}, rules.Met, nan},
		"a count that is":          {`"fact": "crane.lines", "is": 4`, facts{"crane.lines": "4"}, rules.Met, nan},
		"a share":                  {`"fact": "crane.share", "at_least": "20 %"`, facts{"crane.share": "19 %"}, rules.NotMet, -0.05},
		"a temperature":            {`"fact": "crane.hottest_k", "at_most": "40 degC"`, facts{"crane.hottest_k": "40 degC"}, rules.Met, 0},
		"a level below zero":       {`"fact": "crane.level_dbm", "at_most": "-100 dBm"`, facts{"crane.level_dbm": "-110 dBm"}, rules.Met, 0.1},
		"a limit of zero":          {`"fact": "crane.load_kg", "at_most": "0 kg"`, facts{"crane.load_kg": "2 kg"}, rules.NotMet, -1},
		"within":                   {`"fact": "crane.height_m", "within": ["40 m", "100 m"]`, facts{"crane.height_m": "60 m"}, rules.Met, 0.4},
		"within, nearer the upper": {`"fact": "crane.height_m", "within": ["40 m", "100 m"]`, facts{"crane.height_m": "90 m"}, rules.Met, 0.1},
		"within, below":            {`"fact": "crane.height_m", "within": ["40 m", "100 m"]`, facts{"crane.height_m": "30 m"}, rules.NotMet, -0.25},
		"a word":                   {`"fact": "crane.kind", "is": "tower"`, facts{"crane.kind": "tower"}, rules.Met, nan},
		"another word":             {`"fact": "crane.kind", "is": "tower"`, facts{"crane.kind": "mobile"}, rules.NotMet, nan},
		"a truth":                  {`"fact": "crane.lit", "is": false`, facts{"crane.lit": "true"}, rules.NotMet, nan},
		"a truth, unknown":         {`"fact": "crane.lit", "is": false`, facts{"crane.lit": "?"}, rules.NotShown, nan},
		"present":                  {`"fact": "crane.lit", "present": true`, facts{"crane.lit": "false"}, rules.Met, nan},
		"present, unknown":         {`"fact": "crane.lit", "present": true`, facts{"crane.lit": "?"}, rules.NotMet, nan},
		"absent":                   {`"fact": "crane.lit", "present": false`, facts{}, rules.Met, nan},
		"absent, known":            {`"fact": "crane.lit", "present": false`, facts{"crane.lit": "false"}, rules.NotMet, nan},
		"money":                    {`"fact": "crane.price", "at_most": {"fact": "crane.budget"}`, facts{"crane.price": "0.30", "crane.budget": "0.30"}, rules.Met, 0},
		"money, by a cent":         {`"fact": "crane.price", "at_most": "260.00"`, facts{"crane.price": "260.01"}, rules.NotMet, -0.01 / 260},
		"money, times":             {`"fact": "crane.price", "at_most": {"fact": "crane.budget", "times": 1.1}`, facts{"crane.price": "0.33", "crane.budget": "0.30"}, rules.Met, 0},
		"not":                      {`"not": {"fact": "crane.height_m", "at_most": "50 m"}`, facts{"crane.height_m": "60 m"}, rules.Met, 0.2},
		"not, of what is unknown":  {`"not": {"fact": "crane.height_m", "at_most": "50 m"}`, facts{"crane.height_m": "?"}, rules.NotShown, nan},
	} {
		got := judge(t, `"check": {`+c.check+`}`, c.facts)
		if got.Outcome != c.want || math.Abs(got.Share-c.share) > 1e-12 || math.IsNaN(got.Share) != math.IsNaN(c.share) {
			t.Errorf("%s: %s with %v is %v by %v, want %v by %v", name, c.check, c.facts, got.Outcome, got.Share, c.want, c.share)
		}
	}
}

var nan = math.NaN()

// Kleene's strong three-valued logic: Kleene, Introduction to Metamathematics (1952), section 64 (from memory).
func TestTruthTables(t *testing.T) {
	values := []string{"met", "not met", "not shown"}
	lit := map[string]string{"met": "true", "not met": "false", "not shown": "?"}
	kind := map[string]string{"met": "tower", "not met": "mobile", "not shown": "?"}
	rank := map[string]int{"not met": 0, "not shown": 1, "met": 2}
	name := []string{"not met", "not shown", "met"}
	for _, a := range values {
		for _, b := range values {
			f := facts{"crane.lit": lit[a], "crane.kind": kind[b]}
			pair := `[{"fact": "crane.lit", "is": true}, {"fact": "crane.kind", "is": "tower"}]`
			for op, want := range map[string]string{
				`"all": ` + pair:               name[min(rank[a], rank[b])],
				`"any": ` + pair:               name[max(rank[a], rank[b])],
				`"not": {"all": ` + pair + `}`: name[2-min(rank[a], rank[b])],
			} {
				if got := judge(t, `"check": {`+op+`}`, f).Outcome.String(); got != want {
					t.Errorf("%s of %s and %s is %s, want %s", op[:5], a, b, got, want)
				}
			}
		}
	}
}

func TestWhatIsNotANumberIsNotShown(t *testing.T) {
	packs := load(t, oneRule(`"check": {"fact": "crane.height_m", "at_least": "1 m"}`))
	for name, v := range map[string]fact.Value{
		"not a number":    {Quantity: unit.Quantity{SI: math.NaN(), Dim: unit.DimLength}},
		"infinite":        {Quantity: unit.Quantity{SI: math.Inf(1), Dim: unit.DimLength}},
		"below all":       {Quantity: unit.Quantity{SI: math.Inf(-1), Dim: unit.DimLength}},
		"wrong dimension": {Quantity: unit.Quantity{SI: 5, Dim: unit.DimMass}},
		"wrong kind":      {Kind: fact.YesNo, Yes: true},
	} {
		got := rules.Evaluate(packs, only{v}, rules.Options{})
		if len(got) != 1 || got[0].Outcome != rules.NotShown || rules.Verdict(got) != rules.NoGo {
			t.Errorf("%s: got %+v, want one finding that is not shown", name, got)
		}
		if _, err := json.Marshal(got); err != nil {
			t.Errorf("%s: the finding cannot be reported: %v", name, err)
		}
	}
}

// only answers every question with the same value.
type only struct{ value fact.Value }

func (o only) Lookup(string) (fact.Value, bool) { return o.value, true }
func (o only) Subjects(string) []string         { return nil }

func TestGuards(t *testing.T) {
	const keys = `"when": {"fact": "crane.lit", "is": true}, "check": {"fact": "crane.height_m", "at_least": "50 m"}`
	for lit, want := range map[string]string{"true": "[met]", "false": "[]", "?": "[not shown]"} {
		findings := rules.Evaluate(load(t, oneRule(keys)), facts{"crane.lit": lit, "crane.height_m": "60 m"}, rules.Options{})
		var outcomes []string
		for _, f := range findings {
			outcomes = append(outcomes, f.Outcome.String())
		}
		if got := "[" + strings.Join(outcomes, " ") + "]"; got != want {
			t.Errorf("with the guard %s the findings are %s, want %s", lit, got, want)
		}
	}
}

func TestForEach(t *testing.T) {
	packs := load(t, oneRule(`"for_each": "motors", "ok": "{subject} has {value}", "check": {"fact": "motors.*.lowest_v", "at_least": {"fact": "motors.*.rated_v"}}`))
	findings := rules.Evaluate(packs, facts{"motors.A.lowest_v": "5 V", "motors.A.rated_v": "4 V", "motors.B.lowest_v": "3.9999 V", "motors.B.rated_v": "4 V"}, rules.Options{})
	if len(findings) != 2 || findings[0].Message != "A has 5 V" || findings[1].Subject != "B" || findings[1].Fact != "motors.B.lowest_v" ||
		findings[1].Message != "the load is 3.9999 V and may be 4 V" {
		t.Errorf("got %+v", findings)
	}
	if none := rules.Evaluate(packs, facts{}, rules.Options{}); len(none) != 0 || rules.Verdict(none) != rules.NoGo {
		t.Errorf("an empty family has the findings %v and the verdict %s", none, rules.Verdict(none))
	}
}

func TestTheBindingComparisonIsShown(t *testing.T) {
	f := facts{"crane.height_m": "60 m", "crane.load_kg": "9 kg", "crane.share": "?", "crane.lit": "false"}
	for check, want := range map[string]string{
		`"all": [{"fact": "crane.height_m", "at_least": "50 m"}, {"fact": "crane.load_kg", "at_most": "10 kg"}]`: "crane.load_kg met",
		`"all": [{"fact": "crane.height_m", "at_least": "80 m"}, {"fact": "crane.load_kg", "at_most": "5 kg"}]`:  "crane.load_kg not met",
		`"all": [{"fact": "crane.height_m", "at_least": "80 m"}, {"fact": "crane.lit", "is": true}]`:             "crane.lit not met",
		`"all": [{"fact": "crane.height_m", "at_least": "50 m"}, {"fact": "crane.share", "at_most": "5 %"}]`:     "crane.share not shown",
		`"all": [{"fact": "crane.height_m", "at_least": "80 m"}, {"fact": "crane.share", "at_most": "5 %"}]`:     "crane.height_m not met",
		`"any": [{"fact": "crane.height_m", "at_least": "50 m"}, {"fact": "crane.load_kg", "at_most": "10 kg"}]`: "crane.height_m met",
		`"any": [{"fact": "crane.height_m", "at_least": "80 m"}, {"fact": "crane.load_kg", "at_most": "8 kg"}]`:  "crane.load_kg not met",
		`"any": [{"fact": "crane.height_m", "at_least": "80 m"}, {"fact": "crane.share", "at_most": "5 %"}]`:     "crane.share not shown",
		`"any": [{"fact": "crane.height_m", "at_least": "50 m"}, {"fact": "crane.lit", "is": false}]`:            "crane.height_m met",
	} {
		got := judge(t, `"check": {`+check+`}`, f)
		if text := got.Fact + " " + got.Outcome.String(); text != want {
			t.Errorf("%s shows %s, want %s", check, text, want)
		}
	}
}

func TestAFindingAsItIsReported(t *testing.T) {
	got, err := json.Marshal(judge(t, `"hint": "build it higher than {crane.load_kg}", "check": {"fact": "crane.height_m", "at_least": "50 m"}`,
		facts{"crane.height_m": "40 m", "crane.load_kg": "1 kg"}))
	want := `{"rule":"crane.rule","pack":"test","subject":"","title":"The crane is right","level":"must","outcome":"not met","fact":"crane.height_m",` +
		`"measure":40,"relation":"at least","limit":50,"unit":"m","margin":-10,"relative_margin":-0.2,` +
		`"message":"the load is 40 m and may be 50 m","hint":"build it higher than 1 kg","source":"kit engineering policy"}`
	if err != nil || string(got) != want {
		t.Errorf("got  %s\nwant %s\n(%v)", got, want, err)
	}
	got, _ = json.Marshal(judge(t, `"check": {"fact": "crane.price", "at_most": "10.00"}`, facts{"crane.price": "12.5"}))
	if !strings.Contains(string(got), `"measure":"12.5","relation":"at most","limit":"10.00","unit":"","margin":"-2.50"`) {
		t.Errorf("money is reported as %s", got)
	}
	got, _ = json.Marshal(judge(t, `"check": {"fact": "crane.height_m", "at_least": "50 m"}`, facts{"crane.height_m": "?"}))
	if !strings.Contains(string(got), `"measure":null,"relation":"at least","limit":50,"unit":"m","margin":null,"relative_margin":null,"message":"crane.height_m is not known: nobody says it"`) {
		t.Errorf("what is not shown is reported as %s", got)
	}
}

// A question whether something is known has no limit, whatever the unit of what is asked for.
func TestAFindingWithoutALimitIsReported(t *testing.T) {
	f := judge(t, `"check": {"fact": "crane.height_m", "present": true}`, facts{"crane.height_m": "3 m"})
	text, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"measure":3`, `"relation":"present"`, `"limit":null`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("got %s, want %s in it", text, want)
		}
	}
}

func TestTextsUseTheReadersUnits(t *testing.T) {
	packs := load(t, oneRule(`"ok": "{crane.height_m}, {margin} over {limit}; {crane.lit}, {crane.kind}, {crane.share}", "check": {"fact": "crane.height_m", "at_least": "30 m"}`))
	f := facts{"crane.height_m": "40 m", "crane.lit": "true", "crane.kind": "tower", "crane.share": "?"}
	for system, want := range map[unit.System]string{
		unit.SI: "40 m, 10 m over 30 m; yes, tower, not shown",
		unit.US: "131 ft, 32.8 ft over 98.5 ft; yes, tower, not shown",
	} {
		if got := rules.Evaluate(packs, f, rules.Options{System: system})[0].Message; got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestMarginTexts(t *testing.T) {
	for name, c := range map[string]struct {
		check string
		facts facts
		want  string
	}{
		"room":        {`"fact": "crane.height_m", "at_least": "30 m"`, facts{"crane.height_m": "40 m"}, "+10 m"},
		"none":        {`"fact": "crane.height_m", "at_least": "30 m"`, facts{"crane.height_m": "20 m"}, "−10 m"},
		"exact":       {`"fact": "crane.height_m", "at_least": "30 m"`, facts{"crane.height_m": "30 m"}, "0 m"},
		"temperature": {`"fact": "crane.hottest_k", "at_most": "40 degC"`, facts{"crane.hottest_k": "35 degC"}, "+5 °C"},
		"level":       {`"fact": "crane.level_dbm", "at_most": "-100 dBm"`, facts{"crane.level_dbm": "-94 dBm"}, "−6 dB"},
		"money":       {`"fact": "crane.price", "at_most": "10.00"`, facts{"crane.price": "12.5"}, "−2.50"},
		"word":        {`"fact": "crane.kind", "is": "tower"`, facts{"crane.kind": "tower"}, ""},
	} {
		if got := judge(t, `"check": {`+c.check+`}`, c.facts).MarginText(unit.SI); got != c.want {
			t.Errorf("%s: the margin prints as %q, want %q", name, got, c.want)
		}
	}
}

func TestVerdict(t *testing.T) {
	finding := func(level rules.Level, outcome rules.Outcome) rules.Finding {
		return rules.Finding{Level: level, Outcome: outcome}
	}
	for name, c := range map[string]struct {
		findings []rules.Finding
		want     rules.Decision
	}{
		"nothing":           {nil, rules.NoGo},
		"only a should":     {[]rules.Finding{finding(rules.Should, rules.Met)}, rules.NoGo},
		"a must":            {[]rules.Finding{finding(rules.Must, rules.Met)}, rules.Go},
		"a should not met":  {[]rules.Finding{finding(rules.Must, rules.Met), finding(rules.Should, rules.NotMet)}, rules.Go},
		"a must not met":    {[]rules.Finding{finding(rules.Must, rules.Met), finding(rules.Must, rules.NotMet)}, rules.NoGo},
		"a must not shown":  {[]rules.Finding{finding(rules.Must, rules.NotShown), finding(rules.Must, rules.Met)}, rules.NoGo},
		"a blank finding":   {[]rules.Finding{{}}, rules.NoGo},
		"a blank must":      {[]rules.Finding{{Level: rules.Must}}, rules.NoGo},
		"only what is open": {[]rules.Finding{finding(rules.Must, rules.NotShown)}, rules.NoGo},
	} {
		if got := rules.Verdict(c.findings); got != c.want {
			t.Errorf("%s: the verdict is %s, want %s", name, got, c.want)
		}
	}
}

func TestWaivers(t *testing.T) {
	must := oneRule(`"check": {"fact": "crane.lit", "is": true}`)
	should := strings.NewReplacer(`"must"`, `"should"`, "crane.rule", "crane.advice", `"id": "test"`, `"id": "advice"`).Replace(must)
	packs := load(t, must, should)
	findings := rules.Evaluate(packs, facts{"crane.lit": "false"}, rules.Options{Waived: map[string]string{"crane.rule": "no", "crane.advice": "it stands in a hall"}})
	if findings[0].Waived != "" || findings[1].Waived != "it stands in a hall" || findings[1].Outcome != rules.NotMet {
		t.Errorf("got %+v", findings)
	}
	for id, want := range map[string]string{
		"crane.rule":   `the rule "crane.rule" is a must and cannot be waived`,
		"crane.advise": `there is no rule "crane.advise" did you mean "crane.advice"?`,
		"crane.advice": "",
	} {
		what, fix := packs.Waiver(id, "a reason")
		if got := strings.TrimSpace(what + " " + fix); !strings.HasPrefix(got, want) || want == "" && got != "" {
			t.Errorf("Waiver(%q) says %q, want %q", id, got, want)
		}
	}
	if what, _ := packs.Waiver("crane.advice", ""); what == "" {
		t.Error("a waiver without a reason passes")
	}
}

func TestRegions(t *testing.T) {
	regional := strings.Replace(oneRule(`"check": {"fact": "crane.lit", "is": true}`), `"title": "Test"`, `"title": "Test", "region": "fenland"`, 1)
	packs := load(t, regional)
	lit := facts{"crane.lit": "true"}
	if got := rules.Evaluate(packs, lit, rules.Options{}); len(got) != 0 {
		t.Errorf("a pack that nobody asked for is in force: %v", got)
	}
	if got := rules.Evaluate(packs, lit, rules.Options{Regions: []string{"fenland"}}); rules.Verdict(got) != rules.Go {
		t.Errorf("the pack that was asked for is not in force: %v", got)
	}
	got := rules.Evaluate(packs, lit, rules.Options{Regions: []string{"fenland", "marshland"}})
	if rules.Verdict(got) != rules.NoGo || got[0].Outcome != rules.NotShown || got[0].Message != "the manifest asks for the rules of marshland, and no pack has them" {
		t.Errorf("a region without rules passes: %v", got)
	}
}

// Two orders of the same rules give the same findings, in the order of the rules.
func TestOrderOfRulesChangesNothingButOrder(t *testing.T) {
	var entries []string
	for i := range 12 {
		entries = append(entries, fmt.Sprintf(`{"id": "crane.rule-%d", "title": "T", "level": "must", "message": "{value} {limit}", "source": [{"work": "policy"}],
			"check": {"fact": "crane.height_m", "at_least": "%d m"}}`, i, 10*i))
	}
	pack := func(order []int) string {
		var ordered []string
		for _, i := range order {
			ordered = append(ordered, entries[i])
		}
		return `{"format": "hoistbook-pack/1", "id": "test", "title": "T", "rules": [` + strings.Join(ordered, ",") + `]}`
	}
	find := func(order []int) map[string]rules.Finding {
		byRule := map[string]rules.Finding{}
		for n, f := range rules.Evaluate(load(t, pack(order)), facts{"crane.height_m": "55 m"}, rules.Options{}) {
			if want := fmt.Sprintf("crane.rule-%d", order[n]); f.Rule != want {
				t.Fatalf("finding %d is of rule %s, want %s", n, f.Rule, want)
			}
			byRule[f.Rule] = f
		}
		return byRule
	}
	straight := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}
	want := find(straight)
	for turn := 1; turn < len(straight); turn++ {
		turned := append(append([]int{}, straight[turn:]...), straight[:turn]...)
		if got := find(turned); !reflect.DeepEqual(got, want) {
			t.Errorf("order %v gives other findings:\n%v\nthan\n%v", turned, got, want)
		}
	}
}
