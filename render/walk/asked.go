package walk

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// byEye is how far a number in a question may move before the answer no longer holds: who paces out 50 m or looks at a
// balloon cannot tell one in twenty. What must be more exact is a reading, and is judged by its value.
const byEye = 0.05

var numbers = regexp.MustCompile(`[−-]?[0-9]+(\.[0-9]+)?`)

// sameAsked reports whether two texts ask the same: word by word, and number by number as far as an eye can tell.
func sameAsked(a, b string) bool {
	if a == b {
		return true
	}
	if numbers.ReplaceAllString(a, "#") != numbers.ReplaceAllString(b, "#") {
		return false
	}
	x, y := numbers.FindAllString(a, -1), numbers.FindAllString(b, -1)
	for i := range x {
		if !near(x[i], y[i]) {
			return false
		}
	}
	return true
}

func near(a, b string) bool {
	if a == b {
		return true
	}
	x, errX := strconv.ParseFloat(strings.Replace(a, "−", "-", 1), 64)
	y, errY := strconv.ParseFloat(strings.Replace(b, "−", "-", 1), 64)
	return errX == nil && errY == nil && math.Abs(x-y) <= byEye*math.Min(math.Abs(x), math.Abs(y))
}
