package assess

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/fact"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

// A crossing leads one rule over its limit by changing one number.
type crossing struct {
	of              *subject
	rule            key
	pointer         string
	inside, outside string // texts of the manifest a thousandth of the limit on either side
	with            []string
}

const thousandth = 1e-3

// uncrossable are MUST rules with a margin that no single number leads over their limit, and why.
var uncrossable = map[string]string{
	"complete.modules": "a count", "complete.fed": "a count", "complete.batteries": "a count", "complete.transmitters": "a count", "complete.receivers": "a count", "complete.ground": "a count",
	"endurance.covered": "a count of batteries", "gas.cylinders": "a count of cylinders",
	"marsh-data lift.free":     "it leaves its least free lift unsaid, and lift.neck asks for at least as much",
	"marsh-data site.pressure": "it leaves its pressure unsaid", "ridge-sphere site.pressure": "it leaves its pressure unsaid",
	"power.battery-current":     "the fuse must blow below what the battery bears, and must carry more than it gives: those two break first",
	"marsh-data exposure.below": "no power that a manifest may state reaches that far", "ridge-sphere us.height": "the line that it carries is shorter",
	"claims.growth": "the allowances of all parts", "claims.tether-mass": "a line so thin would not be strong enough", "claims.fuse": "no battery here bears such a fuse",
	"claims.gust": "a plain number", "claims.tether-factor": "a plain number", "claims.tether-drag": "a plain number", "claims.balloon-drag": "a plain number", "claims.anchor-factor": "a plain number", "claims.friction": "a plain number",
	"claims.transmit": "the shares of the duty add up to 100 %", "ridge-sphere claims.skin": "its film is as heavy as that of the largest envelope that a manifest may state", "marsh-data claims.knot": "it leaves its knots unsaid", "marsh-data claims.free-lift": "it leaves its least free lift unsaid",
	"us.repeater-segment": "places in the spectrum", "us.repeater-input": "places in the spectrum",
}

// Every MUST that compares numbers flips exactly when its limit is crossed: a thousandth of the limit before it, the kit is
// GO; a thousandth beyond, it is NO-GO, and only that rule is broken, and those that ask the same in other words.
func TestALimitCrossedByAThousandthFlipsItsRule(t *testing.T) {
	subjects := subjectsOf(t)
	if *update {
		var lines []string
		for _, s := range subjects {
			for _, c := range s.crossings(directions(t)) {
				lines = append(lines, strings.Join([]string{s.id, c.rule.rule, c.rule.subject, c.pointer, c.inside, c.outside, strings.Join(c.with, ", ")}, "\t"))
			}
		}
		table(t, "crossings.tsv", append([]string{
			"# Numbers that lead one MUST over its limit: a thousandth of the limit before it, and beyond. With: what else is broken then.",
			"# Written by go test ./cmd/internal/assess -update.",
			"kit\trule\tsubject\tpointer\tinside\toutside\twith"}, lines...))
	}
	byID := map[string]*subject{}
	todo := map[string]map[key]bool{}
	for _, s := range subjects {
		byID[s.id], todo[s.id] = s, map[key]bool{}
		for k, f := range s.base {
			if f.HasMargin() && uncrossable[k.rule] == "" && uncrossable[s.id+" "+k.rule] == "" && f.Measure.Kind == fact.Number {
				todo[s.id][k] = true
			}
		}
	}
	for _, row := range rows(t, "crossings.tsv") {
		s, k := byID[row[0]], key{row[1], row[2]}
		delete(todo[row[0]], k)
		about := strings.Join(row[:4], " ")
		in, out := s.try(s.tree.With(row[3], row[4])), s.try(s.tree.With(row[3], row[5]))
		if in.refused != "" || out.refused != "" {
			t.Errorf("%s: refused: %s%s", about, in.refused, out.refused)
			continue
		}
		near := func(o outcome, sign float64) bool {
			share := o.musts[k].Share * sign
			return (share > 0 || sign > 0 && share == 0) && share < 1.5*thousandth // a kit may stand at its limit
		}
		if in.verdict != rules.Go || !near(in, 1) {
			t.Errorf("%s of %s, a thousandth before the limit: %s, by %v", about, row[4], in, in.musts[k].Share)
		}
		if out.verdict != rules.NoGo || !near(out, -1) || out.musts[k].Outcome != rules.NotMet {
			t.Errorf("%s of %s, a thousandth beyond the limit: %s, by %v", about, row[5], out, out.musts[k].Share)
		}
		if got := strings.Join(others(out, k), ", "); got != row[6] {
			t.Errorf("%s of %s breaks also %q, and %q was meant", about, row[5], got, row[6])
		}
	}
	for excused := range uncrossable {
		id, rule, one := strings.Cut(excused, " ")
		if !slices.ContainsFunc(subjects, func(s *subject) bool {
			for k := range s.base {
				if !one && k.rule == id || one && s.id == id && k.rule == rule {
					return true
				}
			}
			return false
		}) {
			t.Errorf("%q is excused, and no kit has such a rule", excused)
		}
	}
	for id, left := range todo {
		for k := range left {
			t.Errorf("%s: nothing leads %s %s over its limit: run this test with -update, or say why not", id, k.rule, k.subject)
		}
	}
}

