package rules_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// item is a checklist item with more keys.
func item(id, phase string, order int, keys string) string {
	return fmt.Sprintf(`{"id": %q, "list": "preflight", "phase": %q, "order": %d, "role": "crew", "challenge": %q, "response": "done",
		"source": [{"work": "policy"}]%s}`, id, phase, order, id, keys)
}

func listPack(id string, items ...string) string {
	return `{"format": "hoistbook-pack/1", "id": "` + id + `", "title": "T", "checklist": [` + strings.Join(items, ",") + `]}`
}

func TestItemsStandByPhaseAndOrder(t *testing.T) {
	packs := load(t,
		listPack("a", item("lift", "Lift", 300, ""), item("look", "Look", 100, ""), item("rig", "Rig", 200, "")),
		listPack("b", item("late-look", "Look", 900, ""), item("early-rig", "Rig", 150, ""), item("first", "Before all", 1, "")),
	)
	var got []string
	for _, s := range rules.Checklist(packs, facts{}, rules.Options{}, "preflight") {
		got = append(got, s.ID)
	}
	if want := "first look late-look early-rig rig lift"; strings.Join(got, " ") != want {
		t.Errorf("the items stand as %v, want %s", got, want)
	}
	if other := rules.Checklist(packs, facts{}, rules.Options{}, "recovery"); len(other) != 0 {
		t.Errorf("the other list has %v", other)
	}
}

func TestAnItemStaysWhereItsGuardIsNotKnown(t *testing.T) {
	packs := load(t, listPack("a", item("lamp", "Look", 1, `, "when": {"fact": "crane.lit", "is": true}`),
		strings.Replace(item("motor", "Look", 2, `, "for_each": "motors"`), `"done"`, `"{subject} runs on {motors.*.rated_v}"`, 1)))
	for lit, want := range map[string]string{"true": "lamp", "?": "lamp", "false": ""} {
		var got []string
		for _, s := range rules.Checklist(packs, facts{"crane.lit": lit, "motors.B.rated_v": "5 V", "motors.A.rated_v": "6 V"}, rules.Options{}, "preflight") {
			if s.Subject == "" {
				got = append(got, s.ID)
			} else if want := map[string]string{"A": "A runs on 6 V", "B": "B runs on 5 V"}[s.Subject]; s.Response != want {
				t.Errorf("the response for %s is %q, want %q", s.Subject, s.Response, want)
			}
		}
		if strings.Join(got, " ") != want {
			t.Errorf("with the guard %s the list is %v, want %q", lit, got, want)
		}
	}
}

