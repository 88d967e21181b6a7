package rules_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hoistbook/kits/diag"
	"hoistbook/rules"
)

// Each row is a rule with one mistake, and what is said about it.
func TestWhatLoadSays(t *testing.T) {
	for name, c := range map[string]struct{ keys, want string }{
		"unknown fact":         {`"check": {"fact": "crane.hieght_m", "at_least": "1 m"}`, `there is no fact "crane.hieght_m"; did you mean "crane.height_m"?`},
		"within, one wrong":    {`"check": {"fact": "crane.height_m", "within": ["2 kg", "1 m"]}`, `"2 kg" is a mass, and a length belongs here`},
		"within, other wrong":  {`"check": {"fact": "crane.height_m", "within": ["2 m", "1 kg"]}`, `"1 kg" is a mass, and a length belongs here`},
		"within, no fact":      {`"check": {"fact": "crane.height_m", "within": [{"fact": "crane.z"}, "1 m"]}`, `there is no fact "crane.z"`},
		"closing twice":        {`"ok": "a } b } c", "check": {"fact": "crane.lit", "is": true}`, `a brace in "a } b } c" has no partner`},
		"opening twice":        {`"ok": "so {crane.kind {crane.lit}", "check": {"fact": "crane.lit", "is": true}`, `a brace in "so {crane.kind {crane.lit}" has no partner`},
		"a hidden character":   {"\"hint\": \"up\u202edown\", \"check\": {\"fact\": \"crane.lit\", \"is\": true}", `stands a character that nobody sees, U+202E`},
		"unknown topic":        {`"check": {"fact": "crane.x", "at_least": "1 m"}`, `facts of this topic are crane.load_kg, crane.rated_kg, crane.height_m`},
		"wrong dimension":      {`"check": {"fact": "crane.height_m", "at_least": "1 kg"}`, `"1 kg" is a mass, and a length belongs here; write a length in m, `},
		"unknown unit":         {`"check": {"fact": "crane.height_m", "at_least": "1 fathom"}`, `"1 fathom" has the unknown unit "fathom"`},
		"no unit":              {`"check": {"fact": "crane.height_m", "at_least": "1"}`, `"1" has no unit, and a length needs one`},
		"a bare number":        {`"check": {"fact": "crane.height_m", "at_least": 1}`, `"1" has no unit, and a length needs one`},
		"an exponent":          {`"check": {"fact": "crane.lines", "at_least": 1e9}`, `"1e9"`},
		"facts unlike":         {`"check": {"fact": "crane.height_m", "at_least": {"fact": "crane.load_kg"}}`, `"crane.load_kg" is a mass and "crane.height_m" is a length; compare like with like`},
		"kinds unlike":         {`"check": {"fact": "crane.kind", "is": {"fact": "crane.lit"}}`, `"crane.lit" is true or false and "crane.kind" is a word`},
		"limit of no fact":     {`"check": {"fact": "crane.height_m", "at_least": {"fact": "crane.z"}}`, `there is no fact "crane.z"`},
		"limit without fact":   {`"check": {"fact": "crane.height_m", "at_least": {"times": 2}}`, `the key "fact" is missing`},
		"limit is null":        {`"check": {"fact": "crane.height_m", "at_least": null}`, `null stands here; write a quantity ("20 %"), a number, a word`},
		"times a text":         {`"check": {"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg", "times": "2"}}`, `a text stands here; a number belongs here, such as 0.8`},
		"times zero":           {`"check": {"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg", "times": 0}}`, `0 is no factor; write a number above zero`},
		"times a temperature":  {`"check": {"fact": "crane.hottest_k", "at_most": {"fact": "crane.hottest_k", "times": 2}}`, `"crane.hottest_k" is a temperature, which cannot be multiplied`},
		"measured is":          {`"check": {"fact": "crane.height_m", "is": "1 m"}`, `"crane.height_m" is measured, and nothing measured is exactly a number`},
		"word at least":        {`"check": {"fact": "crane.kind", "at_least": "tower"}`, `"crane.kind" is no number; write is or present`},
		"word that never is":   {`"check": {"fact": "crane.kind", "is": "towre"}`, `"crane.kind" is never "towre"; did you mean "tower"?`},
		"truth as a text":      {`"check": {"fact": "crane.lit", "is": "yes"}`, `"crane.lit" is true or false, and a text stands here`},
		"money with a unit":    {`"check": {"fact": "crane.price", "at_most": "10 EUR"}`, `"10 EUR" is not a decimal number`},
		"no relation":          {`"check": {"fact": "crane.height_m"}`, `a fact is compared in exactly one way, and here stand none; write one of at_least`},
		"two relations":        {`"check": {"fact": "crane.height_m", "at_least": "1 m", "at_most": "2 m"}`, `here stand "at_least" and "at_most"`},
		"two forms":            {`"check": {"fact": "crane.lit", "is": true, "all": [{"fact": "crane.lit", "is": true}]}`, `here stand "all" and "fact"; join conditions`},
		"no form":              {`"check": {}`, `here stand none of them`},
		"relation, no fact":    {`"check": {"not": {"fact": "crane.lit", "is": true}, "at_least": "1 m"}`, `"at_least" has no fact to compare`},
		"nothing to join":      {`"check": {"all": []}`, `0 entries stand here; write at least 1`},
		"unknown relation":     {`"check": {"fact": "crane.height_m", "atleast": "1 m"}`, `there is no key "atleast" here; did you mean "at_least"?`},
		"within, backwards":    {`"check": {"fact": "crane.height_m", "within": ["2 m", "1 m"]}`, `the limits run backwards`},
		"within, one":          {`"check": {"fact": "crane.height_m", "within": ["2 m"]}`, `1 entries stand here; write at least 2`},
		"star without family":  {`"check": {"fact": "motors.*.lowest_v", "at_least": "1 V"}`, `the star in "motors.*.lowest_v" stands for nothing; let for_each run`},
		"star of another":      {`"for_each": "hooks", "check": {"fact": "motors.*.lowest_v", "at_least": "1 V"}`, `the star in "motors.*.lowest_v" stands for nothing`},
		"unknown family":       {`"for_each": "motor", "check": {"fact": "crane.lit", "is": true}`, `there is no family of facts "motor"; did you mean "motors"?`},
		"family without star":  {`"for_each": "motors", "check": {"fact": "crane.lit", "is": true}`, `nothing here is about the members of "motors"`},
		"subject without one":  {`"ok": "{subject}", "check": {"fact": "crane.lit", "is": true}`, `{subject} stands for nothing; let for_each run`},
		"unknown in a text":    {`"hint": "see {crane.load}", "check": {"fact": "crane.lit", "is": true}`, `there is no fact "crane.load"; did you mean "crane.load_kg"?`},
		"open brace":           {`"ok": "a { b", "check": {"fact": "crane.lit", "is": true}`, `a brace in "a { b" has no partner`},
		"half a quantity":      {`"ok": "{5 m|}", "check": {"fact": "crane.lit", "is": true}`, `"" is no quantity; write a round one for each system of units, such as {5 m|16 ft}`},
		"quantities unlike":    {`"ok": "{5 m|16 lb}", "check": {"fact": "crane.lit", "is": true}`, `"5 m" is a length and "16 lb" is a mass; both are the same quantity`},
		"quantities apart":     {`"ok": "{5 m|20 ft}", "check": {"fact": "crane.lit", "is": true}`, `"5 m" and "20 ft" differ by more than 10 %`},
		"closing brace":        {`"ok": "a } b", "check": {"fact": "crane.lit", "is": true}`, `has no partner`},
		"empty braces":         {`"ok": "a {} b", "check": {"fact": "crane.lit", "is": true}`, `the braces in "a {} b" are empty`},
		"no check":             {`"hint": "x"`, `the key "check" is missing`},
		"check is a list":      {`"check": []`, `a list stands here; an object belongs here`},
		"unknown key":          {`"chekc": {}, "check": {"fact": "crane.lit", "is": true}`, `there is no key "chekc" here; did you mean "check"?`},
		"not a deep condition": {`"check": {"any": [{"not": {"all": [{"fact": "crane.lit", "is": "x"}]}}]}`, `"crane.lit" is true or false, and a text stands here`},
	} {
		_, err := tryLoad(oneRule(c.keys))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: Load says\n%v\nwant\n%s", name, err, c.want)
		}
		if err != nil && !strings.HasPrefix(err.Error(), "packa.json:") {
			t.Errorf("%s: the problem has no place: %v", name, err)
		}
		most := 1
		if name == "unknown family" || name == "unknown relation" {
			most = 2 // that nothing is about the family, or compared, is another
		}
		if n := told(err); n != most {
			t.Errorf("%s: %d problems are told, want %d:\n%v", name, n, most, err)
		}
	}
}

