package jsontree_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
)

// What a terminal obeys (ECMA-48), what turns the direction of writing (Unicode Standard Annex 9), what has no width.
func TestCharactersThatNobodySees(t *testing.T) {
	for _, c := range []rune{0, 7, '\b', '\t', '\n', '\r', 0x1b, 0x7f, 0x85, 0x9b, 0xad, 0x61c, 0x200b, 0x200d, 0x200e, 0x2028, 0x202e, 0x2066, 0x2069, 0xfeff, 0xe000, 0xe0041, 0xfffd, 0x10ffff} {
		text := fmt.Sprintf("{\"name\": \"ab\\u0063\", \"x-note\": [{\"deep\": \"relay%[1]s\", \"%[1]s\": 1}]}", escaped(c))
		var problems diag.Problems
		parse(t, "kit.json", text).Hidden(&problems)
		if len(problems) != 2 {
			t.Errorf("U+%04X: got %d problems, want that of the text and that of the key: %v", c, len(problems), problems)
			continue
		}
		for i, where := range []string{"in the text", "in the key"} {
			if p := problems[i]; !strings.Contains(p.What, where) || !strings.Contains(p.What, fmt.Sprintf("U+%04X", c)) || p.Place.Line != 1 || p.Fix == "" {
				t.Errorf("U+%04X: got %q", c, p)
			}
			if strings.ContainsFunc(problems[i].String(), func(r rune) bool { return !unicode.IsPrint(r) }) {
				t.Errorf("U+%04X: the message repeats it: %q", c, problems[i].String())
			}
		}
	}
}

func escaped(c rune) string {
	if c > 0xffff {
		c -= 0x10000
		return fmt.Sprintf(`\u%04x\u%04x`, 0xd800+c>>10, 0xdc00+c&0x3ff)
	}
	return fmt.Sprintf(`\u%04x`, c)
}

func TestWhatPeopleWriteIsSeen(t *testing.T) {
	for _, text := range []string{"Łódź fen relay", "Ω ≥ 3 µ°C – “x” … ✓ ☐ ⚠", "реле", "繋留気球", "ممر", "मेघ", "e\u0301", "5\u00a0V", "🎈"} {
		var problems diag.Problems
		parse(t, "kit.json", fmt.Sprintf(`{"name": %q}`, text)).Hidden(&problems)
		if len(problems) > 0 {
			t.Errorf("%q: %v", text, problems)
		}
	}
}

func TestLongTextsAreRefused(t *testing.T) {
	long := strings.Repeat("é", jsontree.MaxText/2)
	parse(t, "kit.json", `{"name": "`+long+`", "`+long+`": 1}`)
	_, err := jsontree.Parse("kit.json", []byte(`{"name": "`+long+`x", "x`+long+`": 1}`))
	if err == nil || strings.Count(err.Error(), "\n") != 1 || len(err.Error()) > 400 {
		t.Errorf("got %v, want two short problems", err)
	}
}
