package rules_test

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// Two numbers that differ by a millionth of a millionth of themselves are equal; by twice that they are not.
func TestASlackForRounding(t *testing.T) {
	metres := func(n float64) only {
		return only{fact.Value{Quantity: unit.Quantity{SI: n, Dim: unit.DimLength}}}
	}
	packs := load(t, oneRule(`"check": {"fact": "crane.height_m", "at_least": "50 m"}`))
	for n, want := range map[float64]rules.Outcome{50: rules.Met, 50 * (1 - 0.9e-12): rules.Met, 50 * (1 - 2e-12): rules.NotMet, 50 * (1 - 1e-9): rules.NotMet} {
		got := rules.Evaluate(packs, metres(n), rules.Options{})[0]
		if got.Outcome != want || want == rules.Met && (got.Margin != 0 || got.Share != 0) {
			t.Errorf("%v m: %v by %v, want %v", n, got.Outcome, got.Margin, want)
		}
	}
	count := load(t, oneRule(`"check": {"fact": "crane.lines", "is": 3}`))
	for n, want := range map[float64]rules.Outcome{3: rules.Met, 3 * (1 + 0.9e-12): rules.Met, 3 * (1 + 3e-12): rules.NotMet} {
		lines := only{fact.Value{Quantity: unit.Quantity{SI: n, Dim: unit.DimCount}}}
		if got := rules.Evaluate(count, lines, rules.Options{})[0]; got.Outcome != want {
			t.Errorf("%v lines: %v, want %v", n, got.Outcome, want)
		}
	}
	// Just above a limit of zero is above it.
	zero := load(t, oneRule(`"check": {"fact": "crane.height_m", "at_most": "0 m"}`))
	for n, want := range map[float64]rules.Outcome{0: rules.Met, 1e-15: rules.NotMet, -1e-15: rules.Met} {
		if got := rules.Evaluate(zero, metres(n), rules.Options{})[0]; got.Outcome != want || math.IsNaN(got.Share) || (got.Share == 0) != (n == 0) {
			t.Errorf("%v m over the ground: %v by %v, want %v", n, got.Outcome, got.Share, want)
		}
	}
}

// An amount that is no amount is not shown, and an unknown one says so; exact to the last of many digits.
func TestAmounts(t *testing.T) {
	for _, c := range []struct {
		check string
		facts facts
		want  rules.Outcome
		print string // margin of the report
	}{
		{`"at_most": {"fact": "crane.budget"}`, facts{"crane.price": "twelve", "crane.budget": "10"}, rules.NotShown, "null"},
		{`"at_most": {"fact": "crane.budget"}`, facts{"crane.price": "12", "crane.budget": "ten"}, rules.NotShown, "null"},
		{`"at_most": {"fact": "crane.budget", "times": 2}`, facts{"crane.price": "12", "crane.budget": "?"}, rules.NotShown, "null"},
		{`"at_least": "0.00"`, facts{"crane.price": "0.01"}, rules.Met, `"0.01"`},
		{`"at_most": "0"`, facts{"crane.price": "0.01"}, rules.NotMet, `"-0.01"`},
		{`"at_most": "1"`, facts{"crane.price": "1.000"}, rules.Met, `"0.000"`},
		{`"at_most": {"fact": "crane.budget", "times": 1.5}`, facts{"crane.price": "15.0001", "crane.budget": "10.0000"}, rules.NotMet, `"-0.0001"`},
		{`"at_least": {"fact": "crane.budget", "times": 0.5}`, facts{"crane.price": "5", "crane.budget": "9.99"}, rules.Met, `"0.00"`},
	} {
		got := judge(t, `"check": {"fact": "crane.price", `+c.check+`}`, c.facts)
		text, err := json.Marshal(got)
		if err != nil || got.Outcome != c.want || !strings.Contains(string(text), `"margin":`+c.print+`,`) {
			t.Errorf("%s with %v: %v, %s (%v), want %v by %s", c.check, c.facts, got.Outcome, text, err, c.want, c.print)
		}
	}
	// The margin is told as a part of the limit, of the amount itself where the limit is nothing.
	for _, c := range []struct {
		check, price string
		want         float64
	}{
		{`"at_most": "0"`, "0.01", -1}, {`"at_least": "0"`, "0.01", 1}, {`"at_least": "0"`, "0", 0}, {`"at_most": "0.50"`, "0.75", -0.5}, {`"at_most": "1"`, "0.75", 0.25}, {`"at_most": "4"`, "3", 0.25},
	} {
		if got := judge(t, `"check": {"fact": "crane.price", `+c.check+`}`, facts{"crane.price": c.price}); math.Abs(got.Share-c.want) > 1e-12 || math.IsNaN(got.Share) {
			t.Errorf("%s with %s: a margin of %v of the limit, want %v", c.check, c.price, got.Share, c.want)
		}
	}
	// The limit with its factor is shown to the decimals that the amount has.
	got := judge(t, `"check": {"fact": "crane.price", "at_most": {"fact": "crane.budget", "times": 1.5}}`, facts{"crane.price": "12.5", "crane.budget": "9.99"})
	if got.Limit.Text != "14.99" && got.Limit.Text != "14.98" || got.Message != "12.5, at most "+got.Limit.Text {
		t.Errorf("got %q, %q", got.Limit.Text, got.Message)
	}
}

