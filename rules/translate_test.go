package rules_test

import (
	"strings"
	"testing"

	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// A text in another language stands for the original where it has the same numbers, each rounded to the same side; where it has not, or
// cannot be read, the original is printed.
func TestPacksInAnotherLanguage(t *testing.T) {
	packs := load(t, listPack("a", strings.Replace(item("lift", "Lift", 1, ""), `"done"`, `"no more than {crane.height_m down}, {5 m|16 ft} at first"`, 1)))
	const original = "no more than 60 m, 5 m at first"
	for text, want := range map[string]string{
		"": original,
		"{5 m|16 ft}, dann {crane.height_m down}":           "5 m, dann 60 m",
		"{5 m|16 ft}, dann {crane.height_m up}":             original,
		"{5 m|16 ft}":                                       original,
		"höchstens {crane.height_m down}":                   original,
		"{crane.height_m down} {crane.load_kg} {5 m|16 ft}": original,
		"{crane.height_m down} {5 m|17 ft}":                 original,
		"{crane.height_m down} {5 m|16 ft":                  original,
	} {
		other := packs.In(func(id, key string) string {
			if id == "lift" && key == "response" {
				return text
			}
			return ""
		})
		f := facts{"crane.height_m": "60 m", "crane.load_kg": "8 kg"}
		if got := rules.Checklist(other, f, rules.Options{System: unit.SI}, "preflight")[0].Response; got != want {
			t.Errorf("%q gives %q, want %q", text, got, want)
		}
		if got := rules.Checklist(packs, f, rules.Options{System: unit.SI}, "preflight")[0].Response; got != original {
			t.Errorf("the original became %q", got)
		}
	}
}

// What is not shown, and what a fact calls something, is said in the reader's words; numbers are as they are.
func TestWordsOfFactsAreSaid(t *testing.T) {
	packs := load(t, listPack("a", strings.Replace(item("lift", "Lift", 1, ""), `"done"`, `"{crane.kind}, {crane.height_m}, {crane.load_kg}"`, 1)))
	o := rules.Options{Say: func(text string) string { return "<" + text + ">" }}
	if got := rules.Checklist(packs, facts{"crane.kind": "tower", "crane.height_m": "60 m", "crane.load_kg": "?"}, o, "preflight")[0].Response; got != "<tower>, 60 m, <not shown>" {
		t.Errorf("got %q", got)
	}
}
