package page

import (
	"slices"
	"strings"
	"testing"
)

func TestWrap(t *testing.T) {
	style := Style{Mono, 10, 5} // every letter is as wide as every other, so that widths can be told in letters
	letter := Width(Mono, 10, "n")
	for _, c := range []struct {
		name    string
		words   Words
		letters float64
		want    []string
	}{
		{"nothing", nil, 10, nil},
		{"white space alone", Plain(" \t "), 10, nil},
		{"fits", Plain("one two"), 7, []string{"one two"}},
		{"one letter too many", Plain("one two"), 6.5, []string{"one", "two"}},
		{"white space is one space", Plain("  one \t  two  "), 20, []string{"one two"}},
		{"a line break", Plain("one\ntwo"), 20, []string{"one", "two"}},
		{"an empty line", Plain("one\n\ntwo"), 20, []string{"one", "", "two"}},
		{"DOS line break", Plain("one\r\ntwo"), 20, []string{"one", "two"}},
		{"a long word", Plain("a abcdefghij"), 4, []string{"a", "abcd", "efgh", "ij"}},
		{"marks stay on their letters", Plain("abe\u0301\u0323d"), 4, []string{"ab", "e\u0301\u0323d"}},
		{"no-break space", Plain("12\u00a0volts ab"), 9, []string{"12\u00a0volts", "ab"}},
		{"a place to break", Plain("abc\u200bdef"), 3, []string{"abc", "def"}},
		{"a hyphen between words", Plain("battery-change"), 9, []string{"battery-", "change"}},
		{"a short answer", Plain("is NO-GO"), 6, []string{"is", "NO-GO"}},
		{"a minus sign", Plain("at -10, xyz"), 4, []string{"at", "-10,", "xyz"}},
		{"a number keeps its unit", Plain("under 12.6 V at"), 10, []string{"under", "12.6 V at"}},
		{"a percentage", Plain("under 20 % at"), 8, []string{"under", "20 % at"}},
		{"numbers are no units", Plain("1 2 3 4"), 3, []string{"1 2", "3 4"}},
		{"a unit that does not fit", Plain("12345 V"), 5, []string{"12345", "V"}},
		{"faces in one word", Plain("un").Then(Strong("bold"), Plain("ly yes")), 9, []string{"unboldly", "yes"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := &setting{fonts: nil, scale: &Desk, height: 200}
			// Bold letters are wider than those of the fixed face, by less than half a letter each.
			width := letter*MM(c.letters) + 0.01
			if strings.Contains(c.words.String(), "bold") {
				width += 1.2 * letter
			}
			var got []string
			for _, l := range s.wrap(c.words, style, width) {
				var text string
				var end MM
				for _, p := range l.pieces {
					if p.x < end-1e-9 {
						t.Errorf("piece %q begins at %.2f, before the one before it ends at %.2f", p.text, p.x, end)
					}
					end = p.x + p.w
					text += p.text
				}
				if end > width || end > l.width+1e-9 {
					t.Errorf("line %q ends at %.2f of %.2f", text, end, width)
				}
				got = append(got, text)
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// Balanced lines are as many as before, hold the same words, and no longer leave one word to the last.
func TestBalanced(t *testing.T) {
	s := &setting{fonts: NewFlow(Setup{Paper: A4}).setting().fonts, fail: func(err error) { t.Fatal(err) }}
	style := Style{Sans, 13.5, 6.3}
	said := func(lines []line) (texts []string) {
		for _, l := range lines {
			text := ""
			for _, p := range l.pieces {
				text += p.text
			}
			texts = append(texts, text)
		}
		return texts
	}
	for _, text := range []string{"at least two at the line, gloves on, no rings, no scarves", "held by a weight or a second person before gas flows", "go", "an incomprehensibilitywithoutanyspaceatallthatmustbetorn apart"} {
		for _, width := range []MM{40, 60, 80, 100} {
			plain, even := said(s.wrap(Plain(text), style, width)), said(s.balanced(Plain(text), style, width))
			if len(plain) != len(even) || strings.Join(plain, " ") != strings.Join(even, " ") && !strings.Contains(text, "torn") {
				t.Errorf("on %v mm %q became %q", width, plain, even)
			}
		}
	}
	got := said(s.balanced(Plain("at least two at the line, gloves on, no rings, no scarves"), style, 118))
	if last := got[len(got)-1]; len(got) != 2 || !strings.Contains(last, " ") {
		t.Errorf("a word stands alone: %q", got)
	}
}