// Of what has no margin the first decides, before what has one when it fails all, after it otherwise (a met word is no thin margin).
func TestWhatDecidesWithoutAMargin(t *testing.T) {
	f := facts{"crane.height_m": "60 m", "crane.load_kg": "9 kg", "crane.lit": "false", "crane.kind": "tower", "crane.share": "19 %"}
	for check, want := range map[string]string{
		`"all": [{"fact": "crane.kind", "is": "tower"}, {"fact": "crane.height_m", "at_least": "50 m"}]`:                                                        "crane.height_m met",
		`"all": [{"fact": "crane.kind", "is": "tower"}, {"fact": "crane.lit", "is": false}]`:                                                                    "crane.kind met",
		`"all": [{"fact": "crane.height_m", "at_least": "80 m"}, {"fact": "crane.kind", "is": "mobile"}]`:                                                       "crane.kind not met",
		`"any": [{"fact": "crane.kind", "is": "tower"}, {"fact": "crane.height_m", "at_least": "50 m"}]`:                                                        "crane.height_m met",
		`"any": [{"fact": "crane.kind", "is": "mobile"}, {"fact": "crane.height_m", "at_least": "80 m"}]`:                                                       "crane.height_m not met",
		`"any": [{"fact": "crane.kind", "is": "mobile"}, {"fact": "crane.lit", "is": true}]`:                                                                    "crane.kind not met",
		`"all": [{"fact": "crane.height_m", "at_least": "50 m"}, {"fact": "crane.height_m", "at_most": "62 m"}, {"fact": "crane.load_kg", "at_most": "10 kg"}]`: "crane.height_m met",
		`"not": {"any": [{"fact": "crane.height_m", "at_least": "80 m"}, {"fact": "crane.load_kg", "at_most": "8 kg"}]}`:                                        "crane.load_kg met",
	} {
		got := judge(t, `"check": {`+check+`}`, f)
		if text := got.Fact + " " + got.Outcome.String(); text != want {
			t.Errorf("%s shows %s, want %s", check, text, want)
		}
	}
}

// What is said of a rule that is met: its own words, else the comparison, else its title.
func TestWhatIsSaidOfWhatIsMet(t *testing.T) {
	f := facts{"crane.height_m": "60 m", "crane.lit": "true"}
	for keys, want := range map[string]string{
		`"ok": "it is {value} high", "check": {"fact": "crane.height_m", "at_least": "50 m"}`: "it is 60 m high",
		`"check": {"fact": "crane.height_m", "at_least": "50 m"}`:                             "60 m, at least 50 m",
		`"check": {"not": {"fact": "crane.height_m", "at_most": "50 m"}}`:                     "60 m, above 50 m",
		`"check": {"fact": "crane.lit", "is": true}`:                                          "The crane is right",
		`"hint": "never mind", "check": {"fact": "crane.lit", "is": true}`:                    "The crane is right",
	} {
		if got := judge(t, keys, f); got.Message != want || got.Hint != "" {
			t.Errorf("%s: got %q and the hint %q, want %q", keys, got.Message, got.Hint, want)
		}
	}
	got := judge(t, `"when": {"fact": "crane.share", "at_least": "5 %"}, "hint": "say its share", "check": {"fact": "crane.lit", "is": true}`, facts{"crane.lit": "true"})
	if got.Message != "crane.share is not known: this kit has no such fact" || got.Hint != "say its share" || got.Fact != "crane.share" {
		t.Errorf("an unknown guard: got %+v", got)
	}
}

