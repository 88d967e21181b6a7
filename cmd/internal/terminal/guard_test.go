package terminal

import (
	"errors"
	"io"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

func guarded(t interface{ Fatal(...any) }, pieces ...string) string {
	var out strings.Builder
	w := Guard(&out)
	for _, piece := range pieces {
		if n, err := io.WriteString(w, piece); n != len(piece) || err != nil {
			t.Fatal(n, err)
		}
	}
	return out.String()
}

func TestGuardWritesOutWhatATerminalWouldObey(t *testing.T) {
	colours := Style{Colour: true}.paint("GO", green, bold)
	for text, want := range map[string]string{
		"plain Ω ≥ 3\n\tand more": "plain Ω ≥ 3\n\tand more",
		colours:                   colours,
		"\x1b]0;title\x07":        "<U+001B>]0;title<U+0007>", // a title
		"\x1b[2J":                 "<U+001B>[2J",              // clears the screen
		"\x1b[31mred":             "\x1b[31mred",
		"\x1b[3;1H":               "<U+001B>[3;1H", // moves the cursor
		"over\rwritten":           "over<U+000D>written",
		"\u009b31m":               "<U+009B>31m", // the same in one character
		"kit\u202enosj.exe":       "kit<U+202E>nosj.exe",
		"\xff\xfe":                "<FF><FE>",
		"del\x7f":                 "del<U+007F>",
	} {
		if got := guarded(t, text); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
		var bytes []string
		for i := range len(text) {
			bytes = append(bytes, text[i:i+1])
		}
		if got := guarded(t, bytes...); got != want {
			t.Errorf("%q byte by byte: got %q, want %q", text, got, want)
		}
	}
}

func TestGuardLetsNothingThroughThatMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")
		got := guarded(t, string(text), "m") // a colour that is not finished is finished
		for got != "" {
			if n := colour([]byte(got)); n > 0 {
				got = got[n:]
				continue
			}
			c := []rune(got)[0]
			if c != '\n' && c != '\t' && (!unicode.IsGraphic(c) || c == unicode.ReplacementChar && got[0] != "\ufffd"[0]) {
				t.Fatalf("%q lets through %q", text, c)
			}
			got = strings.TrimPrefix(got, string(c))
		}
	})
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestGuardTellsWhatGoesWrong(t *testing.T) {
	if _, err := io.WriteString(Guard(full{}), "x"); err == nil {
		t.Error("a full disk is not told")
	}
}
