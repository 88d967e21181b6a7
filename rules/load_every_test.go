package rules_test

import (
	"strings"
	"testing"
)

// What a rule can have wrong, items, cautions and notices can have wrong too; each is told at its place.
func TestEveryKindOfEntryIsChecked(t *testing.T) {
	caution := func(keys string) string {
		return `{"format": "hoistbook-pack/1", "id": "c", "title": "C", "cautions": [{"id": "c.a", "signal": "notice", "consequence": "c", "source": [{"work": "policy"}], ` + keys + `}]}`
	}
	notice := func(keys string) string {
		return `{"format": "hoistbook-pack/1", "id": "n", "title": "N", "notices": [{"id": "n.a", "title": "N", "to": "t", "ahead": "24 h", "source": [{"work": "policy"}], ` + keys + `}]}`
	}
	list := func(keys string) string { return listPack("a", item("i", "Look", 1, ", "+keys)) }
	for name, c := range map[string]struct{ text, want string }{
		"a caution's family":         {caution(`"for_each": "motor", "hazard": "h", "avoidance": "a", "before": ["station"]`), `there is no family of facts "motor"; did you mean "motors"?`},
		"a caution without its star": {caution(`"for_each": "motors", "hazard": "h", "avoidance": "a", "before": ["station"]`), `nothing here is about the members of "motors"; name a fact such as "motors.*.…", or {subject}`},
		"a caution's text":           {caution(`"hazard": "{crane.hight_m}", "avoidance": "a", "before": ["station"]`), `there is no fact "crane.hight_m"`},
		"a caution's avoidance":      {caution(`"hazard": "h", "avoidance": "{crane.hight_m}", "before": ["station"]`), `there is no fact "crane.hight_m"`},
		"a caution's guard":          {caution(`"hazard": "h", "avoidance": "a", "before": ["station"], "when": {"fact": "crane.lit", "is": "x"}`), `"crane.lit" is true or false`},
		"a caution's place":          {caution(`"hazard": "h", "avoidance": "a", "before": ["stattion"]`), `nothing is called "stattion"; did you mean "station"?`},
		"a caution's odd place":      {caution(`"hazard": "h", "avoidance": "a", "before": ["x"]`), `write one of assembly, preflight, station, recovery, or a list and its phase`},
		"an item without its star":   {list(`"for_each": "motors"`), `nothing here is about the members of "motors"`},
		"an item's family":           {list(`"for_each": "motor", "notes": "{subject}"`), `there is no family of facts "motor"`},
		"an item's notes":            {list(`"notes": "{value}"`), `{value} stands for nothing here`},
		"an item's guard":            {list(`"when": {}`), `here stand none of them`},
		"an item's gear":             {list(`"gear": [{"what": "scale for {crane.hight_m}", "box": "b"}]`), `there is no fact "crane.hight_m"`},
		"gear in no box":             {list(`"gear": [{"what": "scale"}]`), `the key "box" is missing`},
		"a caution's gear":           {caution(`"hazard": "h", "avoidance": "a", "before": ["station"], "gear": [{"what": "{subject}", "box": "b"}]`), `{subject} stands for nothing`},
		"a role of nobody":           {`{"format": "hoistbook-pack/1", "id": "r", "title": "R", "roles": [{"name": "winch hand"}, {"name": "gas handler", "with": "winch hands"}]}`, `no other role is called "winch hands"; did you mean "winch hand"?`},
		"a role with itself":         {`{"format": "hoistbook-pack/1", "id": "r", "title": "R", "roles": [{"name": "winch hand", "with": "winch hand"}]}`, `no other role is called "winch hand"`},
		"a notice's line":            {notice(`"lines": [{"label": "L", "text": "{crane.hight_m}"}]`), `there is no fact "crane.hight_m"`},
		"a notice's notes":           {notice(`"notes": "{subject}", "lines": [{"label": "L"}]`), `{subject} stands for nothing; let for_each run over a family of facts`},
		"a notice's guard":           {notice(`"when": {"fact": "crane.lit"}, "lines": [{"label": "L"}]`), `here stand none; write one of`},
		"a work of nobody":           {strings.Replace(list(`"hold": true`), `"policy"`, `"polici"`, 1), `there is no work "polici"; did you mean "policy"?`},
		"a work with no id":          {strings.Replace(list(`"hold": true`), `"work": "policy"`, `"work": ""`, 1), `the text is empty`},
		"a fact of no topic":         {oneRule(`"check": {"fact": "ship.height_m", "at_least": "1 m"}`), `there is no fact "ship.height_m"; name a fact of the catalogue`},
		"a fact without its unit":    {oneRule(`"check": {"fact": "crane.height", "at_least": "1 m"}`), `did you mean "crane.height_m"?`},
		"a star for nothing":         {oneRule(`"check": {"fact": "motors.*.lowest_v", "at_least": "1 V"}`), `let for_each run over the family in front of the star`},
		"a word twice":               {oneRule(`"check": {"fact": "crane.lit", "is": 3}`), `"crane.lit" is true or false, and a number stands here; compare like with like`},
		"an amount that is a number": {oneRule(`"check": {"fact": "crane.price", "at_most": 3}`), `"crane.price" is an amount of money, and a number stands here`},
		"a word that is a truth":     {oneRule(`"check": {"fact": "crane.kind", "is": true}`), `"crane.kind" is a word, and true or false stands here`},
		"a number that is a truth":   {oneRule(`"check": {"fact": "crane.lines", "is": false}`), `"crane.lines" is a count, and true or false stands here`},
		"a word of another kind":     {oneRule(`"check": {"fact": "crane.price", "at_most": {"fact": "crane.kind"}}`), `"crane.kind" is a word and "crane.price" is an amount of money; compare like with like`},
		"a word times two":           {oneRule(`"check": {"fact": "crane.kind", "is": {"fact": "crane.kind", "times": 2}}`), `"crane.kind" is a word, which cannot be multiplied; leave times out`},
		"minus one times":            {oneRule(`"check": {"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg", "times": -1}}`), `-1 is no factor`},
		"a star in the limit":        {oneRule(`"check": {"fact": "crane.height_m", "at_most": {"fact": "hooks.*.height_m"}}`), `the star in "hooks.*.height_m" stands for nothing`},
		"two of one list":            {oneRule(`"check": {"fact": "crane.lit", "is": true, "present": true}`), `in exactly one way, and here stand "is" and "present"`},
		"money is":                   {oneRule(`"check": {"fact": "crane.price", "is": "1.00"}`), `"crane.price" is measured, and nothing measured is exactly a number; write at_least, at_most or within`},
		"a reading that replaces":    {list(`"reading": {"name": "h", "dimension": "length", "plausible": ["1 m", "2 m"], "replaces": "crane.kind"}`), `"crane.kind" is a word, and the reading is a length`},
		"a reading of no fact":       {list(`"reading": {"name": "h", "dimension": "length", "plausible": ["1 m", "2 m"], "replaces": "crane.hight_m"}`), `there is no fact "crane.hight_m"`},
		"a reading below nothing":    {list(`"reading": {"name": "h", "dimension": "length", "plausible": ["1 m", "2 m"], "not_below": "a.one"}`), `no other item "a.one" reads anything`},
		"a reading's empty pointer":  {list(`"reading": {"name": "h", "dimension": "length", "plausible": ["1 m", "2 m"], "feeds": [""]}`), `"" is not a JSON pointer; write one such as "/station/wind/speed"`},
		"a slip in a phase":          {listPack("a", item("i", "Fill the balloon", 1, ""), item("j", "Fill the baloon", 2, "")), `the phase "Fill the baloon" is nearly one that there is; did you mean "Fill the balloon"?`},
		"an item twice":              {listPack("a", item("i", "Look", 1, ""), item("i", "Look", 2, "")), `a checklist item "i" stands here again`},
		"not JSON":                   {`{"format": `, `the JSON text ends too early`},
		"no format":                  {`{"id": "x"}`, `the key "format" is missing`},
	} {
		packs, err := tryLoad(c.text)
		if err == nil || packs != nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "packa.json:") {
			t.Errorf("%s: Load says\n%v\nwant\n%s", name, err, c.want)
		}
		most := 1
		if name == "a caution's family" || name == "no format" {
			most = 2 // that nothing is about the family, and that there is no title, is another
		}
		if n := told(err); n != most {
			t.Errorf("%s: %d problems are told, want %d:\n%v", name, n, most, err)
		}
	}
}

