package terminal

import "testing"

func TestReflow(t *testing.T) {
	for text, want := range map[string]string{
		"":                                       "",
		"one two three four":                     "one two\nthree four",
		"one\ntwo\n\nthree":                      "one two\n\nthree",
		"one two three\n    a b c d e f g\nfour": "one two\nthree\n    a b c d e f g\nfour",
		"extraordinarily long":                   "extraordinarily\nlong",
	} {
		if got := Reflow(text, 10); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}