// told counts the problems of an error.
func told(err error) int {
	var problems diag.Problems
	errors.As(err, &problems)
	return len(problems)
}

func TestPlacesOfProblems(t *testing.T) {
	text := strings.Join([]string{
		`{"format": "hoistbook-pack/1", "id": "test", "title": "Test",`,
		` "rules": [{"id": "a", "title": "A", "level": "mast", "check": {"fact": "crane.hight_m",`,
		`   "at_least": "1 kg"}, "message": "{value", "source": [{"work": "polizy"}]}],`,
		` "cautions": [{"id": "c", "signal": "warning", "hazard": "h", "consequence": "c", "avoidance": "{limit}",`,
		`   "before": ["preflight/Lift"], "source": []}]}`,
	}, "\n")
	_, err := tryLoad(text)
	want := strings.Join([]string{
		`packa.json:2:47: "mast" is not one of the words that may stand here; did you mean "must"?`,
		`packa.json:2:73: there is no fact "crane.hight_m"; did you mean "crane.height_m"?`,
		`packa.json:3:36: a brace in "{value" has no partner; write a fact's id in braces, such as {lift.free_kg}, or a round quantity for each system of units, such as {5 m|16 ft}`,
		`packa.json:3:57: there is no work "polizy"; did you mean "policy"?`,
		`packa.json:4:96: {limit} stands for nothing here; only the texts of a rule compare a value with a limit`,
		`packa.json:5:15: nothing is called "preflight/Lift"; write one of assembly, preflight, station, recovery, or a list and its phase`,
		`packa.json:5:44: 0 entries stand here; write at least 1`,
	}, "\n")
	if err == nil || err.Error() != want {
		t.Errorf("Load says\n%v\nwant\n%s", err, want)
	}
}

