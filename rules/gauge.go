package rules

import "hoistbook/kits/unit"

// Asks says in words what makes a reading good: "at least 2 kg", "12.2 V to 12.9 V". It is empty where there is no limit, and
// says so where one is not shown.
func (g Gauge) Asks(system unit.System) string {
	least, most := g.Least.Unknown != noLimit, g.Most.Unknown != noLimit
	switch {
	case !g.Limited || !least && !most:
		return ""
	case least && !g.Least.Known() || most && !g.Most.Known():
		return "its limit is not shown"
	case least && most && g.Least.Quantity != g.Most.Quantity:
		low, high := unit.Apart(g.Least.Quantity, g.Most.Quantity, system)
		return low + " to " + high
	case least:
		return string(AtLeast) + " " + g.Least.Print(system, "")
	}
	return string(AtMost) + " " + g.Most.Print(system, "")
}
