package change_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/change"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

func builtIn(t testing.TB) rules.Packs {
	t.Helper()
	ps, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

// side is a demonstration kit with overlays.
func side(t testing.TB, ps rules.Packs, kit string, overlays ...string) change.Side {
	t.Helper()
	base, ok := kits.Demo(kit)
	if !ok {
		t.Fatalf("there is no demonstration kit %q", kit)
	}
	var laid []manifest.Source
	for _, text := range overlays {
		laid = append(laid, manifest.Source{Name: "club.json", Data: []byte(text)})
	}
	m, err := manifest.Load(base, laid...)
	if err != nil {
		t.Fatal(err)
	}
	return change.Judge(kit, m, ps, unit.SI)
}

func between(t testing.TB, system unit.System, overlay string) *change.Comparison {
	t.Helper()
	ps := builtIn(t)
	return change.Between(side(t, ps, "fen-relay"), side(t, ps, "fen-relay", overlay), ps, system)
}

func TestWhatChanged(t *testing.T) {
	for name, c := range map[string]struct {
		overlay string
		want    []string // subject, state, then its lines
	}{
		"a mass": {`{"parts": {"BAT1": {"mass": "311 g"}}}`,
			[]string{"BAT1 changed", "mass: 298 g > 311 g, +13 g (+4.4 %)"}},
		"the same mass in other words": {`{"parts": {"BAT1": {"mass": "0.298 kg"}}}`, nil},
		"a note":                       {`{"parts": {"BAT1": {"x-note": "weighed on the club's scale"}}}`, nil},
		"a rating": {`{"parts": {"TX1": {"load": {"rated": "4.5 V to 5.5 V"}}}}`,
			[]string{"TX1 replaced", "supply voltage, rated: 4.75 V to 5.25 V > 4.5 V to 5.5 V"}},
		"a current": {`{"parts": {"TX1": {"load": {"current": {"transmit": "800 mA"}}}}}`,
			[]string{"TX1 replaced", "current on transmit: 750 mA > 800 mA, +50 mA (+6.7 %)"}},
		"a level in decibels": {`{"parts": {"RX1": {"receiver": {"sensitivity": "-121 dBm"}}}}`,
			[]string{"RX1 replaced", "sensitivity: -118 dBm > -121 dBm, −3 dB"}},
		"a price": {`{"parts": {"FLY1": {"offers": [{"supplier": "S2", "order_code": "22-311", "pack": 1, "price": "11.30", "lead_time": "4 d"}]}}}`,
			[]string{"FLY1 changed", "at S2 22-311: price: 9.80 > 11.30, +1.50 (+15 %)"}},
		"the same price": {`{"parts": {"FLY1": {"offers": [{"supplier": "S2", "order_code": "22-311", "pack": 1, "price": "9.8", "lead_time": "96 h"}]}}}`, nil},
		"another offer": {`{"parts": {"FLY1": {"offers": [{"supplier": "S1", "order_code": "H-2", "price": "8.00"}]}}}`,
			[]string{"FLY1 changed", "at S2 22-311: price: 9.80 > ", "at S1 H-2: price:  > 8.00"}},
		"a site":        {`{"station": {"site": {"hottest": "30 degC"}}}`, []string{"site changed", "hottest air: 26 degC > 30 degC, +4 °C"}},
		"a tax":         {`{"budget": {"tax": "25 %"}}`, []string{"budget changed", "tax: 20 % > 25 %, +5 points"}},
		"a lost lamp":   {`{"parts": {"LMP1": null}}`, []string{"LMP1 gone"}},
		"a new part":    {`{"parts": {"ZIP1": {"name": "bag", "place": "ground"}}}`, []string{"ZIP1 new", "what it is:  > bag", "where it is:  > ground"}},
		"a waiver":      {`{"waivers": {"cost.reserve": "we know"}}`, []string{"waivers new", "set aside cost.reserve:  > we know"}},
		"a ground name": {`{"ground": {"boat": {"height": "3 m"}}}`, []string{"boat changed", "height: 2.5 m > 3 m, +50 cm (+20 %)"}},
		"a step": {`{"steps": {"preflight": [{"id": "case-high", "text": "Case on the trolley.", "parts": ["BAT1"], "roles": ["quartermaster"]}, {"id": "flag", "text": "Raise the flag."}]}}`,
			[]string{"steps changed", "preflight step case-high: what to do: Battery case stands on the trolley, above the wheels. > Case on the trolley.",
				"preflight step flag: what to do:  > Raise the flag."}},
		"a caution": {`{"cautions": [{"signal": "warning", "hazard": "Bulls graze here.", "consequence": "They charge.", "avoidance": "Close the gate."}]}`,
			[]string{"cautions changed", "caution: hazard: The meadow floods without warning. > ", "caution: hazard:  > Bulls graze here."}},
	} {
		var got []string
		for _, s := range between(t, unit.SI, c.overlay).Subjects {
			got = append(got, s.Title()+" "+string(s.State))
			if s.State == change.Gone {
				continue
			}
			for _, l := range s.Lines {
				text := l.What + ": " + l.Before + " > " + l.After
				if l.Difference != "" {
					text += ", " + l.Difference
				}
				got = append(got, text)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\ngot  %q\nwant %q", name, got, c.want)
		}
	}
}

func TestOrderOfStepsIsTold(t *testing.T) {
	ps := builtIn(t)
	two := func(first, second string) string {
		step := func(id string) string { return `{"id": "` + id + `", "text": "Do ` + id + `."}` }
		return `{"steps": {"recovery": [` + step(first) + `, ` + step(second) + `]}}`
	}
	c := change.Between(side(t, ps, "fen-relay", two("a", "b")), side(t, ps, "fen-relay", two("b", "a")), ps, unit.SI)
	if len(c.Subjects) != 1 || len(c.Subjects[0].Lines) != 1 || c.Subjects[0].Lines[0].What != "order of the recovery steps" {
		t.Errorf("got %+v", c.Subjects)
	}
}

func TestReadersOfUSUnits(t *testing.T) {
	c := between(t, unit.US, `{"parts": {"BAT1": {"mass": "311 g"}}, "station": {"site": {"hottest": "30 degC"}}}`)
	var got []string
	for _, s := range c.Subjects {
		got = append(got, s.Lines[0].Before+" > "+s.Lines[0].After+" "+s.Lines[0].Difference)
	}
	want := []string{"79 °F > 86 °F +7.2 °F", "10.5 oz > 11 oz +0.459 oz (+4.4 %)"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Each part is put in the place of another so that it fails in one way; the judgement must say so in that way.
func TestAPartThatDoesNotFit(t *testing.T) {
	for way, c := range map[change.Way]struct{ ref, overlay string }{
		change.Voltage:   {"RX1", `{"parts": {"RX1": {"name": "receiver for 4 V", "load": {"rated": "3.8 V to 4.4 V"}}}}`},
		change.Current:   {"REG1", `{"parts": {"REG1": {"name": "buck converter, 0.8 A", "converter": {"greatest_current": "800 mA"}}}}`},
		change.Endurance: {"BAT1", `{"parts": {"BAT1": {"name": "small pack", "battery": {"capacity": "300 mAh"}}}}`},
		change.Level:     {"CTL1", `{"parts": {"CTL1": {"name": "controller at 5 V"}}, "signals": {"PTT": {"drives": "0 V to 5 V"}}}`},
		change.Weight:    {"BOX1", `{"parts": {"BOX1": {"name": "steel enclosure", "mass": "2.9 kg", "quantity": 1, "antenna": {"gain": "0 dBi"}}}}`},
		change.Reach:     {"ANT1", `{"parts": {"ANT1": {"name": "short antenna", "antenna": {"gain": "-9 dBi"}}}}`},
		change.Isolation: {"FIL1", `{"parts": {"FIL1": {"name": "filter, 40 dB", "filter": {"rejection": "40 dB"}}}}`},
		change.Price:     {"RX1", `{"parts": {"RX1": {"name": "gold receiver", "offers": [{"supplier": "S1", "price": "400.00"}]}}}`},
	} {
		comparison := between(t, unit.SI, c.overlay)
		if way == change.Level { // the levels of a line are said of the line, so the controller is judged with it
			comparison = between(t, unit.SI, c.overlay)
			if comparison.After.Verdict == rules.Go {
				t.Error("a line that drives 5 V into 3.6 V is GO")
			}
			continue
		}
		i := slices.IndexFunc(comparison.Fits, func(f change.Fit) bool { return f.Subject.Ref == c.ref })
		if i < 0 {
			t.Errorf("%s: %s is not judged", way, c.ref)
			continue
		}
		fit := comparison.Fits[i]
		if fit.Holds() {
			t.Errorf("%s: %s is said to fit", way, c.ref)
		}
		for _, a := range fit.Aspects {
			if a.Way != way {
				continue
			}
			tightest, touched := a.Tightest()
			if !touched || a.Outcome() != rules.NotMet || tightest.After.Outcome != rules.NotMet {
				t.Errorf("%s: %s touches %d rules there, and the outcome is %s", way, c.ref, len(a.Touched), a.Outcome())
			}
		}
	}
}

func TestAPartThatFits(t *testing.T) {
	c := between(t, unit.SI, `{"parts": {"TX1": {"name": "transmitter, 1 W, lighter", "mass": "29 g"}}}`)
	if len(c.Fits) != 1 || !c.Fits[0].Holds() || !c.Fits[0].Alone || !slices.Equal(c.Fits[0].Unsaid, []string{"AF-OUT", "PTT"}) {
		t.Fatalf("got %+v", c.Fits)
	}
	touched := map[change.Way]int{}
	for _, a := range c.Fits[0].Aspects {
		touched[a.Way] = len(a.Touched)
	}
	for _, way := range []change.Way{change.Voltage, change.Current, change.Endurance, change.Level, change.Weight, change.Reach, change.Isolation, change.Price} {
		if touched[way] == 0 {
			t.Errorf("a transmitter touches no rule of %s", way)
		}
	}
}

// A module on a rail of its own needs the converter that makes the rail: neither can be tried alone.
func TestPartsThatStandOrFallTogether(t *testing.T) {
	c := between(t, unit.SI, `{"parts": {
  "REG7": {"name": "boost converter", "place": "aloft", "mass": "5 g", "mass_basis": "weighed", "converter": {"kind": "boost", "from": "BAT", "to": "15V", "output": "15 V", "tolerance": "2 %", "efficiency": "85 %", "input": "3 V to 14 V", "greatest_current": "1 A", "quiescent": "1 mA"}},
  "LMP7": {"name": "search light", "place": "aloft", "mass": "20 g", "mass_basis": "weighed", "load": {"rail": "15V", "rated": "10 V to 14 V", "current": {"transmit": "10 mA", "receive": "10 mA", "standby": "10 mA"}}}}}`)
	for _, f := range c.Fits {
		if alone := f.Subject.Ref == "REG7"; f.Alone != alone {
			t.Errorf("%s: judged alone %v", f.Subject.Ref, f.Alone)
		}
		if f.Subject.Ref == "LMP7" && f.Holds() {
			t.Error("a light for 14 V fits a rail of 15 V")
		}
	}
	if len(c.Fits) != 2 {
		t.Errorf("%d parts were judged", len(c.Fits))
	}
}

// What each change does alone: the shares are those of kits with that one change, and the change that breaks a rule is named.
func TestWhatEachChangeDoesAlone(t *testing.T) {
	ps := builtIn(t)
	heavy, hot := `{"parts": {"BAT1": {"mass": "600 g"}}}`, `{"station": {"site": {"hottest": "35 degC"}}}`
	base := side(t, ps, "fen-relay")
	both := change.Between(base, side(t, ps, "fen-relay", heavy, hot), ps, unit.SI)
	alone := map[string]*change.Comparison{
		"BAT1": change.Between(base, side(t, ps, "fen-relay", heavy), ps, unit.SI),
		"site": change.Between(base, side(t, ps, "fen-relay", hot), ps, unit.SI),
	}
	compared := 0
	for _, m := range both.Margins {
		for _, a := range m.Alone {
			for _, one := range alone[a.Subject].Margins {
				if one.Now().Rule == m.Now().Rule && one.Now().Subject == m.Now().Subject && !math.IsNaN(one.Points()) {
					compared++
					if math.Abs(one.Points()-a.Shift.Points()) > 1e-12 {
						t.Errorf("%s: %s alone does %v, want %v", m.Now().Rule, a.Subject, a.Shift.Points(), one.Points())
					}
				}
			}
		}
	}
	if compared < 8 {
		t.Errorf("only %d shares were compared", compared)
	}
}

func TestTheCrewReadsOtherwise(t *testing.T) {
	c := between(t, unit.SI, `{"station": {"wind": {"speed": "2.0 m/s"}, "site": {"hottest": "20 degC"}}}`)
	lists := map[string]int{}
	for _, o := range c.Crew {
		lists[o.List]++
		if o.Before == o.After {
			t.Errorf("%s: %q is told though it reads the same", o.List, o.Text)
		}
	}
	if lists["preflight"] < 3 || lists["cautions"] < 1 {
		t.Errorf("got %v", lists)
	}
}

// A kit against itself says nothing; the other way round the same things are told.
func TestComparisonsAreFair(t *testing.T) {
	ps := builtIn(t)
	sides := []change.Side{side(t, ps, "fen-relay"), side(t, ps, "marsh-data"), side(t, ps, "ridge-sphere"), side(t, ps, "fen-relay", `{"parts": {"BAT1": {"mass": "9 kg"}}}`)}
	for _, a := range sides {
		for _, b := range sides {
			there, back := change.Between(a, b, ps, unit.SI), change.Between(b, a, ps, unit.SI)
			if len(there.Subjects) != len(back.Subjects) || len(there.Margins) != len(back.Margins) {
				t.Errorf("%s and %s: %d subjects and %d margins one way, %d and %d the other", a.Name, b.Name, len(there.Subjects), len(there.Margins), len(back.Subjects), len(back.Margins))
			}
			if a.Name == b.Name && a.Verdict == b.Verdict && len(there.Subjects) > 0 {
				t.Errorf("%s differs from itself: %+v", a.Name, there.Subjects)
			}
			for i := range there.Margins[1:] {
				if there.Margins[i].Kind() > there.Margins[i+1].Kind() {
					t.Errorf("%s stands before %s", there.Margins[i].Kind(), there.Margins[i+1].Kind())
				}
			}
		}
	}
}

// Of two kits no part takes the place of another, whatever its reference.
func TestTwoKits(t *testing.T) {
	ps := builtIn(t)
	c := change.Between(side(t, ps, "fen-relay"), side(t, ps, "ridge-sphere"), ps, unit.SI)
	if c.OneKit() || len(c.Fits) > 0 || len(c.Subjects) < 10 {
		t.Errorf("one kit %v, %d parts judged, %d changes", c.OneKit(), len(c.Fits), len(c.Subjects))
	}
	renamed := change.Between(side(t, ps, "fen-relay"), side(t, ps, "fen-relay", `{"kit": {"id": "ours"}, "parts": {"TX1": {"name": "other"}}}`), ps, unit.SI)
	if !renamed.OneKit() || len(renamed.Fits) != 1 {
		t.Error("a club's own name makes another kit of it")
	}
}

func TestReport(t *testing.T) {
	c := between(t, unit.SI, `{"made_for": {"id": "fen-relay", "revision": "1.0.0"}, "parts": {"TX1": {"name": "other", "load": {"current": {"transmit": "4 A"}}}, "BAT1": {"mass": "310 g"}}}`)
	text, err := json.Marshal(c.Report())
	if err != nil {
		t.Fatal(err)
	}
	var r struct {
		Format        string
		Before, After struct{ Verdict, Digest string }
		Changes       []struct{ Ref, State string }
		Margins       []struct {
			Rule, Kind string
			Points     *float64
			Alone      []struct{ Change string }
		}
		Parts []struct {
			Ref     string
			Fits    bool
			Aspects []struct{ Outcome *string }
		}
	}
	if err := json.Unmarshal(text, &r); err != nil {
		t.Fatal(err)
	}
	if r.Format != "hoistbook-comparison/1" || r.Before.Verdict != "GO" || r.After.Verdict != "NO-GO" || len(r.Changes) != 2 || r.Changes[1].State != "replaced" {
		t.Errorf("got %+v", r)
	}
	if m := r.Margins[0]; m.Kind != "broken" || m.Points == nil || len(m.Alone) == 0 {
		t.Errorf("the worst margin is %+v", m)
	}
	if len(r.Parts) != 1 || r.Parts[0].Fits || len(r.Parts[0].Aspects) != len(change.Ways) {
		t.Errorf("the judgement is %+v", r.Parts)
	}
	if !strings.Contains(string(text), "made for revision 1.0.0") {
		t.Error("the overlay for another revision is not told")
	}
}
