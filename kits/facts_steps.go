package kits

import (
	"slices"
	"strings"
	"unicode"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// stepFacts hold the steps of building against the list of parts.
var stepFacts = []*Entry{kitUnusedCount.Entry, kitUnused}

// unused are the parts that fly and that no step of the assembly names, among its parts or in its text: whoever follows the steps has
// them left over.
var unused = shared(func(c *frame) []string {
	var steps manifest.Steps
	if s := c.run.manifest.Steps; s != nil {
		steps = *s
	}
	names := func(ref manifest.Ref) bool {
		return slices.ContainsFunc(steps.Assembly, func(s manifest.Step) bool {
			return slices.Contains(s.Parts, ref) || slices.Contains(strings.FieldsFunc(s.Text, betweenRefs), string(ref))
		})
	}
	var left []string
	for ref, p := range manifest.Sorted(c.run.manifest.Parts) {
		if p.Place == manifest.Aloft && !names(ref) {
			left = append(left, string(ref))
		}
	}
	return left
})

// betweenRefs reports whether a reference cannot go on over this letter.
func betweenRefs(r rune) bool {
	return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' && r != '_'
}

var kitUnusedCount = quantity("kit.unused_part_count", "", "Parts that fly and that no step of the assembly handles", "how many parts aloft no step names, among its parts or in its text", policy,
	func(c *frame) unit.Count { return unit.Count(len(unused.of(c))) })

var kitUnused = word(nil, "kit.unused_parts", "Which parts fly and are in no step of the assembly", "the references of parts aloft that no step names, or none", nil, policy,
	func(c *frame, _ string) string {
		if left := unused.of(c); len(left) > 0 {
			return strings.Join(left, ", ")
		}
		return "none"
	})
