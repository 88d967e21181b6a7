package jsontree_test

import (
	"strings"
	"testing"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

type sign struct {
	Node  *jsontree.Node    `json:"-"`
	ID    string            `json:"id" jsonschema:"pattern=^[a-z]{1\\,3}$,example=abc"`
	Level string            `json:"level" jsonschema:"enum=must,enum=should"`
	Mass  *unit.Mass        `json:"mass,omitempty"`
	Count int               `json:"count,omitempty" jsonschema:"minimum=2,maximum=9"`
	Share float64           `json:"share,omitempty"`
	Lit   bool              `json:"lit,omitempty"`
	Tags  []string          `json:"tags,omitempty" jsonschema:"minItems=1,maxItems=3,uniqueItems=true,minLength=1,maxLength=5,example=x"`
	Notes map[string]string `json:"notes,omitempty" jsonschema:"minProperties=1,maxProperties=2"`
	Raw   *jsontree.Node    `json:"raw,omitempty"`
	Price *unit.Decimal     `json:"price,omitempty"`
	Duty  map[state]int     `json:"duty,omitempty"`
	Codes map[code]code     `json:"codes,omitempty"`
}

type state string

type code string

func (code) Pattern() string { return `[A-Z][0-9]|none` }
func (code) Form() string    { return "a letter and a figure" }

func (state) Words() []string { return []string{"transmit", "receive"} }

func TestBindFillsAStruct(t *testing.T) {
	var s sign
	var problems diag.Problems
	jsontree.Bind(parse(t, "f", `{"id": "a", "level": "must", "mass": "85 g", "count": 3, "share": 0.5, "lit": true,
		"tags": ["x", "y"], "notes": {"k": "v", "x-note": 1}, "duty": {"receive": 3.0}, "codes": {"A1": "none"}, "raw": {"any": [1]}, "x-note": 7}`), &s, &problems)
	if problems.Err() != nil {
		t.Fatal(problems.Err())
	}
	if s.ID != "a" || s.Level != "must" || *s.Mass != 0.085 || s.Count != 3 || s.Share != 0.5 || !s.Lit || s.Tags[1] != "y" ||
		s.Notes["k"] != "v" || len(s.Notes) != 1 || s.Duty["receive"] != 3 || s.Codes["A1"] != "none" || s.Raw.At("/any/0").Text != "1" || s.Node.Place().Col != 1 {
		t.Errorf("got %+v", s)
	}
}

func TestBindTellsEveryProblemAtItsPlace(t *testing.T) {
	for text, want := range map[string]string{
		`[]`:                          `f:1:1: a list stands here; an object belongs here`,
		`{"id": "a"}`:                 `f:1:1: the key "level" is missing; add it`,
		`{"idd": "a"}`:                `f:1:2: there is no key "idd" here; did you mean "id"?`,
		`{"id": "abcd"}`:              `f:1:8: "abcd" does not have the form that belongs here; write something like "abc"`,
		`{"count": 1}`:                `f:1:11: 1 is too small; write at least 2`,
		`{"tags": []}`:                `f:1:10: 0 entries stand here; write at least 1`,
		`{"tags": ["1","2","3","4"]}`: `f:1:10: 4 entries stand here; write at most 3`,
		`{"tags": ["é", "é"]}`:        `f:1:17: "é" stands here again; keep one of the two`,
		`{"tags": ["ééééé", "éééééé"]}`: `f:1:25: the text has 6 characters; write at most 5`,
		`{"count": 10}`:                          `f:1:11: 10 is too large; write at most 9`,
		`{"notes": {}}`:                          `f:1:11: 0 entries stand here; write at least 1`,
		`{"notes": {"a": "", "b": "", "c": ""}}`: `f:1:11: 3 entries stand here; write at most 2`,
		`{"tags": [""]}`:                         `f:1:11: the text is empty; write something like "x"`,
		`{"level": "mast"}`:                      `f:1:11: "mast" is not one of the words that may stand here; did you mean "must"?`,
		`{"level": "perhaps"}`:                   `write "must" or "should"`,
		`{"mass": "85 m"}`:                       `f:1:10: "85 m" is a length, and a mass belongs here; write a mass in kg, g, oz or lb`,
		`{"mass": 85}`:                           `f:1:10: "85" has no unit, and a mass needs one; write a mass in kg, g, oz or lb`,
		`{"codes": {"A1": "B10"}}`:               `f:1:18: "B10" does not have the form that belongs here; write a letter and a figure`,
		`{"codes": {"1": "B1"}}`:                 `f:1:12: "1" does not have the form that belongs here; write a letter and a figure`,
		`{"mass": true}`:                         `f:1:10: true or false stands here; a text belongs here`,
		`{"price": 4.20}`:                        `f:1:11: 4.20 stands here without quotation marks; write it as a text: "4.20"`,
		`{"duty": {"recieve": 1}}`:               `f:1:11: "recieve" is not one of the words that may stand here; did you mean "receive"?`,
		`{"count": 1.5}`:                         `f:1:11: 1.5 is not a whole number`,
		`{"tags": ["x", 1, null]}`:               `f:1:16: a number stands here; a text belongs here` + "\n" + `f:1:19: null stands here`,
		`{"notes": {"k": 1}}`:                    `f:1:17: a number stands here`,
		`{"lit": "yes", "share": ""}`:            `f:1:9: a text stands here; true or false belongs here` + "\n" + `f:1:25: a text stands here; a number belongs here`,
	} {
		var s sign
		var problems diag.Problems
		jsontree.Bind(parse(t, "f", text), &s, &problems)
		if err := problems.Err(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Bind(%s) says\n%v\nwant\n%s", text, err, want)
		}
	}
}
