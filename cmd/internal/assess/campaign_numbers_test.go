package assess

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// A direction says which way a number makes a kit harder to fly.
type direction struct {
	pointer string // of numbers that are alike; * stands for one name
	harder  string // more, less, both or none
	gains   []string
	used    bool
}

func directions(t *testing.T) []*direction {
	t.Helper()
	var all []*direction
	for _, row := range rows(t, "directions.tsv") {
		if len(row) != 4 || !slices.Contains([]string{"more", "less", "both", "none"}, row[1]) || row[3] == "" {
			t.Fatalf("directions.tsv: %q", row)
		}
		all = append(all, &direction{pointer: row[0], harder: row[1], gains: strings.Fields(row[2])})
	}
	return all
}

// directionOf finds the direction of a number.
func directionOf(all []*direction, n manifest.Number) *direction {
	name := n.Pointer
	if n.End != "" {
		name += " " + n.End
	}
	for _, d := range all {
		if ok, _ := path.Match(d.pointer, name); ok {
			d.used = true
			return d
		}
	}
	return nil
}

// moves are what is done to a number: its name, and the value that it becomes.
var moves = []struct {
	name string
	to   func(v float64, whole bool) float64
}{
	{"zero", func(float64, bool) float64 { return 0 }},
	{"negated", func(v float64, _ bool) float64 { return -v }},
	{"a bit less", func(v float64, whole bool) float64 { return nudged(v, 0.999, -1, whole) }},
	{"a bit more", func(v float64, whole bool) float64 { return nudged(v, 1.001, 1, whole) }},
	{"half", func(v float64, whole bool) float64 { return v / 2 }},
	{"double", func(v float64, whole bool) float64 { return v * 2 }},
	{"huge", func(v float64, whole bool) float64 { return v * 1000 }},
}

// worthTrying leaves out moves that would show nothing new: small ones of the many prices and of numbers that no MUST reads,
// and large ones that make a kit easier to fly, of which the largest is tried.
func worthTrying(move string, d *direction, n manifest.Number) bool {
	switch {
	case strings.Contains(n.Pointer, "/offers/") || d.harder == "none":
		return move == "negated" || move == "huge"
	case d.harder == "more":
		return move != "half"
	case d.harder == "less":
		return move != "double"
	}
	return true
}

func nudged(v, factor, step float64, whole bool) float64 {
	if whole {
		return v + step
	}
	return v * factor
}

// A mutation is a number of a kit and what became of it.
type mutation struct {
	of    *subject
	n     manifest.Number
	name  string
	harms bool // it makes the kit harder to fly, and nothing else
	tree  *jsontree.Node
	out   outcome
}

// Every number of every demonstration kit, and everything that is done to it.
func mutations(t *testing.T, subjects []*subject, all []*direction) []*mutation {
	t.Helper()
	var list []*mutation
	for _, s := range subjects {
		numbers := s.kit.Numbers()
		for i, n := range numbers {
			d := directionOf(all, n)
			if d == nil {
				t.Errorf("directions.tsv does not say which way %s %s makes a kit harder to fly", n.Pointer, n.End)
				continue
			}
			for _, move := range moves {
				if !worthTrying(move.name, d, n) {
					continue
				}
				to := move.to(n.Value.SI, n.Whole)
				harms := d.harder == "more" && to > n.Value.SI || d.harder == "less" && to < n.Value.SI
				list = append(list, &mutation{of: s, n: n, name: move.name, harms: harms, tree: s.tree.With(n.Pointer, writtenAs(s, numbers, n, to))})
			}
			list = append(list, &mutation{of: s, n: n, name: "wrong unit", tree: s.tree.With(n.Pointer, wrongUnit(n))})
			if m := swap(s, numbers, i); m != nil && d.harder != "none" && !strings.Contains(n.Pointer, "/offers/") {
				list = append(list, m)
			}
		}
	}
	return list
}

// swap exchanges a number with its neighbour, the next in the same object that is written in the same way.
func swap(s *subject, numbers []manifest.Number, i int) *mutation {
	if i+1 == len(numbers) || path.Dir(numbers[i].Pointer) != path.Dir(numbers[i+1].Pointer) {
		return nil
	}
	a, b := s.tree.At(numbers[i].Pointer), s.tree.At(numbers[i+1].Pointer)
	if a == b || a.Kind != b.Kind || a.Text == b.Text {
		return nil
	}
	return &mutation{of: s, n: numbers[i], name: "swapped", tree: s.tree.With(numbers[i].Pointer, b.Text).With(numbers[i+1].Pointer, a.Text)}
}

