package size_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/size"
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

var loaded = sync.OnceValues(func() (rules.Packs, error) { return rules.Load(kits.Catalogue{}, packs.Texts()...) })

func builtIn(t testing.TB) rules.Packs {
	t.Helper()
	all, err := loaded()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

var reports = map[string]*size.Report{}

// sized is the report of a demonstration kit, made once.
func sized(t *testing.T, id string) *size.Report {
	t.Helper()
	if reports[id] == nil {
		reports[id] = size.Of(assessed(t, builtIn(t), id), unit.SI)
	}
	return reports[id]
}

// assessed reads a demonstration kit with overlays as text, and judges it the long way.
func assessed(t testing.TB, ps rules.Packs, id string, overlays ...string) *assess.Assessment {
	t.Helper()
	base, ok := kits.Demo(id)
	if !ok {
		t.Fatalf("there is no demonstration kit %q", id)
	}
	var laid []manifest.Source
	for i, o := range overlays {
		laid = append(laid, manifest.Source{Name: fmt.Sprintf("overlay %d", i), Data: []byte(o)})
	}
	m, err := manifest.Load(base, laid...)
	if err != nil {
		t.Fatal(err)
	}
	a, err := assess.Of(m, ps, unit.SI)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// overlay writes a value at a pointer as a merge patch.
func overlay(pointer, value string) string {
	names := strings.Split(strings.TrimPrefix(pointer, "/"), "/")
	return `{"` + strings.Join(names, `": {"`) + `": ` + fmt.Sprintf("%q", value) + strings.Repeat("}", len(names))
}

func exact(a size.Amount) string { return a.Quantity.Exact() }

// change is the overlay that changes what a limit varies.
func change(l size.Limit, to size.Amount) string {
	if !strings.HasPrefix(l.Varied, "/") {
		return `{"parts": {"MORE": {"name": "ballast", "place": "aloft", "mass": "` + exact(to) + `", "mass_basis": "weighed", "offers": [{"supplier": "S", "price": "0.00"}]}},
			"suppliers": {"S": {"name": "nobody"}}}`
	}
	return overlay(l.Varied, exact(to))
}

func rulesNotMet(a *assess.Assessment) map[string]bool {
	out := map[string]bool{}
	for _, f := range a.Findings {
		if f.Level == rules.Must && f.Outcome != rules.Met {
			out[f.Rule+" "+f.Subject] = true
		}
	}
	return out
}

// What a limit says is proved by reading the changed manifest from text and judging it whole: the last value is GO, its
// neighbour is not, and what the neighbour does not meet is what is said to bind.
func TestLimitsAreProved(t *testing.T) {
	ps := builtIn(t)
	for _, id := range kits.Demos() {
		for _, r := range []*size.Report{sized(t, id), size.Of(assessed(t, ps, id), unit.US)} {
			if len(r.Limits) != 4 {
				t.Fatalf("%s: %d limits", id, len(r.Limits))
			}
			for _, l := range r.Limits {
				if !l.Go.Known() || !l.NoGo.Known() || len(l.Binds) == 0 || len(l.Aside) > 0 {
					t.Errorf("%s: %s: %+v", id, l.What, l)
					continue
				}
				if good := assessed(t, ps, id, change(l, l.Go)); good.Verdict != rules.Go {
					t.Errorf("%s: %s of %s is %s: %v", id, l.What, l.Go.Text(), good.Verdict, rulesNotMet(good))
				}
				bad := rulesNotMet(assessed(t, ps, id, change(l, l.NoGo)))
				for _, b := range l.Binds {
					if !bad[b.Rule+" "+b.Subject] {
						t.Errorf("%s: %s: at %s %s is met", id, l.What, l.NoGo.Text(), b.Rule)
					}
				}
				if len(bad) != len(l.Binds) {
					t.Errorf("%s: %s: at %s these are not met: %v, want %v", id, l.What, l.NoGo.Text(), bad, l.Binds)
				}
				if l.Go.Text() == l.NoGo.Text() {
					t.Errorf("%s: %s: %s and its neighbour print alike", id, l.What, l.Go.Text())
				}
			}
		}
	}
}

// The line with the most coverage is GO and no line near it within the rules covers more.
func TestTheBestLineIsProved(t *testing.T) {
	ps := builtIn(t)
	for _, id := range kits.Demos() {
		h := sized(t, id).Height
		set := func(line, lowest float64) string {
			return fmt.Sprintf(`{"station": {"tether_out": "%.6f m", "lowest_height": "%.6f m"}}`, line, lowest)
		}
		best := assessed(t, ps, id, set(h.Best.Line.SI, h.Best.Lowest.SI))
		covers, _ := best.Facts.Lookup("radio.coverage_km")
		if best.Verdict != rules.Go || math.Abs(covers.Quantity.SI/h.Best.Coverage.SI-1) > 1e-6 || covers.Quantity.SI < h.Now.Coverage.SI {
			t.Errorf("%s: with %s of line it is %s and covers %v, want GO and %s", id, h.Best.Line.Text(), best.Verdict, covers, h.Best.Coverage.Text())
		}
		if len(h.Binds) == 0 {
			t.Errorf("%s: nothing binds the best line: %s", id, h.Why)
			continue
		}
		beyond := rulesNotMet(assessed(t, ps, id, set(h.NoGo.SI, h.Best.Lowest.SI)))
		if !beyond[h.Binds[0].Rule+" "+h.Binds[0].Subject] {
			t.Errorf("%s: with %s of line %s is met", id, h.NoGo.Text(), h.Binds[0].Rule)
		}
	}
}

// A kit that is NO-GO learns what would make it fly, and what is beside the point.
func TestWhatMakesItFly(t *testing.T) {
	ps := builtIn(t)
	const unreachable = `{"coverage": {"wanted": "20 km"}}`
	r := size.Of(assessed(t, ps, "fen-relay", `{"parts": {"ENV1": {"envelope": {"fill_volume": "3.2 m3"}}}}`, unreachable), unit.SI)
	for i, better := range []func(l size.Limit) bool{
		func(l size.Limit) bool { return l.Go.SI > 3.2 && l.NoGo.SI < l.Go.SI },
		func(l size.Limit) bool { return l.Go.SI > 3.2 && l.NoGo.SI > l.Go.SI },
		func(l size.Limit) bool { return l.Go.SI < 0 },
		func(l size.Limit) bool { return l.Go.SI < l.Now.SI },
	} {
		l := r.Limits[i]
		if !l.Go.Known() || !better(l) || len(l.Aside) != 1 || l.Aside[0].Rule != "radio.coverage" {
			t.Errorf("%s: %+v", l.What, l)
		}
	}
	enough := assessed(t, ps, "fen-relay", change(r.Limits[0], r.Limits[0].Go))
	if enough.Verdict != rules.Go {
		t.Errorf("a fill of %s does not do: %v", r.Limits[0].Go.Text(), rulesNotMet(enough))
	}
	if r.Height.Aside == nil || !(r.Height.Best.Coverage.SI > 0) {
		t.Errorf("a distance that no line reaches: %+v", r.Height)
	}
}

// What nobody can know is not shown, and no number stands for it.
func TestSilenceIsNoLimit(t *testing.T) {
	ps := builtIn(t)
	for name, o := range map[string]string{
		"no loss of gas":   `{"parts": {"ENV1": {"envelope": {"gas_loss": null}}}}`,
		"no line paid out": `{"station": {"tether_out": null}}`,
		"no wind":          `{"station": {"wind": null}}`,
		"no envelope":      `{"parts": {"ENV1": {"envelope": null}}}`,
		"no station":       `{"station": null}`,
	} {
		r := size.Of(assessed(t, ps, "fen-relay", o), unit.SI)
		for _, l := range r.Limits {
			if l.Go.Known() || l.Why == "" {
				t.Errorf("%s: %s: got %s (%q), want none and a reason", name, l.What, l.Go.Text(), l.Why)
			}
		}
		if r.Height.Best.Line.Known() || r.Height.Why == "" || r.Verdict != rules.NoGo {
			t.Errorf("%s: %+v", name, r.Height)
		}
		if _, err := json.Marshal(r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A line that breaks at any fill is said to.
func TestNothingMakesItFly(t *testing.T) {
	ps := builtIn(t)
	r := size.Of(assessed(t, ps, "fen-relay", `{"parts": {"TET1": {"tether": {"breaking_strength": "300 N"}}}}`), unit.SI)
	for _, l := range r.Limits {
		if l.Go.Known() || len(l.Binds) == 0 {
			t.Errorf("%s: %+v", l.What, l)
		}
	}
}

// The rows of the tables are what Assess computes for a manifest read from text.
func TestTablesAreWhatAssessComputes(t *testing.T) {
	ps := builtIn(t)
	for _, id := range kits.Demos() {
		for _, table := range sized(t, id).Tables {
			if table.Why != "" || len(table.Rows) < 4 {
				t.Errorf("%s: %s: %d rows: %s", id, table.Title, len(table.Rows), table.Why)
			}
			now := 0
			for _, row := range table.Rows {
				if row.Now {
					now++
				}
				if row.Cells[0].SI == 0 { // a wind of nothing is written "0 m/s"
					continue
				}
				a := assessed(t, ps, id, overlay(table.Varied, row.Cells[0].Quantity.Exact()))
				if (a.Verdict == rules.Go) != row.Go {
					t.Errorf("%s: %s: %s is %s and said to be GO: %v", id, table.Title, row.Cells[0].Text(), a.Verdict, row.Go)
				}
				for i, c := range table.Columns[1:] {
					want, _ := a.Facts.Lookup(c.Fact)
					got := row.Cells[i+1]
					if c.Words && got.Word != want.Text || !c.Words && want.Known() && !(math.Abs(got.SI-want.Quantity.SI) <= 1e-6*math.Abs(want.Quantity.SI)) {
						t.Errorf("%s: %s: %s: %s is %s, want %+v", id, table.Title, row.Cells[0].Text(), c.Fact, got.Text(), want)
					}
				}
			}
			if now != 1 {
				t.Errorf("%s: %s: %d rows are the kit as designed", id, table.Title, now)
			}
		}
	}
}

// Effects worked out by hand from the definition of a margin: value/limit − 1 of what must be at least its limit,
// 1 − value/limit of what may be at most.
func TestSensitivityByHand(t *testing.T) {
	s := sized(t, "fen-relay").Sensitivity
	margins := map[string]size.Margin{s.Thinnest.Rule: s.Thinnest}
	for _, m := range s.Others {
		margins[m.Rule] = m
		if m.Relative < s.Thinnest.Relative {
			t.Errorf("%s at %v is thinner than the thinnest at %v", m.Rule, m.Relative, s.Thinnest.Relative)
		}
	}
	for _, c := range []struct {
		rule, pointer, step string
		changed             func(margin float64) (percent, step float64)
	}{
		{"power.module-low", "/parts/TX1/load/rated", "+0.1 V", func(m float64) (float64, float64) { return (1+m)/1.01 - 1, (1+m)*4.75/4.85 - 1 }},
		{"tether.height", "/station/lowest_height", "+1 m", func(m float64) (float64, float64) { return (1+m)/1.01 - 1, (1+m)*34/35 - 1 }},
	} {
		m, ok := margins[c.rule]
		if !ok {
			t.Errorf("%s is not among the thin margins", c.rule)
			continue
		}
		found := false
		for _, change := range m.Matters {
			if change.Pointer != c.pointer || change.End == "high" {
				continue
			}
			found = true
			percent, step := c.changed(float64(m.Relative))
			if math.Abs(float64(m.Relative+change.Effect)-percent) > 1e-9 || math.Abs(float64(m.Relative+change.ByStep)-step) > 1e-9 || change.Step != c.step {
				t.Errorf("%s: %s: got %v and by %s %v, want %v and by %s %v", c.rule, c.pointer, m.Relative+change.Effect, change.Step, m.Relative+change.ByStep, percent, c.step, step)
			}
		}
		if !found {
			t.Errorf("%s: %s is not among what matters", c.rule, c.pointer)
		}
	}
	for i := 1; i < len(s.Thinnest.Matters); i++ {
		if math.Abs(float64(s.Thinnest.Matters[i].Effect)) > math.Abs(float64(s.Thinnest.Matters[i-1].Effect)) {
			t.Errorf("what matters is not in order: %+v", s.Thinnest.Matters)
		}
	}
}

// Sizing twice gives the same bytes, whatever the cores do first.
func TestSameKitSameBytes(t *testing.T) {
	first, err := json.Marshal(sized(t, "marsh-data"))
	if err != nil {
		t.Fatal(err)
	}
	second, _ := json.Marshal(size.Of(assessed(t, builtIn(t), "marsh-data"), unit.SI))
	if string(first) != string(second) {
		t.Error("two runs differ")
	}
	if !strings.HasPrefix(string(first), `{"format":"hoistbook-size/1","kit":{"id":"marsh-data"`) {
		t.Errorf("the report begins with %.80s", first)
	}
}

func TestNames(t *testing.T) {
	for pointer, want := range map[string]string{
		"/parts/BAT1/mass": "BAT1 mass", "/station/wind/speed": "station wind speed", "/parts/ENV1/envelope/fill_volume": "ENV1 envelope fill volume",
	} {
		if got := size.Name(pointer, ""); got != want {
			t.Errorf("%s: got %q, want %q", pointer, got, want)
		}
	}
	if got := size.Name("/parts/TX1/load/rated", "low"); got != "TX1 load rated, low" {
		t.Errorf("got %q", got)
	}
}

func BenchmarkSize(b *testing.B) {
	a := assessed(b, builtIn(b), kits.FirstDemo)
	for b.Loop() {
		size.Of(a, unit.SI)
	}
}
