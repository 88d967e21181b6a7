package rules_test

import (
	"strings"
	"testing"

	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// said is an item with other texts and a reading.
func said(t *testing.T, response, more, reading string, f facts, system unit.System) rules.Step {
	t.Helper()
	text := strings.Replace(item("height", "Look", 1, more+`, "reading": {"name": "height", "dimension": "length", "plausible": ["0 m", "200 m"]`+reading+`}`), `"done"`, `"`+response+`"`, 1)
	return rules.Checklist(load(t, listPack("a", text)), f, rules.Options{System: system}, "preflight")[0]
}

// The limit of a reading is one number wherever it stands, rounded to its safe side; other facts are rounded as their words say.
func TestTheLimitOfAReadingIsOneNumber(t *testing.T) {
	f := facts{"crane.height_m": "30.04 m", "crane.load_kg": "12.34 kg"}
	for name, c := range map[string]struct {
		response, more, reading string
		system                  unit.System
		want, asks              string
	}{
		"at least":       {"reads at least {crane.height_m}", "", `, "at_least": {"fact": "crane.height_m"}`, unit.SI, "reads at least 30.1 m", "at least 30.1 m"},
		"at most":        {"no more than {crane.height_m}", "", `, "at_most": {"fact": "crane.height_m"}`, unit.SI, "no more than 30 m", "at most 30 m"},
		"in feet":        {"no more than {crane.height_m}", "", `, "at_most": {"fact": "crane.height_m"}`, unit.US, "no more than 98.5 ft", "at most 98.5 ft"},
		"by its word":    {"{least} or more", "", `, "at_least": {"fact": "crane.height_m", "times": 0.5}`, unit.SI, "15.1 m or more", "at least 15.1 m"},
		"a law's unit":   {"at least 500 ft", "", `, "at_least": "500 ft"`, unit.SI, "at least 500 ft", "at least 500 ft"},
		"not the limit":  {"it is {crane.height_m}", "", `, "at_least": "1 m"`, unit.SI, "it is 30 m", "at least 1 m"},
		"other, up":      {"{crane.load_kg up}", "", ``, unit.SI, "12.4 kg", ""},
		"other, down":    {"{crane.load_kg down}", "", ``, unit.SI, "12.3 kg", ""},
		"other, nearest": {"{crane.load_kg}", "", ``, unit.SI, "12.3 kg", ""},
	} {
		got := said(t, c.response, c.more, c.reading, f, c.system)
		if got.Response != c.want || got.Reading.Asks(c.system) != c.asks {
			t.Errorf("%s: paper says %q and the walk-through asks %q; want %q and %q", name, got.Response, got.Reading.Asks(c.system), c.want, c.asks)
		}
	}
}

// Up to where more is good is told only where the response asks for less.
func TestMoreThanTheResponseAsksFor(t *testing.T) {
	f := facts{"crane.height_m": "30 m"}
	const more, limit = `, "beyond": "up to {most} in a calm"`, `, "at_most": {"fact": "crane.height_m"}`
	if got := said(t, "no more than 20 m", more, limit, f, unit.SI); got.Beyond != "up to 30 m in a calm" {
		t.Errorf("where the response asks for less: %q", got.Beyond)
	}
	if got := said(t, "no more than {most}", more, limit, f, unit.SI); got.Beyond != "" {
		t.Errorf("where the response names the limit: %q", got.Beyond)
	}
}

// A reading is shown with as many figures as it takes to see why it is good or not.
func TestAReadingIsShownAsItWasJudged(t *testing.T) {
	g := said(t, "x", "", `, "at_least": {"fact": "crane.height_m"}`, facts{"crane.height_m": "30.04 m"}, unit.SI).Reading
	for metres, want := range map[float64]string{30.02: "30 m", 30.039: "30 m", 30.041: "30.04 m", 30.1: "30.1 m", 31: "31 m", 29.99: "30 m"} {
		if got := g.Shows(unit.Length(metres).Quantity(), unit.SI); got != want {
			t.Errorf("%v m is shown as %q, want %q", metres, got, want)
		}
	}
}

func TestWhatIsExpectedOfAReading(t *testing.T) {
	const expected = `, "expected": [{"at_most": {"fact": "crane.height_m", "times": 1.1}, "text": "higher than {crane.height_m}", "hint": "measure again"}, {"at_least": "5 m", "text": "low", "hint": "look"}]`
	g := said(t, "x", "", expected, facts{"crane.height_m": "30 m"}, unit.SI).Reading
	for metres, want := range map[float64]string{33: "", 33.1: "higher than 30 m", 5: "", 4.9: "low"} {
		e, doubted := g.Doubt(unit.Length(metres).Quantity())
		if e.Text != want || doubted != (want != "") {
			t.Errorf("%v m is doubted: %q", metres, e.Text)
		}
		if got := g.Judge(unit.Length(metres).Quantity()); got != rules.Met {
			t.Errorf("a doubt makes %v m %s", metres, got)
		}
	}
	if e, _ := g.Doubt(unit.Length(34).Quantity()); e.Asks(unit.SI) != "at most 33 m" || e.Hint != "measure again" {
		t.Errorf("expected %s, hint %q", e.Asks(unit.SI), e.Hint)
	}
	if least, most := g.Hopes(unit.SI); least != "5 m" || most != "33 m" {
		t.Errorf("paper expects %q to %q", least, most)
	}
	if least, most := said(t, "x", "", `, "at_most": "20 m"`+expected, facts{"crane.height_m": "30 m"}, unit.SI).Reading.Hopes(unit.SI); least != "5 m" || most != "" {
		t.Errorf("under a limit of 20 m paper expects %q to %q", least, most)
	}
	unknown := said(t, "x", "", expected, facts{"crane.height_m": "?"}, unit.SI).Reading
	if e, doubted := unknown.Doubt(unit.Length(30).Quantity()); !doubted || e.Limit.Known() {
		t.Errorf("what is expected and not known is kept to by anything: %+v", e)
	}
}

func TestWhatLoadSaysOfLimits(t *testing.T) {
	reading := func(keys string) string {
		return `, "reading": {"name": "height", "dimension": "length", "plausible": ["1 m", "2 m"]` + keys + `}`
	}
	for keys, want := range map[string]string{
		`, "notes": "{least}"` + reading(``):                  `{least} stands for nothing here; it is the limit of an item's reading`,
		`, "notes": "{most}"`:                                 `{most} stands for nothing here`,
		`, "notes": "{crane.lit up}"`:                         `"crane.lit" is true or false, which cannot be rounded`,
		`, "notes": "{crane.hight_m down}"`:                   `there is no fact "crane.hight_m"`,
		reading(`, "expected": [{"text": "a", "hint": "b"}]`): `one limit belongs here: at_least or at_most`,
		reading(`, "expected": [{"at_least": "1 m", "at_most": "2 m", "text": "a", "hint": "b"}]`): `one limit belongs here: at_least or at_most`,
		reading(`, "expected": [{"at_least": "1 kg", "text": "a", "hint": "b"}]`):                  `"1 kg" is a mass, and a length belongs here`,
	} {
		if _, err := tryLoad(listPack("a", item("x", "Look", 1, keys))); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: Load says\n%v\nwant\n%s", keys, err, want)
		}
	}
}
