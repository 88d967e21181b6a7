package rules_test

import (
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode"

	"hoistbook/kits/jsontree"
	"hoistbook/rules"
)

// fill repeats a text until a file is nearly as large as one may be; # counts.
func fill(before, each, after string) string {
	var text strings.Builder
	text.WriteString(before)
	for i := 0; text.Len() < jsontree.MaxBytes-len(each)-len(after)-40; i++ {
		if i > 0 {
			text.WriteByte(',')
		}
		text.WriteString(strings.ReplaceAll(each, "#", fmt.Sprint(i)))
	}
	return text.String() + after
}

const packHead = `{"format": "hoistbook-pack/1", "id": "x", "title": "x", `

// Packs of strangers are refused in bounded time, in words that can be read and that no terminal obeys.
func TestHostilePacks(t *testing.T) {
	if testing.Short() {
		t.Skip("large files take seconds")
	}
	deep := strings.Repeat(`{"not": `, 70) + `{"fact": "crane.lit", "is": true}` + strings.Repeat(`}`, 70)
	for name, c := range map[string]struct{ text, said string }{
		"rules":              {fill(packHead+`"rules": [`, `{"id": "r#", "title": "x", "level": "must", "check": {"fact": "crane.lit", "is": true}, "message": "x", "source": [{"work": "policy"}]}`, `]}`), "write at most 500"},
		"unknown facts":      {fill(packHead+`"rules": [`, `{"id": "r#", "title": "x", "level": "must", "check": {"fact": "crane.lif#", "is": true}, "message": "x", "source": [{"work": "polisy"}]}`, `]}`), "write at most 500"},
		"checklist":          {fill(packHead+`"checklist": [`, `{"id": "i#", "list": "preflight", "phase": "#", "order": 1, "role": "x", "challenge": "x", "response": "x", "source": [{"work": "policy"}]}`, `]}`), "write at most 500"},
		"cautions":           {fill(packHead+`"cautions": [`, `{"id": "c#", "signal": "notice", "hazard": "x", "consequence": "x", "avoidance": "x", "before": ["nowhere/#"], "source": [{"work": "policy"}]}`, `]}`), "write at most 200"},
		"places":             {fill(packHead+`"cautions": [{"id": "c", "signal": "notice", "hazard": "x", "consequence": "x", "avoidance": "x", "source": [{"work": "policy"}], "before": [`, `"preflight/Lift#"`, `]}]}`), `nothing is called "preflight/Lift0"`},
		"alternatives":       {fill(packHead+`"rules": [{"id": "r", "title": "x", "level": "must", "message": "x", "source": [{"work": "policy"}], "check": {"any": [`, `{"fact": "crane.lit", "is": #}`, `]}}]}`), `"crane.lit" is true or false`},
		"a deep condition":   {oneRule(`"check": ` + deep), "levels deep"},
		"braces":             {oneRule(`"check": {"fact": "crane.lit", "is": true}, "ok": "` + strings.Repeat("{", 9000) + `"`), "has no partner"},
		"an endless text":    {oneRule(`"check": {"fact": "crane.lit", "is": true}, "ok": "` + strings.Repeat("x", 20_000) + `"`), "write at most 10000"},
		"an endless factor":  {oneRule(`"check": {"fact": "crane.load_kg", "at_most": {"fact": "crane.rated_kg", "times": 1e999999999}}`), "is out of range"},
		"an escape sequence": {oneRule(`"check": {"fact": "crane.lit", "is": true}, "ok": "\u001b[2J\u001b[32mGO"`), "U+001B"},
		"a turned text":      {oneRule(`"check": {"fact": "crane.lit", "is": true}, "hint": "\u202eOG-ON"`), "U+202E"},
		"a note":             {oneRule(`"check": {"fact": "crane.lit", "is": true}, "x-note": ["\u0000"]`), "U+0000"},
		"an id as a path":    {strings.Replace(oneRule(`"check": {"fact": "crane.lit", "is": true}`), `"crane.rule"`, `"../../crane"`, 1), "does not have the form"},
	} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			packs, err := tryLoad(c.text)
			took := time.Since(start)
			if err == nil || packs != nil || !strings.Contains(err.Error(), c.said) {
				t.Fatalf("got %.300v, want an error with %q", err, c.said)
			}
			if said := err.Error(); len(said) > 100_000 || strings.ContainsFunc(said, func(r rune) bool { return r != '\n' && !unicode.IsGraphic(r) }) {
				t.Errorf("what is said has %d bytes, or a character that nobody sees: %.200q", len(said), said)
			}
			if took > 30*time.Second {
				t.Errorf("took %v", took)
			}
		})
	}
}

// The largest pack that is read, over many members: a hundred thousand findings.
func TestTheLargestPackIsJudgedInTime(t *testing.T) {
	if testing.Short() {
		t.Skip("many findings take seconds")
	}
	var all []string
	for i := range 500 {
		all = append(all, fmt.Sprintf(`{"id": "r%d", "title": "x", "level": "must", "for_each": "motors", "check": {"fact": "motors.*.lowest_v", "at_least": "1 V"}, "message": "{value}", "source": [{"work": "policy"}]}`, i))
	}
	packs, err := rules.Load(catalogue{}, rules.Text{Name: "f", JSON: []byte(packHead + `"rules": [` + strings.Join(all, ",") + `]}`)})
	if err != nil {
		t.Fatal(err)
	}
	f := facts{}
	for i := range 200 {
		f[fmt.Sprintf("motors.M%03d.lowest_v", i)] = "2 V"
	}
	f["motors.M199.lowest_v"] = "0.999 V"
	start := time.Now()
	found := rules.Evaluate(packs, f, rules.Options{})
	if took := time.Since(start); took > 60*time.Second {
		t.Errorf("took %v", took)
	}
	if len(found) != 100_000 || rules.Verdict(found) != rules.NoGo {
		t.Errorf("%d findings, %s", len(found), rules.Verdict(found))
	}
}
