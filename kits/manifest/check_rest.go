package manifest

import (
	"fmt"
	"math"
	"strconv"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// dutyTolerance is how far from 100 % the shares may add up: they are written rounded.
const dutyTolerance = 0.001

// station checks the deployment in itself.
func (c checker) station() {
	s := c.Station
	if s == nil {
		return
	}
	if site := s.Site; site != nil && site.Coldest != nil && site.Hottest != nil && site.Coldest.Kelvin() > site.Hottest.Kelvin() {
		c.say([]string{"station", "site", "coldest"},
			fmt.Sprintf("the coldest air (%s) is warmer than the hottest (%s)", site.Coldest, site.Hottest), "exchange the two")
	}
	if len(s.Duty) == 0 {
		return
	}
	total := 0.0
	for state, share := range s.Duty {
		if c.told[c.ValuePlace(jsontree.Pointer("station", "duty", string(state)))] {
			return // a share that could not be read
		}
		total += float64(share)
	}
	if math.Abs(total-1) > dutyTolerance*(1+1e-9) {
		c.say([]string{"station", "duty"}, fmt.Sprintf("the shares of the duty add up to %s", unit.Ratio(total)), "they must make 100 %")
	}
}

// signals checks the ends of control lines.
func (c checker) signals() {
	parts := keys(c.Parts)
	for name, s := range Sorted(c.Signals) {
		c.refer([]string{"signals", string(name), "from"}, s.From, "part", parts)
		c.refer([]string{"signals", string(name), "to"}, s.To, "part", parts)
		if s.From == s.To && s.From != "" {
			c.say([]string{"signals", string(name), "to"}, fmt.Sprintf("the signal runs from %q to itself", s.To), "name the part that reads it")
		}
	}
}

// offers checks that every supplier is there.
func (c checker) offers() {
	suppliers := keys(c.Suppliers)
	for ref, p := range Sorted(c.Parts) {
		for i, o := range p.Offers {
			c.refer([]string{"parts", string(ref), "offers", strconv.Itoa(i), "supplier"}, o.Supplier, "supplier", suppliers)
		}
	}
}

// steps checks the parts that steps handle, and that no two steps of a list share a name.
func (c checker) steps() {
	if c.Steps == nil {
		return
	}
	parts := keys(c.Parts)
	for _, list := range []struct {
		name  List
		steps []Step
	}{{AssemblyList, c.Steps.Assembly}, {PreflightList, c.Steps.Preflight}, {RecoveryList, c.Steps.Recovery}} {
		seen := map[Ref]bool{}
		for i, step := range list.steps {
			at := []string{"steps", string(list.name), strconv.Itoa(i)}
			if seen[step.ID] && step.ID != "" {
				c.say(append(at, "id"), fmt.Sprintf("two steps of %s are called %q", list.name, step.ID), "give each a name of its own")
			}
			seen[step.ID] = true
			for j, ref := range step.Parts {
				c.refer(append(at, "parts", strconv.Itoa(j)), ref, "part", parts)
			}
		}
	}
}
