package diag_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/diag"
)

func TestProblemsAreSortedAndSaidOnce(t *testing.T) {
	var ps diag.Problems
	if ps.Err() != nil {
		t.Error("no problems are no error")
	}
	at := func(file string, line, col int) diag.Place { return diag.Place{File: file, Line: line, Col: col} }
	ps.Add(at("kit.json", 12, 3), "the mass is missing", "")
	ps.Add(at("kit.json", 2, 13), `"85 m" is a length`, "write a mass")
	ps.Add(at("kit.json", 2, 4), `there is no key "mas" here`, `did you mean "mass"?`)
	ps.Add(at("club.json", 30, 1), "late", "")
	ps.Add(at("kit.json", 2, 13), `"85 m" is a length`, "write a mass")
	ps.Add(diag.Place{File: "kit.json"}, "the file is too large", "")
	want := `club.json:30:1: late
kit.json: the file is too large
kit.json:2:4: there is no key "mas" here; did you mean "mass"?
kit.json:2:13: "85 m" is a length; write a mass
kit.json:12:3: the mass is missing`
	err := ps.Err()
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
	var again diag.Problems
	if !errors.As(err, &again) || len(again) != 5 {
		t.Errorf("the error holds %d problems, want 5", len(again))
	}
	if ps[0].What != "the mass is missing" {
		t.Error("Err changed the order of the list it was asked about")
	}
}

func TestNear(t *testing.T) {
	known := []string{"mass", "mass_basis", "name", "place", "quantity", "purity"}
	for word, want := range map[string][]string{
		"mas":       {"mass"},
		"msas":      {"mass"}, // neighbours swapped
		"masss":     {"mass"},
		"qauntity":  {"quantity"},
		"quantitiy": {"quantity"},
		"Mass":      {"mass"},
		"MASS":      {"mass"},
		"nmae":      {"name"},
		"envelope":  nil,
		"":          nil,
		"m":         nil,
	} {
		if got := diag.Near(word, known); !slices.Equal(got, want) {
			t.Errorf("Near(%q) = %q, want %q", word, got, want)
		}
	}
	if got := diag.Near("aa", []string{"ad", "ac", "ab", "aa"}); !slices.Equal(got, []string{"aa", "ab", "ac"}) {
		t.Errorf("Near offers %q: the nearest three are wanted, equals by name", got)
	}
	long := string(slices.Repeat([]byte("x"), 65))
	if got := diag.Near(long, []string{long[1:]}); got != nil {
		t.Errorf("a word of 65 letters has near words: %q", got)
	}
}

func TestDidYouMean(t *testing.T) {
	if got := diag.DidYouMean("mas", []string{"mass"}, "else"); got != `did you mean "mass"?` {
		t.Errorf("got %q", got)
	}
	if got := diag.DidYouMean("envelope", []string{"mass"}, "write mass"); got != "write mass" {
		t.Errorf("got %q", got)
	}
}

func TestOneEditIsAlwaysNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := []rune(rapid.StringMatching(`[a-z_]{2,20}`).Draw(t, "word"))
		at := rapid.IntRange(0, len(word)-1).Draw(t, "at")
		edited := slices.Clone(word)
		switch rapid.IntRange(0, 3).Draw(t, "edit") {
		case 0:
			edited = slices.Delete(edited, at, at+1)
		case 1:
			edited = slices.Insert(edited, at, 'q')
		case 2:
			edited[at] = 'q'
		case 3:
			if at+1 < len(edited) {
				edited[at], edited[at+1] = edited[at+1], edited[at]
			}
		}
		if got := diag.Near(string(edited), []string{string(word)}); len(got) != 1 {
			t.Fatalf("%q is one edit away from %q and not near", string(edited), string(word))
		}
	})
}

func TestWhatAHostileFileMakesUsSayIsBounded(t *testing.T) {
	var ps diag.Problems
	what := "there is no key \"" + strings.Repeat("ü", 5000) + "\" here"
	for line := range 100_000 {
		ps.Add(diag.Place{File: "kit.json", Line: line + 1, Col: 1}, what, "did you mean \"mass\"?")
	}
	said := ps.Err().Error()
	lines := strings.Split(said, "\n")
	if len(lines) != 501 || lines[500] != "and 99500 more" {
		t.Errorf("got %d lines, the last %q", len(lines), lines[len(lines)-1])
	}
	if first := lines[0]; !strings.HasPrefix(first, `kit.json:1:1: there is no key "üü`) || !strings.HasSuffix(first, `ü" here; did you mean "mass"?`) || len([]rune(first)) > 460 {
		t.Errorf("a problem of %d characters: %s", len([]rune(first)), first)
	}
	ps = ps[:500]
	if said := ps.Error(); strings.Contains(said, "more") || strings.Count(said, "\n") != 499 {
		t.Error("500 problems are not printed as they are")
	}
}