// What is right passes: the same phase in two packs, a new phase, places of both, limits that are equal, a star in a limit.
func TestWhatLoads(t *testing.T) {
	caution := `{"format": "hoistbook-pack/1", "id": "c", "title": "C", "cautions": [{"id": "c.a", "signal": "notice", "hazard": "h", "consequence": "{subject}", "avoidance": "a", "for_each": "motors",
		"before": ["assembly", "recovery", "preflight/Look", "preflight/Let it up"], "source": [{"work": "policy"}]}]}`
	for name, texts := range map[string][]string{
		"phases":              {listPack("a", item("i", "Look", 1, ""), item("j", "Let it up", 2, "")), listPack("b", item("k", "Look", 1, "")), caution},
		"equal ends":          {oneRule(`"check": {"fact": "crane.height_m", "within": ["40 m", "40 m"]}`)},
		"a mark below a fact": {oneRule(`"check": {"fact": "crane.level_dbm", "within": ["-20 dBm", {"fact": "crane.level_dbm"}]}`), oneOther(`"check": {"fact": "crane.height_m", "within": ["2 m", {"fact": "crane.height_m"}]}`)},
		"a fact below a mark": {oneRule(`"check": {"fact": "crane.level_dbm", "within": [{"fact": "crane.level_dbm"}, "-20 dBm"]}`)},
		"two facts":           {oneRule(`"check": {"fact": "crane.height_m", "within": [{"fact": "crane.height_m", "times": 0.5}, {"fact": "crane.height_m"}]}`)},
		"a star":              {oneRule(`"for_each": "motors", "check": {"fact": "crane.height_m", "at_least": "1 m"}, "ok": "{subject}"`)},
		"a limit":             {oneRule(`"for_each": "motors", "check": {"fact": "motors.*.lowest_v", "at_least": {"fact": "motors.*.rated_v", "times": 0.9}}`)},
		"nothing":             {},
	} {
		if packs, err := tryLoad(texts...); err != nil || len(packs) != len(texts) {
			t.Errorf("%s: got %d packs, %v", name, len(packs), err)
		}
	}
	regional := func(id, region string) string {
		return `{"format": "hoistbook-pack/1", "id": "` + id + `", "title": "R", "region": "` + region + `"}`
	}
	packs, err := tryLoad(regional("a", "fen"), regional("b", "marsh"), regional("c", "fen"), listPack("d"))
	if err != nil || strings.Join(packs.Regions(), " ") != "fen marsh" || len(packs.InForce(nil)) != 1 || len(packs.InForce([]string{"fen"})) != 3 {
		t.Errorf("got the regions %q (%v)", packs.Regions(), err)
	}
}

// All of several files is told in one run, and each once.
func TestSeveralFilesAreToldInOneRun(t *testing.T) {
	_, err := tryLoad(`{"format": `, oneRule(`"check": {}`), `{"id": "x"}`)
	if err == nil {
		t.Fatal("three broken packs pass")
	}
	for _, name := range []string{"packa.json:", "packb.json:", "packc.json:"} {
		if !strings.Contains(err.Error(), name) {
			t.Errorf("%s is not told of in\n%v", name, err)
		}
	}
}

func oneOther(keys string) string {
	return strings.NewReplacer(`"id": "test"`, `"id": "other"`, "crane.rule", "crane.other").Replace(oneRule(keys))
}
