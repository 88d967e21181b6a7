package doc

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
	"hoistbook/render/change"
	"hoistbook/render/walk"
	"hoistbook/rules"
)

// vocabularies are the closed lists of words whose names stand in the language files.
func vocabularies() map[string][]string {
	var topics []string
	for _, id := range (kits.Catalogue{}).IDs() {
		topic, _, _ := strings.Cut(id, ".")
		if !slices.Contains(topics, topic) {
			topics = append(topics, topic)
		}
	}
	var relations, outcomes, criteria []string
	for _, r := range []rules.Relation{rules.AtLeast, rules.AtMost, rules.Below, rules.Above, rules.Is, rules.IsNot, rules.Present, rules.Absent} {
		relations = append(relations, string(r))
	}
	for _, o := range []rules.Outcome{rules.Met, rules.NotMet, rules.NotShown} {
		outcomes = append(outcomes, o.String())
	}
	for _, c := range []tether.Criterion{tether.LowestHeight, tether.GreatestLean, tether.WithinLoad, tether.FreeLift, tether.OffGround} {
		criteria = append(criteria, string(c))
	}
	var deeds, verdicts []string
	for _, k := range walk.Kinds() {
		deeds = append(deeds, string(k))
	}
	for _, v := range walk.Verdicts() {
		verdicts = append(verdicts, string(v))
	}
	return map[string][]string{
		"isolation": {"blocking", "noise"},
		"deed":      deeds, "walk-verdict": verdicts,
		"basis": manifest.MassBasis("").Words(), "place": manifest.Place("").Words(), "list": {"assembly", "preflight", "station", "recovery"},
		"signal": manifest.SignalWord("").Words(), "signal-meaning": manifest.SignalWord("").Words(), "level": {string(rules.Must), string(rules.Should)},
		"outcome": outcomes, "relation": relations, "criterion": criteria, "topic": topics,
	}
}

// literals are the texts in the package's source, and the calls that fill the braces of one.
type literals struct {
	all   map[string]bool
	calls []call
}

type call struct {
	id    string
	names []string // of the braces it fills; nil where the source does not show them
	at    token.Position
}

func readSource(t *testing.T) literals {
	t.Helper()
	found := literals{all: map[string]bool{}}
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	workbook, err := filepath.Glob("../sheet/*.go") // says some of them too
	if err != nil {
		t.Fatal(err)
	}
	names = append(names, workbook...)
	files := token.NewFileSet()
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(files, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if text, ok := literal(n); ok {
				found.all[text] = true
			}
			if c, ok := n.(*ast.CallExpr); ok {
				if said, ok := saying(c); ok {
					said.at = files.Position(c.Pos())
					found.calls = append(found.calls, said)
				}
			}
			return true
		})
	}
	return found
}

func literal(n ast.Node) (string, bool) {
	lit, ok := n.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(lit.Value)
	return text, err == nil
}

// saying reads a call of Say or Count.
func saying(c *ast.CallExpr) (said call, ok bool) {
	method, ok := c.Fun.(*ast.SelectorExpr)
	if !ok || len(c.Args) == 0 || c.Ellipsis.IsValid() {
		return said, false
	}
	pairs := c.Args[1:]
	switch method.Sel.Name {
	case "say", "Say":
	case "Count":
		if len(pairs) == 0 {
			return said, false
		}
		pairs, said.names = pairs[1:], []string{"n"}
	default:
		return said, false
	}
	if said.id, ok = literal(c.Args[0]); !ok {
		return said, false
	}
	for i := 0; i < len(pairs); i += 2 {
		name, _ := literal(pairs[i])
		said.names = append(said.names, name)
	}
	return said, true
}

// A language of the program names what a change sheet names, and nothing is left in English between its own words.
func TestChangeSheetsSpeakTheLanguage(t *testing.T) {
	w := words(t, "de")
	for _, label := range append(change.Labels(), "part", "site", "station", "current on transmit", "pin 3", "fill volume") {
		if got := w.Label(label); got == label && label != "name" && label != "Name" {
			t.Errorf("%q has no word in German", label)
		}
	}
	if got := words(t, "en").Label("pin 3"); got != "pin 3" {
		t.Errorf("in English a pin is called %q", got)
	}
}

