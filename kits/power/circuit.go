package power

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"hoistbook/kits/unit"
)

// A circuit is a System with its rails looked up: which there are, and what feeds and loads each.
type circuit struct {
	System
	ids    []string // rails in the order in which they are first named
	rails  map[string]*rail
	faults []string
}

// A rail gathers what is connected to it; indices point into the System.
type rail struct {
	batteries, feeders, drains, loads []int  // feeders and drains are converters
	sound                             bool   // exactly one feeder, and a battery at the root
	volts                             *volts // these three once they are calculated
	nominal                           *Currents
	greatest                          *unit.Current
}

// connect looks up the rails and says what is wrong with the wiring.
func connect(s System) *circuit {
	c := &circuit{System: s, rails: map[string]*rail{}}
	for i, b := range s.Batteries {
		if r := c.rail("battery", b.Ref, b.Rail); r != nil {
			r.batteries = append(r.batteries, i)
		}
	}
	for i, v := range s.Converters {
		from, to := c.rail("converter", v.Ref, v.From), c.rail("converter", v.Ref, v.To)
		if from != nil && to != nil {
			from.drains, to.feeders = append(from.drains, i), append(to.feeders, i)
		}
	}
	for i, l := range s.Loads {
		if r := c.rail("load", l.Ref, l.Rail); r != nil {
			r.loads = append(r.loads, i)
		}
	}
	for _, f := range s.Fuses {
		c.rail("fuse", f.Ref, f.Rail)
	}
	for _, id := range c.ids {
		c.rails[id].sound = c.isSound(id)
	}
	if len(s.Batteries) == 0 {
		c.fault("no battery feeds any rail")
	}
	c.checkDuty()
	return c
}

// rail returns the rail with this id, new when it is named for the first time.
func (c *circuit) rail(what, ref, id string) *rail {
	if id == "" {
		c.fault("%s %q names no rail", what, ref)
		return nil
	}
	if c.rails[id] == nil {
		c.rails[id] = &rail{}
		c.ids = append(c.ids, id)
	}
	return c.rails[id]
}

// isSound climbs from a rail to its battery. A fault of a rail is told once, at that rail.
func (c *circuit) isSound(id string) bool {
	var path []string
	for at := id; ; {
		if slices.Contains(path, at) {
			if slices.Min(path[slices.Index(path, at):]) == id {
				c.fault("rails %s feed each other in a circle", quoted(path))
			}
			return false
		}
		path = append(path, at)
		r := c.rails[at]
		if told := c.feedFault(at, r); told != "" {
			if at == id {
				c.fault("%s", told)
			}
			return false
		}
		if len(r.batteries) > 0 {
			return true
		}
		at = c.Converters[r.feeders[0]].From
	}
}

func (c *circuit) feedFault(id string, r *rail) string {
	switch {
	case len(r.batteries) == 0 && len(r.feeders) == 0:
		return fmt.Sprintf("rail %q is fed by no battery and no converter", id)
	case len(r.feeders) > 1 || len(r.feeders) == 1 && len(r.batteries) > 0:
		return fmt.Sprintf("rail %q is fed by more than one source", id)
	}
	for _, i := range r.batteries {
		if first := c.Batteries[r.batteries[0]]; c.Batteries[i].Chemistry != first.Chemistry || c.Batteries[i].CellsInSeries != first.CellsInSeries {
			return fmt.Sprintf("batteries %q and %q on rail %q have different voltages and cannot work in parallel", first.Ref, c.Batteries[i].Ref, id)
		}
	}
	return ""
}

// checkDuty faults shares that do not add up. The tolerance admits three times 33.3 %.
func (c *circuit) checkDuty() {
	var sum float64
	for s, share := range c.Duty {
		sum += float64(share)
		if share < 0 {
			c.fault("the share of duty state %d is negative", s)
		}
	}
	if !math.IsNaN(sum) && math.Abs(sum-1) > 0.0015 {
		c.fault("the shares of the duty states add up to %s %%, not to 100 %%", strconv.FormatFloat(100*sum, 'f', 1, 64))
		for s := range c.Duty {
			c.Duty[s] = unknown[unit.Ratio]()
		}
	}
}

func (c *circuit) fault(format string, args ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, args...))
}

func quoted(ids []string) string {
	sorted := slices.Sorted(slices.Values(ids))
	for i, id := range sorted {
		sorted[i] = strconv.Quote(id)
	}
	return strings.Join(sorted, ", ")
}