// The steps of a thermometer are nine fifths in Fahrenheit: 5 °C are 9 °F.
func TestMarginsOnScales(t *testing.T) {
	warm := judge(t, `"check": {"fact": "crane.hottest_k", "at_most": "40 degC"}`, facts{"crane.hottest_k": "35 degC"})
	for system, want := range map[unit.System]string{unit.SI: "+5 °C", unit.US: "+9 °F"} {
		if got := warm.MarginText(system); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	fine := judge(t, `"check": {"fact": "crane.hottest_k", "at_most": "40 degC"}`, facts{"crane.hottest_k": "34.321 degC"})
	for system, want := range map[unit.System]string{unit.SI: "+5.68 °C", unit.US: "+10.2 °F"} {
		if got := fine.MarginText(system); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// Numbers are reported to twelve figures; what is not finite is null.
func TestNumbersOfReports(t *testing.T) {
	got := judge(t, `"check": {"fact": "crane.height_m", "at_least": "30 m"}`, facts{"crane.height_m": "100 ft"})
	text, err := json.Marshal(got)
	if err != nil || !strings.Contains(string(text), `"measure":30.48,"relation":"at least","limit":30,"unit":"m","margin":0.48,"relative_margin":0.016,`) {
		t.Errorf("got %s (%v)", text, err)
	}
	third := rules.Finding{Fact: "x", Measure: fact.Value{Quantity: unit.Quantity{SI: 1.0 / 3, Dim: unit.DimLength}}, Limit: fact.Value{Quantity: unit.Quantity{Dim: unit.DimLength}}, Unit: "m", Margin: math.Inf(1), Share: math.Inf(-1)}
	if r := third.Report(); r.Measure != 0.333333333333 || r.Margin != nil || r.RelativeMargin != nil {
		t.Errorf("got %+v", r)
	}
	none := rules.Finding{Margin: math.NaN(), Share: math.NaN()}
	if r := none.Report(); r.Measure != nil || r.Limit != nil || r.Margin != nil {
		t.Errorf("got %+v", r)
	}
}

// Outcomes, levels of change and findings read and write the words of reports.
func TestWordsOfReports(t *testing.T) {
	for outcome, word := range map[rules.Outcome]string{rules.NotMet: "not met", rules.NotShown: "not shown", rules.Met: "met"} {
		text, err := outcome.MarshalText()
		if err != nil || string(text) != word {
			t.Errorf("%v is written %s (%v)", outcome, text, err)
		}
		back := rules.Outcome(99)
		if err := back.UnmarshalText([]byte(word)); err != nil || back != outcome {
			t.Errorf("%s is read as %v (%v)", word, back, err)
		}
	}
	var o rules.Outcome
	if err := o.UnmarshalText([]byte("maybe")); err == nil || !strings.Contains(err.Error(), `"maybe"`) {
		t.Errorf("an outcome of maybe: %v (%v)", o, err)
	}
	for kind, word := range map[rules.Kind]string{rules.Broken: "broken", rules.Thinner: "thinner", rules.Gone: "gone", rules.Begun: "begun", rules.Changed: "changed", rules.Same: "same", rules.Wider: "wider", rules.Mended: "mended"} {
		if text, err := kind.MarshalText(); err != nil || string(text) != word || kind.String() != word {
			t.Errorf("%d is written %s (%v), want %s", kind, text, err, word)
		}
	}
}

// Half of a wide margin lost is less than half of a thin one; a thousandth is as thin as none.
func TestLosses(t *testing.T) {
	shift := func(before, after float64) rules.Shift {
		return rules.Shift{Before: &rules.Finding{Outcome: rules.Met, Share: before}, After: &rules.Finding{Outcome: rules.Met, Share: after}}
	}
	for _, c := range []struct {
		before, after, loss float64
		kind                rules.Kind
	}{
		{0.4, 0.3, 0.25, rules.Thinner}, {0.4, 0.5, -0.25, rules.Wider}, {0.03, 0.01, 2. / 3, rules.Thinner}, {5.58, 4.00, 1.58 / 5.58, rules.Thinner},
		{0.4, 0.4 * (1 + 1e-13), 0, rules.Same}, {0.4, 0.4 * (1 - 3e-12), 3e-12, rules.Thinner}, {0, 0, 0, rules.Same}, {0, 0.001, -1, rules.Wider}, {0.0005, 0, 0.5, rules.Thinner}, {nan, 0.1, 0, rules.Same},
	} {
		s := shift(c.before, c.after)
		if got := s.Loss(); math.Abs(got-c.loss) > 1e-9+1e-3*math.Abs(c.loss) {
			t.Errorf("from %v to %v: a loss of %v, want %v", c.before, c.after, got, c.loss)
		}
		if got := s.Kind(); got != c.kind {
			t.Errorf("from %v to %v: %v, want %v", c.before, c.after, got, c.kind)
		}
	}
	// Without a margin what is measured, its limit and the words tell whether anything has changed.
	word := func(text string) *rules.Finding {
		return &rules.Finding{Outcome: rules.Met, Share: nan, Message: text, Measure: fact.Value{Kind: fact.Word, Text: text}, Limit: fact.Value{Kind: fact.Word, Text: "x"}}
	}
	limit, message := word("a"), word("a")
	limit.Limit.Text, message.Message = "y", "b"
	for name, c := range map[string]struct {
		after *rules.Finding
		want  rules.Kind
	}{"nothing": {word("a"), rules.Same}, "the measure": {word("b"), rules.Changed}, "the limit": {limit, rules.Changed}, "the words": {message, rules.Changed}} {
		if got := (rules.Shift{Before: word("a"), After: c.after}).Kind(); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// A MUST cannot be waived and an unknown rule is told by the nearest that can, in the order of their ids.
func TestWaiversNameWhatMayBeWaived(t *testing.T) {
	should := func(pack, id string) string {
		return strings.NewReplacer(`"must"`, `"should"`, "crane.rule", id, `"id": "test"`, `"id": "`+pack+`"`).Replace(oneRule(`"check": {"fact": "crane.lit", "is": true}`))
	}
	packs := load(t, oneRule(`"check": {"fact": "crane.lit", "is": true}`), should("b", "crane.advicf"), should("a", "crane.advicd"))
	what, fix := packs.Waiver("crane.advice", "a reason")
	if what != `there is no rule "crane.advice"` || fix != `did you mean "crane.advicd"?` {
		t.Errorf("got %q, %q", what, fix)
	}
	for _, c := range []struct{ id, reason, fix string }{{"crane.rule", "why not", "change the kit so that it is met"}, {"crane.advicd", "", "say why; the reason is printed"}, {"nothing.like.it", "x", "rules that may be waived are listed by their ids in the report"}, {"crane.rul", "x", "rules that may be waived are listed by their ids in the report"}} {
		if what, fix := packs.Waiver(c.id, c.reason); what == "" || fix != c.fix {
			t.Errorf("%s: got %q, %q; want the fix %q", c.id, what, fix, c.fix)
		}
	}
}

// A reading at the ends of what is plausible is plausible, and one at its limit is good.
func TestTheEdgesOfAGauge(t *testing.T) {
	g := gaugeOf(t, `"plausible": ["1 m", "200 m"], "at_least": "10 m", "at_most": "100 m"`)
	for metres, want := range map[float64]rules.Outcome{1: rules.NotMet, 200: rules.NotMet, 0.999: rules.NotShown, 200.001: rules.NotShown, 10: rules.Met, 100: rules.Met, 9.999: rules.NotMet, 100.001: rules.NotMet} {
		if got := g.Judge(unit.Quantity{SI: metres, Dim: unit.DimLength}); got != want {
			t.Errorf("%v m is %v, want %v", metres, got, want)
		}
	}
	if !g.Limited || g.Name != "height" || g.Replaces != "" || len(g.Feeds) != 0 {
		t.Errorf("got %+v", g)
	}
	for keys, limited := range map[string]bool{`"plausible": ["1 m", "200 m"]`: false, `"plausible": ["1 m", "200 m"], "at_least": "10 m"`: true, `"plausible": ["1 m", "200 m"], "at_most": "10 m"`: true} {
		g := gaugeOf(t, keys)
		if g.Limited != limited {
			t.Errorf("%s: limited %v", keys, g.Limited)
		}
		if got := g.Judge(unit.Quantity{SI: 1, Dim: unit.DimLength}); !limited && got != rules.Met {
			t.Errorf("%s: a plausible reading without a limit is %v", keys, got)
		}
	}
	over := gaugeOf(t, `"plausible": ["1 m", "1 m"]`)
	if !over.Plausible(unit.Quantity{SI: 1, Dim: unit.DimLength}) {
		t.Error("the one plausible value is not plausible")
	}
	if packs := load(t, listPack("a", item("x", "Look", 1, ""))); rules.Checklist(packs, facts{}, rules.Options{}, "preflight")[0].Reading != nil {
		t.Error("an item without a reading has one")
	}
}

func gaugeOf(t *testing.T, keys string) *rules.Gauge {
	t.Helper()
	packs := load(t, listPack("a", item("height", "Look", 1, `, "reading": {"name": "height", "dimension": "length", `+keys+`}`)))
	return rules.Checklist(packs, facts{}, rules.Options{}, "preflight")[0].Reading
}

// Items of one phase stand by their order and, where that is equal, as written; phases that begin alike by their names.
func TestItemsWithEqualOrders(t *testing.T) {
	packs := load(t, listPack("a", item("b", "Rig it", 5, ""), item("a", "Rig it", 5, ""), item("c", "Aloft now", 5, ""), item("d", "Rig it", 4, "")))
	var got []string
	for _, s := range rules.Checklist(packs, facts{}, rules.Options{}, "preflight") {
		got = append(got, s.ID)
	}
	if text := strings.Join(got, " "); text != "d b a c" {
		t.Errorf("got %s", text)
	}
}

// Alerts stand before a list as a whole, or before one of its phases, and concern the list in both cases.
func TestWhereAlertsStand(t *testing.T) {
	a := rules.Alert{Before: []string{"station", "preflight/Rig it"}}
	for place, want := range map[string][2]bool{
		"station": {true, true}, "preflight": {false, true}, "preflight/Rig it": {true, true}, "preflight/Rig": {false, false}, "recovery": {false, false}, "pre": {false, false}, "stat": {false, false},
	} {
		if a.Precedes(place) != want[0] || a.Concerns(place) != want[1] {
			t.Errorf("%q: precedes %v, concerns %v, want %v", place, a.Precedes(place), a.Concerns(place), want)
		}
	}
}

// A notice is due where its guard is met or cannot be decided, with its texts and a line for the pen.
func TestNotices(t *testing.T) {
	pack := `{"format": "hoistbook-pack/1", "id": "n", "title": "N", "notices": [{"id": "n.hall", "title": "Notice", "to": "the porter", "ahead": "24 h", "notes": "the crane is {crane.height_m} high",
		"when": {"fact": "crane.lit", "is": true}, "lines": [{"label": "Height", "text": "{crane.height_m}"}, {"label": "Name"}], "source": [{"work": "policy"}]}]}`
	for lit, due := range map[string]int{"true": 1, "?": 1, "false": 0} {
		got := rules.Notices(load(t, pack), facts{"crane.lit": lit, "crane.height_m": "48 m"}, rules.Options{})
		if len(got) != due {
			t.Errorf("lit %s: %d notices, want %d", lit, len(got), due)
			continue
		}
		if due > 0 && (fmt.Sprint(got[0].Lines) != "[{Height 48 m} {Name }]" || got[0].Notes != "the crane is 48 m high" || got[0].To != "the porter" || got[0].Source[0] != "kit engineering policy") {
			t.Errorf("got %+v", got[0])
		}
	}
}

// A rule cites works of the bibliography and of its own pack, with clause and standing.
func TestCitations(t *testing.T) {
	pack := strings.Replace(oneRule(`"check": {"fact": "crane.lit", "is": true}`), `"source": [{"work": "policy"}]`,
		`"source": [{"work": "ours", "at": "page 3"}, {"work": "policy"}, {"work": "ours", "standing": "from memory"}]`, 1)
	pack = strings.Replace(pack, `"title": "Test",`, `"title": "Test", "sources": {"ours": {"citation": "our rules", "standing": "kit policy", "verify": true}},`, 1)
	r, _ := load(t, pack).Rule("crane.rule")
	want := []string{"our rules, page 3 (verify against the current text)", "kit engineering policy", "our rules (from memory) (verify against the current text)"}
	if got := r.Citations(); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A text is put together from its first letter to its last, with "not shown" where the kit lacks a fact.
func TestTextsArePutTogetherWhole(t *testing.T) {
	f := facts{"crane.height_m": "60 m", "crane.kind": "tower", "crane.lit": "true"}
	for text, want := range map[string]string{
		"a{crane.kind}": "atower", "{crane.kind}b": "towerb", "{crane.kind}{crane.height_m}": "tower60 m", "a {crane.load_kg}, {crane.kind}": "a not shown, tower", "x": "x",
	} {
		if got := judge(t, `"ok": "`+text+`", "check": {"fact": "crane.lit", "is": true}`, f); got.Message != want {
			t.Errorf("%s: got %q, want %q", text, got.Message, want)
		}
	}
}

// Half a metre is a margin with its sign; of amounts that are none no margin is made up.
func TestSmallMarginsHaveASign(t *testing.T) {
	height := func(m float64) fact.Value {
		return fact.Value{Quantity: unit.Quantity{SI: m, Dim: unit.DimLength}}
	}
	for margin, want := range map[float64]string{0.5: "+0.5 m", -0.5: "−0.5 m"} {
		if got := (rules.Finding{Measure: height(2 + margin), Limit: height(2), Margin: margin}).MarginText(unit.SI); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	amount := func(text string) fact.Value { return fact.Value{Kind: fact.Money, Text: text} }
	for _, pair := range [][2]string{{"ten", "1"}, {"1", "ten"}, {"ten", "ten"}} {
		if got := (rules.Finding{Measure: amount(pair[0]), Limit: amount(pair[1])}).MarginText(unit.SI); got != "not shown" {
			t.Errorf("%v: got %q", pair, got)
		}
	}
	if got := (rules.Gauge{}).Asks(unit.SI); got != "" {
		t.Errorf("a gauge without limits asks for %q", got)
	}
}

// The digest is SHA-256 over those of the texts.
func TestDigestOfPacks(t *testing.T) {
	a, b := oneRule(`"check": {"fact": "crane.lit", "is": true}`), listPack("a", item("i", "Look", 1, ""))
	one, two := sha256.Sum256([]byte(a)), sha256.Sum256([]byte(b))
	want := fmt.Sprintf("%x", sha256.Sum256(append(one[:], two[:]...)))
	if got := load(t, a, b).Digest(); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// What an entry may say does not hang on the one before it: a notice after a rule over a family has neither its words nor its members.
func TestANoticeHasNothingOfTheRuleBefore(t *testing.T) {
	for text, want := range map[string]string{"{value}": "{value} stands for nothing here", "{subject}": "{subject} stands for nothing", "{motors.*.rated_v}": `the star in "motors.*.rated_v" stands for nothing`} {
		_, err := tryLoad(strings.TrimSuffix(oneRule(`"for_each": "motors", "check": {"fact": "motors.*.lowest_v", "at_least": "1 V"}`), "}") +
			`, "notices": [{"id": "n.a", "title": "N", "to": "t", "ahead": "24 h", "source": [{"work": "policy"}], "lines": [{"label": "L", "text": "` + text + `"}]}]}`)
		if told(err) != 1 || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: Load says %v, want %q", text, err, want)
		}
	}
}

// Every slip of the pen in a phase is told, two rules without an id are told as that, and a few facts of a topic are three.
func TestMistakesAreToldAsOftenAsTheyAreMade(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		told int
		want string
	}{
		"two slips":      {listPack("a", item("i", "Fill the balloon", 1, ""), item("j", "Fill the baloon", 2, ""), item("k", "Fill the baloon", 3, "")), 2, "is nearly one that there is"},
		"no ids":         {strings.ReplaceAll(listPack("a", item("i", "Look", 1, ""), item("j", "Look", 2, "")), `"id": "j"`, `"id": ""`), 1, "does not have the form"},
		"no ids at all":  {strings.NewReplacer(`"id": "i"`, `"id": ""`, `"id": "j"`, `"id": ""`).Replace(listPack("a", item("i", "Look", 1, ""), item("j", "Look", 2, ""))), 2, "does not have the form"},
		"three of many":  {oneRule(`"check": {"fact": "crane.x", "at_least": "1 m"}`), 1, "facts of this topic are crane.load_kg, crane.rated_kg, crane.height_m"},
		"a rule is none": {strings.Replace(oneRule(`"check": {"fact": "crane.lit", "is": true}`), `"rules": [`, `"rules": [3, `, 1), 1, "a number stands here; an object belongs here"},
	} {
		_, err := tryLoad(c.text)
		if told(err) != c.told || !strings.Contains(err.Error(), c.want) || name == "three of many" && !strings.HasSuffix(err.Error(), c.want) {
			t.Errorf("%s: %d problems are told, want %d with %q:\n%v", name, told(err), c.told, c.want, err)
		}
	}
}

// A reading is taken in the unit of its limit, of the first that is one; without any, in that of the greatest plausible value.
func TestTheUnitToReadIn(t *testing.T) {
	metres := func(m float64) fact.Value {
		return fact.Value{Quantity: unit.Quantity{SI: m, Dim: unit.DimLength}}
	}
	none, in := fact.Value{Unknown: "there is no limit"}, metres(3)
	in.In = "mm"
	for _, c := range []struct {
		name        string
		least, most fact.Value
		si, us      string
	}{
		{"no limit", none, none, "m", "ft"},
		{"a limit", metres(0.05), none, "cm", "in"},
		{"the other limit", none, metres(0.05), "cm", "in"},
		{"the first of two", metres(0.05), metres(100), "cm", "in"},
		{"nothing, and a limit", metres(0), metres(0.05), "cm", "in"},
		{"nothing alone", metres(0), none, "m", "ft"},
		{"a limit that is not known", fact.Value{Unknown: "nobody says it", Quantity: metres(0.05).Quantity}, none, "m", "ft"},
		{"its own unit", in, metres(0.05), "mm", "mm"},
		{"its own unit, second", metres(0), in, "mm", "mm"},
	} {
		g := rules.Gauge{Dim: unit.DimLength, Low: metres(0).Quantity, High: metres(200).Quantity, Least: c.least, Most: c.most, Limited: true}
		if si, us := g.In(unit.SI), g.In(unit.US); si != c.si || us != c.us {
			t.Errorf("%s: read in %s and %s, want %s and %s", c.name, si, us, c.si, c.us)
		}
	}
	// Of two limits each is printed where it is one.
	g := rules.Gauge{Dim: unit.DimLength, High: metres(200).Quantity, Least: in, Most: none, Limited: true}
	if least, most := g.Bounds(unit.SI); least != "3000 mm" || most != "" {
		t.Errorf("bounds are %q and %q", least, most)
	}
	g.Least, g.Most = none, in
	if least, most := g.Bounds(unit.SI); least != "" || most != "3000 mm" {
		t.Errorf("bounds are %q and %q", least, most)
	}
}
