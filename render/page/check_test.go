package page

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// Each fault of a document is found, named and placed.
func TestCheck(t *testing.T) {
	nan := MM(math.NaN())
	good := Text{X: 20, Y: 20, Size: 10, Text: "good"}
	for _, c := range []struct {
		name  string
		items []Item
		want  string // "" if nothing is wrong
	}{
		{"nothing wrong", []Item{good, Anchor{Name: "a", X: 1, Y: 1}, Link{Box{1, 1, 9, 9}, "a"}, Link{Box{1, 1, 9, 9}, "https://example.org"}, TickBox{1, 1, 4, "t", ""}}, ""},
		{"lacking character", []Item{Text{X: 20, Y: 20, Size: 10, Text: "a中b"}}, `page 1: no font has "中" (U+4E2D) in the text "a中b"`},
		{"script that needs shaping", []Item{Text{X: 20, Y: 20, Size: 10, Text: "مرحبا"}}, `the script Arabic of the text "مرحبا"`},
		{"script of any font", []Item{Text{X: 20, Y: 20, Size: 10, Text: "Łódź, Ельня, Ξάνθη, ⅔ Ω"}}, ""},
		{"control character", []Item{Text{X: 20, Y: 20, Size: 10, Text: "a\x07b"}}, "(U+0007)"},
		{"bad encoding", []Item{Text{X: 20, Y: 20, Size: 10, Text: "a\xffb"}}, "UTF-8"},
		{"no size", []Item{Text{X: 20, Y: 20, Text: "a"}}, "the size 0"},
		{"not a number", []Item{Line{nan, 0, 1, 1, Stroke{Width: 1}}}, "no number"},
		{"infinite turn", []Item{Text{X: 20, Y: 20, Size: 10, Text: "a", Turn: math.Inf(1)}}, "no number"},
		{"over the edge", []Item{Text{X: 205, Y: 20, Size: 10, Text: "too far"}}, "over the edge"},
		{"link to nowhere", []Item{Link{Box{1, 1, 9, 9}, "nowhere"}}, `"nowhere"`},
		{"link that runs a program", []Item{Link{Box{1, 1, 9, 9}, "javascript:alert(1)"}}, "javascript"},
		{"anchor twice", []Item{Anchor{Name: "a"}, Anchor{Name: "a"}}, "second time"},
		{"field without a name", []Item{TickBox{1, 1, 4, "", ""}}, "form field"},
		{"field twice", []Item{TickBox{1, 1, 4, "f.1", ""}, Field{Box: Box{1, 1, 9, 9}, Name: "f:1"}}, "taken"},
		{"page number left over", []Item{PageNumber{Anchor: "a", Text: good}}, "not filled in"},
		{"outline below zero", []Item{Outline{Title: "x", Level: -1}}, "level -1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := Document{Pages: []Page{{Paper: A4, Items: c.items}}}
			expect(t, doc.Check(), c.want)
		})
	}
	expect(t, (&Document{}).Check(), "no page")
	for _, name := range []string{"", "a/b", `a\b`, "..", "a\x00"} {
		doc := Document{Pages: []Page{{Paper: A4}}, Attachments: []Attachment{{Name: name}}}
		expect(t, doc.Check(), fmt.Sprintf("attachment %q", name))
	}
	twice := Document{Pages: []Page{{Paper: A4}}, Attachments: []Attachment{{Name: "a"}, {Name: "a"}}}
	expect(t, twice.Check(), "of its own")
}

func expect(t *testing.T, err error, want string) {
	t.Helper()
	if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
		t.Errorf("got %v, want an error with %q", err, want)
	}
}

// All faults come at once, up to a number that can still be read.
func TestCheckListsFaults(t *testing.T) {
	var items []Item
	for range 100 {
		items = append(items, Text{X: 20, Y: 20, Size: 10, Text: "中"})
	}
	err := (&Document{Pages: []Page{{Paper: A4, Items: items}}}).Check()
	if n := len(strings.Split(err.Error(), "\n")); n != manyFaults {
		t.Errorf("%d faults, want %d", n, manyFaults)
	}
}
