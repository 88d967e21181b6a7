package kits

import (
	"strings"

	"hoistbook/kits/unit"
)

// ofThisSite is given for a value that belongs to one place: what the shared manifest says of its own site is silence about the
// site of a club.
func ofThisSite[T unit.Scalar[T]](c *frame, pointer string, value *T) T {
	if overlay, left := c.run.manifest.LeftBehind(pointer); left {
		c.missing("%s moves the kit to another site, and does not say %s there", overlay, pointer)
		return unit.From[T](nan)
	}
	return given(c, pointer, value)
}

// siteValues are what else belongs to a place, and passes from one to the next with a question.
var siteValues = []struct{ pointer, name string }{
	{"/station/site/elevation", "elevation"}, {"/station/site/pressure", "pressure"}, {"/station/site/coldest", "coldest air"},
	{"/station/site/hottest", "hottest air"}, {"/station/wind/terrain", "terrain"}, {"/station/rules", "regional rules"},
}

var siteInherited = word(nil, "station.site_inherited", "What an overlay that moves the kit leaves as it was at the site before",
	"values of the site that neither it nor a later overlay says, or none", nil, policy,
	func(c *frame, _ string) string {
		_, inherited := c.run.manifest.Moved()
		var left []string
		for _, v := range siteValues {
			if inherited(v.pointer) {
				left = append(left, v.name)
			}
		}
		if len(left) == 0 {
			return "none"
		}
		return strings.Join(left, ", ")
	})
