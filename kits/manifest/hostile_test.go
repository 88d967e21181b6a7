package manifest_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"
	"unicode"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
)

// head begins a manifest that lacks nothing but what follows.
const head = `{"format": "hoistbook-manifest/1", "kit": {"id": "x", "name": "x", "revision": "1.0.0"}, `

// fill repeats a text until a file is nearly as large as one may be.
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

// many repeats a text 1900 times.
func many(before, each, after string) string {
	var all []string
	for i := range 1900 {
		all = append(all, strings.ReplaceAll(each, "#", fmt.Sprint(i)))
	}
	return before + strings.Join(all, ",") + after
}

// hostile are files that strangers may send, and words of what is said of them.
var hostile = map[string]struct{ text, said string }{
	"100 000 parts":             {fill(head+`"parts": {`, `"P#": {}`, `}}`), `write at most 2000`},
	"parts that are named":      {fill(head+`"parts": {`, `"P#": {"name": "x", "place": "aloft"}`, `}}`), `write at most 2000`},
	"parts of parts":            {fill(head+`"parts": {`, `"P#": {"name": "x", "place": "aloft", "transmitter": {"antenna": "A#"}, "load": {"rail": "R#"}}`, `}}`), `write at most 2000`},
	"rails upon rails":          {fill(head+`"parts": {`, `"P#": {"name": "x", "place": "aloft", "converter": {"kind": "buck", "from": "R#", "to": "S#"}}`, `}}`), `write at most 2000`},
	"a million bytes of name":   {head[:len(head)-2] + `, "x-n": "` + strings.Repeat("n", jsontree.MaxBytes-200) + `"}`, `write at most 10000`},
	"a key without end":         {`{"` + strings.Repeat("k", jsontree.MaxBytes-20) + `": 1}`, `write at most 10000`},
	"unknown keys":              {fill(`{`, `"formaz#": 1`, `}`), `there is no key "formaz0" here`},
	"keys that repeat":          {fill(`{`, `"format": 1`, `}`), `the key "format" stands here again`},
	"transmitters":              {many(head+`"parts": {"A": {"name": "x", "place": "aloft", "antenna": {}},`, `"P#": {"name": "x", "place": "aloft", "transmitter": {"antenna": "A"}}`, `}}`), `1900 parts have the facet "transmitter"; write at most 50`},
	"converters":                {many(head+`"parts": {`, `"P#": {"name": "x", "place": "aloft", "converter": {"kind": "buck", "from": "R#", "to": "S#"}}`, `}}`), `1900 parts have the facet "converter"; write at most 50`},
	"receivers":                 {many(head+`"parts": {"A": {"name": "x", "place": "aloft", "antenna": {}},`, `"P#": {"name": "x", "place": "aloft", "receiver": {"antenna": "A"}}`, `}}`), `1900 parts have the facet "receiver"; write at most 50`},
	"offers":                    {fill(head+`"parts": {"P": {"name": "x", "place": "aloft", "offers": [`, `{"supplier": "S#", "price": "1"}`, `]}}}`), `write at most 50`},
	"steps":                     {fill(head+`"parts": {"P": {"name": "x", "place": "aloft"}}, "steps": {"preflight": [`, `{"id": "s", "text": "one more step"}`, `]}}`), `write at most 500`},
	"the same rule again":       {fill(head+`"station": {"rules": [`, `"us-and-no-other-rule"`, `]}, "parts": {"P": {"name": "x", "place": "aloft"}}}`), `write at most 16`},
	"waivers":                   {fill(head+`"parts": {"P": {"name": "x", "place": "aloft"}}, "waivers": {`, `"r#": " "`, `}}`), `write at most 100`},
	"numbers":                   {fill(head+`"parts": {"P": {"name": "x", "place": "aloft", "quantity": [`, `1e308`, `]}}}`), `more than 100000 values`},
	"a quantity without end":    {head + `"parts": {"P": {"name": "x", "place": "aloft", "mass": "` + strings.Repeat("9", 9000) + ` kg"}}}`, `/`},
	"a price without end":       {head + `"budget": {"currency": "EUR", "per_kit": "` + strings.Repeat("9", 9000) + `"}, "parts": {"P": {"name": "x", "place": "aloft"}}}`, `/`},
	"a revision without end":    {`{"format": "hoistbook-manifest/1", "kit": {"id": "x", "name": "x", "revision": "1.0.0-` + strings.Repeat("a.", 4900) + `"}, "parts": {"P": {"name": "x", "place": "aloft"}}}`, `/`},
	"brackets":                  {strings.Repeat(`[`, jsontree.MaxBytes-1), `levels deep`},
	"braces":                    {strings.Repeat(`{"a":`, jsontree.MaxBytes/5-1), `levels deep`},
	"an escape sequence":        {`{"format": "hoistbook-manifest/1", "kit": {"id": "x", "name": "\u001b]0;owned\u0007", "revision": "1.0.0"}, "parts": {}}`, "U+001B"},
	"a turned name":             {`{"format": "hoistbook-manifest/1", "kit": {"id": "x", "name": "gnp.\u202eexe", "revision": "1.0.0"}, "parts": {}}`, "U+202E"},
	"a name that is a path":     {head + `"parts": {"../../etc/passwd": {"name": "x", "place": "aloft"}}}`, `a name of at most 32 letters`},
	"an id that is a path":      {`{"format": "hoistbook-manifest/1", "kit": {"id": "../up", "name": "x", "revision": "1.0.0"}, "parts": {"P": {"name": "x", "place": "aloft"}}}`, `a name of at most 32 letters`},
	"a revision that is a path": {`{"format": "hoistbook-manifest/1", "kit": {"id": "x", "name": "x", "revision": "1.0.0/../../x"}, "parts": {"P": {"name": "x", "place": "aloft"}}}`, `three numbers with points between`},
	"two keys that look alike":  {head + `"parts": {"P": {"name": "x", "place": "aloft"}, "P\u200b": {"name": "x", "place": "aloft"}}}`, "U+200B"},
}

// The worst of these files takes a second and allocates 1.3 GiB one small piece after another; a machine may be busy.
const (
	mostTime   = 30 * time.Second
	mostMemory = 2 << 30
)

// Files of a megabyte are refused in bounded time and memory, in words that can be read and that no terminal obeys.
func TestHostileFiles(t *testing.T) {
	for name, c := range hostile {
		t.Run(name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			start := time.Now()
			m, err := manifest.Load(manifest.Source{Name: "kit.json", Data: []byte(c.text)})
			took := time.Since(start)
			runtime.ReadMemStats(&after)
			if err == nil || m != nil || !strings.Contains(err.Error(), strings.TrimPrefix(c.said, "/")) {
				t.Fatalf("got %.300v, want an error with %q", err, c.said)
			}
			said := err.Error()
			if len(said) > 500_000 || strings.ContainsFunc(said, func(r rune) bool { return r != '\n' && !unicode.IsGraphic(r) }) {
				t.Errorf("what is said has %d bytes, or a character that nobody sees: %.200q", len(said), said)
			}
			allocated := after.TotalAlloc - before.TotalAlloc
			if took > mostTime || allocated > mostMemory {
				t.Errorf("took %v and %d MiB", took, allocated>>20)
			}
			t.Logf("%v, %d MiB, %d bytes said: %.150s", took, allocated>>20, len(said), said)
		})
	}
}