// others lists what is broken besides a rule.
func others(o outcome, k key) []string {
	var more []string
	for _, b := range o.broken {
		if b != k {
			more = append(more, strings.TrimSpace(b.rule+" "+b.subject))
		}
	}
	return more
}

// crossings finds a number for every rule of a kit: of those that take its margin, the one that breaks the fewest others.
func (s *subject) crossings(all []*direction) []*crossing {
	type sensitive struct {
		n     manifest.Number
		up    bool
		takes float64
	}
	takers := map[key][]sensitive{}
	for _, n := range s.kit.Numbers() {
		d := directionOf(all, n)
		if n.Whole || n.Price || d.harder == "none" {
			continue
		}
		for _, up := range []bool{true, false} {
			easier := d.harder == "more" && !up || d.harder == "less" && up
			m, err := s.kit.With(n, moved(n, 0.01, up))
			if err != nil {
				continue
			}
			for _, f := range s.judge(m) {
				k := key{f.Rule, f.Subject}
				if easier != strings.HasPrefix(k.rule, modesty) && d.harder != "both" {
					continue // whoever claims less for the kit comes nearer to all rules but those that forbid to claim too much
				}
				if takes := s.base[k].Share - f.Share; takes > 1e-6 {
					takers[k] = append(takers[k], sensitive{n, up, takes})
				}
			}
		}
	}
	var found []*crossing
	for _, k := range slices.SortedFunc(maps.Keys(takers), compareKeys) {
		list := takers[k]
		slices.SortStableFunc(list, func(a, b sensitive) int { return -cmp.Compare(a.takes, b.takes) })
		var best *crossing
		for _, c := range list {
			if got := s.cross(k, c.n, c.up); got != nil && (best == nil || len(got.with) < len(best.with)) {
				best = got
			}
			if best != nil && len(best.with) == 0 {
				break
			}
		}
		if best != nil {
			found = append(found, best)
		}
	}
	return found
}

// moved is a number's value a part of itself further, or so many decibels.
func moved(n manifest.Number, part float64, up bool) float64 {
	by := part * math.Abs(n.Value.SI)
	switch n.Value.Dim {
	case unit.DimDecibel, unit.DimGain, unit.DimLevel, unit.DimTemperature, unit.DimGauge:
		by = 20 * part
	}
	if !up {
		by = -by
	}
	return n.Value.SI + by
}

func (s *subject) judge(m *manifest.Manifest) []rules.Finding {
	return slices.DeleteFunc(rules.Evaluate(s.packs, kits.Look(m), crew.Options(m, unit.SI)), func(f rules.Finding) bool { return f.Level != rules.Must })
}

// cross leads one rule over its limit with one number, or returns nil.
func (s *subject) cross(k key, n manifest.Number, up bool) *crossing {
	rule, _ := s.packs.Rule(k.rule)
	share := func(part float64) float64 {
		m, err := s.kit.With(n, moved(n, part, up))
		if err != nil {
			return math.NaN()
		}
		for _, f := range rule.Evaluate(kits.Look(m), crew.Options(m, unit.SI)) {
			if f.Subject == k.subject {
				return f.Share
			}
		}
		return math.NaN()
	}
	low, high, bound := 0.0, 0.001, math.Inf(1) // the last that holds, one beyond, and where the number ends
	for range 60 {
		got := share(high)
		if got < -thousandth {
			break
		}
		if math.IsNaN(got) {
			bound = high
		} else {
			low = high
		}
		if high = 2 * high; high >= bound || low == 0 && high > bound {
			high = (low + bound) / 2
		}
	}
	if !(share(high) < -thousandth) {
		return nil
	}
	at := func(want float64) float64 {
		a, b := low, high
		if share(low) < want {
			a = 0
		}
		for range 48 {
			if middle := (a + b) / 2; share(middle) >= want {
				a = middle
			} else {
				b = middle
			}
		}
		return (a + b) / 2
	}
	c := &crossing{of: s, rule: k, pointer: n.Pointer}
	numbers := s.kit.Numbers()
	c.inside, c.outside = writtenAs(s, numbers, n, moved(n, at(thousandth), up)), writtenAs(s, numbers, n, moved(n, at(-thousandth), up))
	in, out := s.try(s.tree.With(n.Pointer, c.inside)), s.try(s.tree.With(n.Pointer, c.outside))
	if in.refused != "" || in.verdict != rules.Go || out.refused != "" || out.musts[k].Outcome != rules.NotMet {
		return nil
	}
	if got := out.musts[k].Share; got > 0 || got < -1.5*thousandth || in.musts[k].Share > 1.5*thousandth {
		return nil
	}
	c.with = others(out, k)
	return c
}