// A round quantity is printed as it is written for the reader's units, and nothing is computed from it.
func TestRoundQuantities(t *testing.T) {
	packs := load(t, listPack("a", strings.Replace(item("first", "Look", 1, ""), `"done"`, `"up to {5 m|16 ft}, with {10 kg|22 lb}"`, 1)))
	for system, want := range map[unit.System]string{unit.SI: "up to 5 m, with 10 kg", unit.US: "up to 16 ft, with 22 lb"} {
		if got := rules.Checklist(packs, facts{}, rules.Options{System: system}, "preflight")[0].Response; got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// A step by itself is the one that stands in the list.
func TestAStepByItself(t *testing.T) {
	packs := load(t, listPack("a", strings.Replace(item("motor", "Look", 2, `, "for_each": "motors"`), `"done"`, `"{subject} runs"`, 1), item("lamp", "Look", 1, `, "when": {"fact": "crane.lit", "is": true}`)))
	f := facts{"crane.lit": "false", "motors.B.rated_v": "5 V", "motors.A.rated_v": "6 V"}
	for _, want := range rules.Checklist(packs, f, rules.Options{}, "preflight") {
		if got, ok := packs.Step(f, rules.Options{}, want.ID, want.Subject); !ok || got.ID != want.ID || got.Subject != want.Subject || got.Response != want.Response {
			t.Errorf("got %+v, %v; want %+v", got, ok, want)
		}
	}
	for _, other := range [][2]string{{"lamp", ""}, {"motor", "C"}, {"motor", ""}, {"engine", ""}} {
		if got, ok := packs.Step(f, rules.Options{}, other[0], other[1]); ok {
			t.Errorf("%v: got %+v, which the list does not have", other, got)
		}
	}
}

func TestReadings(t *testing.T) {
	const reading = `, "reading": {"name": "height", "dimension": "length", "plausible": ["1 m", "200 m"], "at_least": {"fact": "crane.height_m", "times": 0.5}, "at_most": "100 m",
		"replaces": "crane.height_m", "feeds": ["/crane/height"]}`
	packs := load(t, listPack("a", item("height", "Look", 1, reading)))
	gauge := func(height string) *rules.Gauge {
		return rules.Checklist(packs, facts{"crane.height_m": height}, rules.Options{}, "preflight")[0].Reading
	}
	g := gauge("80 m")
	for _, c := range []struct {
		metres float64
		want   rules.Outcome
	}{{40, rules.Met}, {39.9, rules.NotMet}, {100, rules.Met}, {100.1, rules.NotMet}, {0.5, rules.NotShown}, {201, rules.NotShown}, {math.NaN(), rules.NotShown}} {
		if got := g.Judge(unit.Quantity{SI: c.metres, Dim: unit.DimLength}); got != c.want {
			t.Errorf("a reading of %v m is %v, want %v", c.metres, got, c.want)
		}
	}
	if got := g.Judge(unit.Quantity{SI: 50, Dim: unit.DimMass}); got != rules.NotShown {
		t.Errorf("a mass passes as a length: %v", got)
	}
	if g.Replaces != "crane.height_m" || g.Feeds[0] != "/crane/height" || !g.Limited {
		t.Errorf("got %+v", g)
	}
	if got := gauge("?").Judge(unit.Quantity{SI: 50, Dim: unit.DimLength}); got != rules.NotShown {
		t.Errorf("a reading without a known limit is %v", got)
	}
	if got := gauge("?").Judge(unit.Quantity{SI: 150, Dim: unit.DimLength}); got != rules.NotMet {
		t.Errorf("a reading over the other limit is %v", got)
	}
}

func TestWhatAReadingAsks(t *testing.T) {
	for _, c := range []struct{ limits, height, want string }{
		{`, "at_most": "100 m"`, "80 m", "at most 100 m"},
		{`, "at_least": {"fact": "crane.height_m"}`, "80 m", "at least 80 m"},
		{`, "at_least": "1.2 m", "at_most": "1.25 m"`, "80 m", "1.2 m to 1.25 m"},
		{`, "at_least": {"fact": "crane.height_m"}, "at_most": "9 m"`, "?", "its limit is not shown"},
		{``, "80 m", ""},
	} {
		packs := load(t, listPack("a", item("height", "Look", 1, `, "reading": {"name": "height", "dimension": "length", "plausible": ["1 m", "200 m"]`+c.limits+`}`)))
		g := rules.Checklist(packs, facts{"crane.height_m": c.height}, rules.Options{}, "preflight")[0].Reading
		if got := g.Asks(unit.SI); got != c.want {
			t.Errorf("%s: the reading asks %q, want %q", c.limits, got, c.want)
		}
	}
}

func TestWhatLoadSaysOfReadings(t *testing.T) {
	for keys, want := range map[string]string{
		`"dimension": "lenght", "plausible": ["1 m", "2 m"]`:                                  `"lenght" is not one of the words that may stand here; did you mean "length"?`,
		`"dimension": "length", "plausible": ["2 m", "1 m"]`:                                  `the plausible values run backwards`,
		`"dimension": "length", "plausible": ["1 kg", "2 m"]`:                                 `"1 kg" is a mass, and a length belongs here`,
		`"dimension": "length", "plausible": ["1 m", "2 m"], "replaces": "crane.load_kg"`:     `"crane.load_kg" is a mass, and the reading is a length`,
		`"dimension": "length", "plausible": ["1 m", "2 m"], "at_most": "3 kg"`:               `"3 kg" is a mass, and a length belongs here`,
		`"dimension": "length", "plausible": ["1 m", "2 m"], "feeds": ["station/wind"]`:       `"station/wind" is not a JSON pointer`,
		`"dimension": "length", "plausible": ["1 m"], "at_least": {"fact": "crane.height_x"}`: `there is no fact "crane.height_x"; did you mean "crane.height_m"?`,
	} {
		_, err := tryLoad(listPack("a", item("x", "Look", 1, `, "reading": {"name": "height", `+keys+`}`)))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: Load says\n%v\nwant\n%s", keys, err, want)
		}
	}
}

func TestTheGravestCautionComesFirst(t *testing.T) {
	caution := func(id, signal, keys string) string {
		return fmt.Sprintf(`{"id": %q, "signal": %q, "hazard": "h", "consequence": "c", "avoidance": "a", "before": ["assembly"], "source": [{"work": "policy"}]%s}`, id, signal, keys)
	}
	packs := load(t, `{"format": "hoistbook-pack/1", "id": "c", "title": "T", "cautions": [`+strings.Join([]string{
		caution("n", "notice", ""), caution("w", "warning", ""), caution("d", "danger", `, "when": {"fact": "crane.lit", "is": true}`), caution("c", "caution", ""), caution("w2", "warning", ""),
	}, ",")+`]}`)
	for lit, want := range map[string]string{"true": "d w w2 c n", "?": "d w w2 c n", "false": "w w2 c n"} {
		var got []string
		for _, a := range rules.Cautions(packs, facts{"crane.lit": lit}, rules.Options{}) {
			got = append(got, a.ID)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("with the guard %s the cautions stand as %v, want %s", lit, got, want)
		}
	}
}

func TestAReadingIsNotBelowOneOfItsKind(t *testing.T) {
	mean := item("a.mean", "Look", 1, `, "reading": {"name": "mean", "dimension": "length", "plausible": ["1 m", "2 m"]}`)
	for keys, want := range map[string]string{
		`"dimension": "length", "plausible": ["1 m", "2 m"], "not_below": "a.mean"`: "",
		`"dimension": "length", "plausible": ["1 m", "2 m"], "not_below": "a.mena"`: `did you mean "a.mean"?`,
		`"dimension": "mass", "plausible": ["1 kg", "2 kg"], "not_below": "a.mean"`: `"a.mean" reads length in the preflight list`,
	} {
		packs, err := tryLoad(listPack("a", mean, item("a.gust", "Look", 2, `, "reading": {"name": "gust", `+keys+`}`)))
		switch {
		case want == "" && (err != nil || rules.Checklist(packs, facts{}, rules.Options{}, "preflight")[1].Reading.NotBelow != "a.mean"):
			t.Errorf("%s: %v", keys, err)
		case want != "" && (err == nil || !strings.Contains(err.Error(), want)):
			t.Errorf("%s: Load says\n%v\nwant\n%s", keys, err, want)
		}
	}
}
