package rules_test

import (
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// catalogue is a small catalogue of facts about an invented crane.
type catalogue struct{}

var known = []fact.Description{
	{ID: "crane.load_kg", Dim: unit.DimMass, Unit: "kg", Title: "Load"},
	{ID: "crane.rated_kg", Dim: unit.DimMass, Unit: "kg", Title: "Rated load"},
	{ID: "crane.height_m", Dim: unit.DimLength, Unit: "m", Title: "Height"},
	{ID: "crane.lines", Dim: unit.DimCount, Title: "Lines"},
	{ID: "crane.hottest_k", Dim: unit.DimTemperature, Unit: "K", Title: "Hottest"},
	{ID: "crane.level_dbm", Dim: unit.DimLevel, Unit: "dBm", Title: "Level"},
	{ID: "crane.share", Dim: unit.DimRatio, Unit: "%", Title: "Share"},
	{ID: "crane.kind", Kind: fact.Word, Title: "Kind", Words: []string{"tower", "mobile"}},
	{ID: "crane.lit", Kind: fact.YesNo, Title: "Lit"},
	{ID: "crane.price", Kind: fact.Money, Title: "Price"},
	{ID: "crane.budget", Kind: fact.Money, Title: "Budget"},
	{ID: "motors.*.lowest_v", Dim: unit.DimVoltage, Unit: "V", Title: "Lowest voltage"},
	{ID: "motors.*.rated_v", Dim: unit.DimVoltage, Unit: "V", Title: "Rated voltage"},
	{ID: "hooks.*.load_kg", Dim: unit.DimMass, Unit: "kg", Title: "Load of the hook"},
}

func (catalogue) Describe(id string) (fact.Description, bool) {
	for _, d := range known {
		if _, matches := fact.Match(d.ID, id); d.ID == id || matches {
			return d, true
		}
	}
	return fact.Description{}, false
}

func (catalogue) IDs() []string {
	var ids []string
	for _, d := range known {
		ids = append(ids, d.ID)
	}
	return ids
}

func (catalogue) Families() []string { return []string{"motors", "hooks"} }

// facts are written as texts: a quantity with its unit, a word, "true", or "?" and a reason.
type facts map[string]string

func (f facts) Lookup(id string) (fact.Value, bool) {
	text, ok := f[id]
	if !ok {
		return fact.Value{}, false
	}
	about, ok := catalogue{}.Describe(id)
	if !ok {
		return fact.Value{}, false
	}
	v := fact.Value{Kind: about.Kind}
	if why, unknown := strings.CutPrefix(text, "?"); unknown {
		v.Unknown = "nobody says it" + why
		return v, true
	}
	switch about.Kind {
	case fact.Number:
		q, err := unit.ParseQuantity(about.Dim, text)
		if err != nil {
			panic(err)
		}
		v.Quantity = q
	case fact.YesNo:
		v.Yes = text == "true"
	default:
		v.Text = text
	}
	return v, true
}

func (f facts) Subjects(family string) []string {
	var subjects []string
	for id := range f {
		if rest, ok := strings.CutPrefix(id, family+"."); ok {
			subject, _, _ := strings.Cut(rest, ".")
			if !slices.Contains(subjects, subject) {
				subjects = append(subjects, subject)
			}
		}
	}
	slices.Sort(subjects)
	return subjects
}

// a pack with one rule, whose check and other keys the caller gives.
func oneRule(keys string) string {
	return `{"format": "hoistbook-pack/1", "id": "test", "title": "Test", "rules": [
{"id": "crane.rule", "title": "The crane is right", "level": "must", "message": "the load is {value} and may be {limit}",
 "source": [{"work": "policy"}], ` + keys + `}]}`
}

func load(t *testing.T, texts ...string) rules.Packs {
	t.Helper()
	packs, err := tryLoad(texts...)
	if err != nil {
		t.Fatal(err)
	}
	return packs
}

func tryLoad(texts ...string) (rules.Packs, error) {
	var all []rules.Text
	for i, text := range texts {
		all = append(all, rules.Text{Name: "pack" + string(rune('a'+i)) + ".json", JSON: []byte(text)})
	}
	return rules.Load(catalogue{}, all...)
}

// judge loads a pack of one rule and returns its only finding.
func judge(t *testing.T, keys string, f facts) rules.Finding {
	t.Helper()
	findings := rules.Evaluate(load(t, oneRule(keys)), f, rules.Options{})
	if len(findings) != 1 {
		t.Fatalf("%s: got %d findings, want 1", keys, len(findings))
	}
	return findings[0]
}