// writtenAs is a number as a manifest writes it, with the other end of its range.
func writtenAs(s *subject, numbers []manifest.Number, n manifest.Number, held float64) string {
	text := func(n manifest.Number, held float64) string {
		switch {
		case n.Price:
			return strconv.FormatFloat(held, 'f', -1, 64)
		case s.tree.At(n.Pointer).Kind == jsontree.Number:
			return strconv.FormatFloat(held, 'g', 12, 64)
		}
		return unit.Quantity{SI: held, Dim: n.Value.Dim}.Exact()
	}
	if n.End == "" {
		return text(n, held)
	}
	for _, other := range numbers {
		if other.Pointer == n.Pointer && other.End == "high" && n.End == "low" {
			return text(n, held) + " to " + text(other, other.Value.SI)
		}
		if other.Pointer == n.Pointer && other.End == "low" && n.End == "high" {
			return text(other, other.Value.SI) + " to " + text(n, held)
		}
	}
	return ""
}

func wrongUnit(n manifest.Number) string {
	wrong := "3 kg"
	if n.Value.Dim == unit.DimMass {
		wrong = "3 m"
	}
	if n.End != "" {
		return wrong + " to " + wrong
	}
	return wrong
}

// modesty is the pack that asks for no more than nature gives: a kit that claims less for itself pleases it.
const modesty = "claims."

// The campaign: more than two thousand mutations. What makes a kit harder to fly, as directions.tsv says and no verdict of
// ours, never gives any MUST more margin, never takes one out of force, and so never turns NO-GO into GO; a number in the unit
// of something else is always refused. The tables show what became of every mutation, for people to read.
func TestNothingThatHarmsHelps(t *testing.T) {
	subjects, all := subjectsOf(t), directions(t)
	list := mutations(t, subjects, all)
	inParallel(len(list), func(i int) { list[i].out = list[i].of.try(list[i].tree) })
	harmed := 0
	for _, m := range list {
		about := fmt.Sprintf("%s: %s %s %s", m.of.id, m.n.Pointer, m.n.End, m.name)
		switch d := directionOf(all, m.n); {
		case m.name == "wrong unit" && m.out.refused == "":
			t.Errorf("%s is %s", about, m.out)
		case m.out.refused != "":
		case m.harms:
			harmed++
			for _, rule := range m.of.gains(m.out) {
				if id, _, _ := strings.Cut(rule, " "); !slices.Contains(d.gains, id) && !strings.HasPrefix(id, modesty) {
					t.Errorf("%s makes it harder, and %s gains", about, rule)
				}
			}
		case d.harder == "none" && m.name != "swapped":
			if gained := m.of.gains(m.out); len(gained) > 0 || m.out.verdict != rules.Go {
				t.Errorf("%s should not matter to any MUST, and it is %s, with a gain of %q", about, m.out, gained)
			}
		}
	}
	for _, d := range all {
		if !d.used {
			t.Errorf("directions.tsv: no kit has a number at %s", d.pointer)
		}
	}
	if len(list) < 3000 || harmed < 800 {
		t.Errorf("only %d mutations, of which %d do harm and are read", len(list), harmed)
	}
	t.Logf("%d mutations, of which %d make a kit harder to fly and are read", len(list), harmed)
	for _, s := range subjects {
		table(t, s.id+".tsv", numbersTable(s, list, all))
	}
}

func numbersTable(s *subject, list []*mutation, all []*direction) []string {
	lines := []string{
		"# What became of " + s.id + " when one number of it was changed: refused, GO, or the first MUST that is broken and how many more.",
		"# Written by go test ./cmd/internal/assess -update.",
		"pointer\tharder\tzero\tnegated\ta bit less\ta bit more\thalf\tdouble\thuge\twrong unit\tswapped",
	}
	columns := strings.Split(lines[len(lines)-1], "\t")
	var at string
	var cells []string
	flush := func() {
		if cells != nil {
			lines = append(lines, strings.TrimRight(strings.Join(cells, "\t"), "\t"))
		}
	}
	for _, m := range list {
		if m.of != s {
			continue
		}
		if here := strings.TrimSpace(m.n.Pointer + " " + m.n.End); here != at {
			flush()
			at, cells = here, make([]string, len(columns))
			cells[0], cells[1] = here, directionOf(all, m.n).harder
		}
		cells[slices.Index(columns, m.name)] = m.out.String()
	}
	flush()
	return lines
}

// A glance judges as an assessment does: on every fortieth mutation, both.
func TestGlancesJudgeAsAssessmentsDo(t *testing.T) {
	subjects := subjectsOf(t)
	list := mutations(t, subjects, directions(t))
	for i := 0; i < len(list); i += 40 {
		m := list[i]
		got := m.of.try(m.tree)
		if got.refused != "" {
			continue
		}
		a, err := Of(got.kit, m.of.packs, unit.SI)
		if err != nil {
			t.Fatal(err)
		}
		var broken []key
		for _, f := range a.Findings {
			if f.Level == rules.Must && f.Outcome != rules.Met {
				broken = append(broken, key{f.Rule, f.Subject})
			}
		}
		if a.Verdict != got.verdict || !slices.Equal(broken, got.broken) {
			t.Errorf("%s: %s %s: %s with %v broken, at a glance %s with %v", m.of.id, m.n.Pointer, m.name, a.Verdict, broken, got.verdict, got.broken)
		}
	}
}