// Every text is said somewhere, everything that is said is there, and every brace is filled.
func TestEveryWordIsUsed(t *testing.T) {
	english, err := Language(DefaultLanguage)
	if err != nil {
		t.Fatal(err)
	}
	source := readSource(t)
	named := map[string]bool{}
	for vocabulary, words := range vocabularies() {
		if !source.all[vocabulary] {
			t.Errorf("nothing names the words of %q", vocabulary)
		}
		for _, word := range words {
			id := vocabulary + "." + strings.ReplaceAll(word, " ", "-")
			named[id] = true
			if _, ok := english.table[id]; !ok {
				t.Errorf("en.json has no name %q for the word %q", id, word)
			}
		}
	}
	for _, id := range english.IDs() {
		if !source.all[id] && !named[id] {
			t.Errorf("en.json: %q is said by nobody", id)
		}
	}
	for _, c := range source.calls {
		e, ok := english.table[c.id]
		if !ok {
			t.Errorf("%s: en.json has no text %q", c.at, c.id)
			continue
		}
		want := holes(e.sample())
		slices.Sort(want)
		slices.Sort(c.names)
		if !slices.Equal(c.names, want) {
			t.Errorf("%s: %q is filled with %q, and its braces are %q", c.at, c.id, c.names, want)
		}
	}
}

// Every built-in language is complete, and its titles of facts are those of facts.
func TestLanguagesAreComplete(t *testing.T) {
	for _, name := range Languages() {
		w, err := Language(name)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		for _, id := range w.IDs() {
			if fact, is := strings.CutPrefix(id, factTitles); is {
				if _, ok := (kits.Catalogue{}).Describe(fact); !ok {
					t.Errorf("%s.json: there is no fact %q", name, fact)
				}
			}
		}
	}
}

// What is wrong with a language file is told with its place, all of it in one run.
func TestWrongLanguages(t *testing.T) {
	english, err := os.ReadFile("words/en.json")
	if err != nil {
		t.Fatal(err)
	}
	change := func(from, to string) string {
		if !strings.Contains(string(english), from) {
			t.Fatalf("en.json no longer has %q", from)
		}
		text := strings.Replace(string(english), `"language": "en"`, `"language": "pl"`, 1)
		return strings.Replace(text, from, to, 1)
	}
	for _, c := range []struct{ name, text, want string }{
		{"no language", `{"a": "b"}`, `w.json:1:1: this is no language file; write an object whose "language" is a BCP 47 tag, such as "en"`},
		{"missing text", change(`"value.yes": "yes",`, ``), `the text "value.yes" is missing; in English it is "yes"`},
		{"unknown text", change(`"value.yes": "yes",`, `"value.yes": "tak", "value.yess": "tak",`), `no document says "value.yess"; did you mean "value.yes"?`},
		{"strange brace", change(`page {n} of {m}`, `strona {n} z {o}`), `nothing stands for {o} in "running.page"`},
		{"lost brace", change(`page {n} of {m}`, `strona {n}`), `"running.page" does not say {m}`},
		{"lost plural", change(`"value.yes": "yes",`, `"value.yes": "tak",`), `"verdict.musts" lacks the plural form`},
		{"no plural form", change(`{"one": "{met} of {n} rule that`, `{"single": "{met} of {n} rule that`), `"single" is no plural form with a text; the forms are zero, one, two, few, many and other`},
		{"text for a count", change(`"value.yes": "yes"`, `"value.yes": {"other": "tak"}`), `"value.yes" counts in one language and not in the other`},
	} {
		_, err := ReadWords("w.json", []byte(c.text))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %q", c.name, err, c.want)
		}
	}
}