func TestIDsAreUniqueAcrossPacks(t *testing.T) {
	one := oneRule(`"check": {"fact": "crane.lit", "is": true}`)
	_, err := tryLoad(one, one)
	want := `packb.json:1:38: a pack "test" stands here again; the first is at packa.json:1:38
packb.json:2:8: a rule "crane.rule" stands here again; the first is at packa.json:2:8`
	if err == nil || err.Error() != want {
		t.Errorf("Load says\n%v\nwant\n%s", err, want)
	}
}

func TestAnotherFormatIsToldAlone(t *testing.T) {
	_, err := tryLoad(`{"format": "hoistbook-manifest/1", "kit": {"id": "x"}}`)
	if err == nil || !strings.Contains(err.Error(), `"hoistbook-manifest/1" is not one of the words that may stand here; write "hoistbook-pack/1"`) {
		t.Errorf("Load says %v", err)
	}
}

// Adding a rule, a checklist item or a caution is adding one object to a file; no Go knows of it.
func TestAddingIsOneObject(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("testdata", "club.json"))
	if err != nil {
		t.Fatal(err)
	}
	packs, err := rules.Load(catalogue{}, rules.Text{Name: "club.json", JSON: text})
	if err != nil {
		t.Fatal(err)
	}
	f := facts{"crane.height_m": "48 m", "crane.load_kg": "2 kg"}
	if got := rules.Evaluate(packs, f, rules.Options{}); len(got) != 1 || got[0].Message != "the crane is 48 m high and the hall lets in 45 m" || rules.Verdict(got) != rules.NoGo {
		t.Errorf("the rule finds %+v", got)
	}
	if got := rules.Checklist(packs, f, rules.Options{}, "preflight"); len(got) != 1 || got[0].Challenge != "Hall door" || got[0].Response != "open to 48 m" {
		t.Errorf("the checklist is %+v", got)
	}
	if got := rules.Cautions(packs, f, rules.Options{}); len(got) != 1 || got[0].Hazard != "A load of 2 kg hangs overhead" || !got[0].Precedes("preflight/Doors") {
		t.Errorf("the cautions are %+v", got)
	}
	if got := rules.Notices(packs, f, rules.Options{}); len(got) != 1 || got[0].Lines[0].Text != "48 m" || got[0].Lines[1].Text != "" || got[0].Ahead.Hours() != 24 {
		t.Errorf("the notices are %+v", got)
	}
}

func FuzzLoad(f *testing.F) {
	club, err := os.ReadFile(filepath.Join("testdata", "club.json"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(club)
	f.Add([]byte(oneRule(`"for_each": "motors", "when": {"not": {"fact": "crane.lit", "is": true}}, "check": {"fact": "motors.*.lowest_v", "within": ["1 V", {"fact": "motors.*.rated_v", "times": 2}]}`)))
	f.Fuzz(func(t *testing.T, text []byte) {
		packs, err := rules.Load(catalogue{}, rules.Text{Name: "f", JSON: text})
		if err != nil {
			if packs != nil || err.Error() == "" {
				t.Fatalf("an error with packs, or without words: %v %v", packs, err)
			}
			return
		}
		// Whatever loads can be judged: nothing may panic, and nothing that is unknown may be met.
		o := rules.Options{Regions: packs.Regions()}
		for _, finding := range rules.Evaluate(packs, facts{}, o) {
			if _, err := finding.MarshalJSON(); err != nil {
				t.Fatalf("%s cannot be reported: %v", finding.Rule, err)
			}
		}
		rules.Checklist(packs, facts{}, o, "preflight")
		rules.Cautions(packs, facts{}, o)
		rules.Notices(packs, facts{}, o)
	})
}