// Numbers have the language's decimal sign, counts its plural; the forms are those of CLDR, plural rules (version 48).
func TestNumbersAndPlurals(t *testing.T) {
	german, err := Language("de")
	if err != nil {
		t.Fatal(err)
	}
	for in, want := range map[string]string{"2.52 m/s": "2,52 m/s", "−0.5 dB": "−0,5 dB", "1 of 3": "1 of 3", "AWG 24": "AWG 24", "end.": "end."} {
		if got := german.Number(in); got != want {
			t.Errorf("German number %q: got %q, want %q", in, got, want)
		}
	}
	polish := readTableOf(t, `{"language": "pl", "packs": {"one": "{n} paczka", "few": "{n} paczki", "many": "{n} paczek", "other": "{n} paczki"}}`)
	for n, want := range map[int]string{0: "0 paczek", 1: "1 paczka", 2: "2 paczki", 5: "5 paczek", 12: "12 paczek", 22: "22 paczki", 25: "25 paczek"} {
		if got := polish.Count("packs", n); got != want {
			t.Errorf("Polish count of %d: got %q, want %q", n, got, want)
		}
	}
}

// German has a text for every text of the built-in checklists and cautions, with the same numbers in it, and for every phase and role.
func TestGermanSaysWhatThePacksSay(t *testing.T) {
	w, packs := words(t, "de"), builtIn(t)
	used := map[string]bool{}
	say := func(id string) {
		used[id] = true
		if _, ok := w.table[id]; !ok {
			t.Errorf("de.json lacks %q", id)
		}
	}
	name := func(vocabulary, word string) { say(vocabulary + "." + strings.ReplaceAll(word, " ", "-")) }
	gear := func(id string, n int) {
		for i := range n {
			say(fmt.Sprintf("%s%s.gear-%d", packTexts, id, i+1))
		}
	}
	for _, p := range packs {
		for _, item := range p.Checklist {
			for key, text := range map[string]string{"challenge": item.Challenge, "response": item.Response, "beyond": item.Beyond, "notes": item.Notes} {
				if text != "" {
					say(packTexts + item.ID + "." + key)
				}
			}
			if item.Reading != nil {
				say(packTexts + item.ID + ".reading")
			}
			gear(item.ID, len(item.Gear))
			for _, g := range item.Gear {
				name("box", g.Box)
			}
			for _, who := range item.Calls {
				name("call", who)
			}
			name("phase", item.Phase)
			name("role", item.Role)
		}
		for _, c := range p.Cautions {
			gear(c.ID, len(c.Gear))
			say(packTexts + c.ID + ".hazard")
			say(packTexts + c.ID + ".consequence")
			say(packTexts + c.ID + ".avoidance")
		}
	}
	for id := range w.table {
		if strings.HasPrefix(id, packTexts) && !used[id] {
			t.Errorf("de.json has %q, and no pack does", id)
		}
	}
	for _, kit := range kits.Demos() {
		facts := demo(t, kit)
		english, other := Gather(facts, packs, unit.SI, words(t, "en")), Gather(facts, packs, unit.SI, w)
		if len(other.Cautions) != len(english.Cautions) || len(other.Preflight) != len(english.Preflight) || len(other.Recovery) != len(english.Recovery) || len(other.Change) != len(english.Change) {
			t.Fatalf("%s: the German lists are not as long", kit)
		}
		for i, a := range english.Cautions {
			if b := other.Cautions[i]; a.Pack != "kit" && (w.Number(a.Hazard) == b.Hazard || w.Number(a.Consequence) == b.Consequence || w.Number(a.Avoidance) == b.Avoidance) {
				t.Errorf("%s: %s is printed in English: %q %q", kit, a.ID, b.Hazard, b.Avoidance)
			}
		}
		for i, a := range slices.Concat(english.Preflight, english.Change, english.Recovery) {
			if b := slices.Concat(other.Preflight, other.Change, other.Recovery)[i]; a.Pack != "kit" && w.Number(a.Response) == b.Response {
				t.Errorf("%s: %s is printed in English: %q", kit, a.ID, b.Response)
			}
		}
	}
}
