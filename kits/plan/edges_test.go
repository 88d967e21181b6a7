package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits/unit"
)

func has(p Plan, gap string) bool {
	return slices.ContainsFunc(p.Gaps, func(g string) bool { return strings.Contains(g, gap) })
}

// Twelve hours on sets of 4.5 h with what is known or not known about recharging, a sentence each.
func TestWhatThePlanSays(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Station)
		want   string // outcome: reason; changes, sets, rotation, chargers
	}{
		{"sets enough", func(s *Station) {}, "enough: 3 sets last without recharging; 2 changes, 3 sets, rotation 3, chargers 0"},
		{"one set enough", func(s *Station) { s.Duration, s.Sets = 4*hour, 1 }, "enough: 1 set lasts without recharging; 0 changes, 1 sets, rotation 1, chargers 0"},
		{"no charger", func(s *Station) { s.Sets = 2 }, "not enough: recharging does not keep up: 2 sets with 0 chargers; 2 changes, 3 sets, rotation 3, chargers 1"},
		{"one charger", func(s *Station) { s.Sets, s.Chargers = 2, 1 }, "recharged: recharging keeps up: 2 sets with 1 charger; 2 changes, 3 sets, rotation 2, chargers 1"},
		{"one set and a charger", func(s *Station) { s.Sets, s.Chargers = 1, 1 }, "not enough: recharging does not keep up: 1 set with 1 charger; 2 changes, 3 sets, rotation 2, chargers NaN"},
		{"no charge time", func(s *Station) { s.ChargeTime = unit.Duration(math.NaN()) }, "enough: 3 sets last without recharging; 2 changes, 3 sets, rotation 3, chargers 0"},
		{"one set, no charge time", func(s *Station) { s.Duration, s.Sets, s.ChargeTime = 4*hour, 1, unit.Duration(math.NaN()) }, "enough: 1 set lasts without recharging; 0 changes, 1 sets, rotation 1, chargers 0"},
		{"too few, no charge time", func(s *Station) { s.Sets, s.ChargeTime = 2, unit.Duration(math.NaN()) }, "not known: 2 sets do not last without recharging, and charge time or chargers are not known; 2 changes, 3 sets, rotation 3, chargers NaN"},
		{"one, no chargers known", func(s *Station) { s.Sets, s.Chargers = 1, unit.Count(math.NaN()) }, "not known: 1 set does not last without recharging, and charge time or chargers are not known; 2 changes, 3 sets, rotation 3, chargers NaN"},
		{"endless chargers", func(s *Station) { s.Sets, s.Chargers = 2, 1001 }, "not known: 2 sets do not last without recharging, and charge time or chargers are not known; 2 changes, 3 sets, rotation 3, chargers NaN"},
		{"very many chargers", func(s *Station) { s.Sets, s.Chargers = 2, 1000 }, "recharged: recharging keeps up: 2 sets with 1000 chargers; 2 changes, 3 sets, rotation 2, chargers 1"},
		{"no endurance", func(s *Station) { s.Endurance = 0 }, "not known: the changes of battery are not known; NaN changes, NaN sets, rotation NaN, chargers NaN"},
	} {
		s := station()
		c.change(&s)
		p := Make(s)
		got := fmt.Sprintf("%s: %s; %v changes, %v sets, rotation %v, chargers %v", p.Outcome, p.Reason, float64(p.Changes), float64(p.Sets), float64(p.Rotation), float64(p.Chargers))
		if got != c.want {
			t.Errorf("%s: got  %s\nwant %s", c.name, got, c.want)
		}
	}
}

// With one charger of 3 h for three sets of 2 h, the sets queue before it: set 1 is back at 5:00, set 2, off at 4:00, at 8:00.
func TestSetsQueueBeforeACharger(t *testing.T) {
	s := station()
	s.Duration, s.Endurance, s.Reserve, s.Sets, s.Chargers, s.ChargeTime, s.GasLoss = 11*hour, 2*hour, 0, 4, 1, 3*hour, 0
	want := `0:00 station on the air with battery set 1
2:00 change the battery: set 1 off, set 2 on
4:00 change the battery: set 2 off, set 3 on
5:00 battery set 1 is charged again
6:00 change the battery: set 3 off, set 4 on
8:00 battery set 2 is charged again
8:00 change the battery: set 4 off, set 1 on
10:00 change the battery: set 1 off, set 2 on
11:00 end of the station`
	if got := timetable(Make(s)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	s.Chargers = 2
	if got := timetable(Make(s)); !strings.Contains(got, "7:00 battery set 2 is charged again") {
		t.Errorf("with two chargers:\n%s", got)
	}
}

// As far as it is known: a plan without chargers goes on until the sets are used up, and says nothing more.
func TestThePlanGoesAsFarAsItIsKnown(t *testing.T) {
	s := station()
	s.Sets, s.ChargeTime = 2, unit.Duration(math.NaN())
	p := Make(s)
	want := `0:00 station on the air with battery set 1
4:30 change the battery: set 1 off, set 2 on
12:00 end of the station`
	if got := timetable(p); got != want || !has(p, "charge time or number of chargers is not known") {
		t.Errorf("got\n%s\nwant\n%s\ngaps %q", got, want, p.Gaps)
	}
	if p.Hours[11].Set != 2 || p.Hours[11].Left != 0 {
		t.Errorf("at 11:00 set %d has %v left", p.Hours[11].Set, p.Hours[11].Left)
	}
}

// An hour tells what is on after what happens in it; the gas is that since the last top-up, and a battery never less than empty.
func TestHours(t *testing.T) {
	s := station()
	s.Duration, s.Endurance, s.Reserve, s.Sets, s.GasLoss, s.TopUpAt = 49*hour, 10*hour, 0, 8, 0.2, 0.9
	p := Make(s)
	// 0.8^(t in days) = 0.9 at 11.33 h: topped up at the change before, 10:00, then at 20:00, 30:00, 40:00.
	if p.TopUps != 4 || len(p.Hours) != 49 || p.OffAir != 4*8*minute+4*7*minute {
		t.Fatalf("%v top-ups, %d hours, %v off the air", p.TopUps, len(p.Hours), p.OffAir)
	}
	for _, c := range []struct {
		at        int
		set       int
		left, gas float64
	}{{0, 1, 1, 1}, {9, 1, 0.1, math.Pow(0.8, 9.0/24)}, {10, 2, 1, 1}, {15, 2, 0.5, math.Pow(0.8, 5.0/24)}, {41, 5, 0.9, math.Pow(0.8, 1.0/24)}, {48, 5, 0.2, math.Pow(0.8, 8.0/24)}} {
		h := p.Hours[c.at]
		if h.At != unit.Duration(c.at)*hour || h.Set != c.set || !(math.Abs(float64(h.Left)-c.left) <= 1e-9) || !(math.Abs(float64(h.Gas)-c.gas) <= 1e-9) {
			t.Errorf("at %d:00 got %+v, want set %d with %v and %v of the gas", c.at, h, c.set, c.left, c.gas)
		}
	}
	if h := Make(station()).Hours; h[11].Set != 3 { // 12:00 is the end and no hour of its own
		t.Errorf("the last hour is %+v", h[len(h)-1])
	}
	s.Endurance = unit.Duration(math.NaN())
	for _, h := range Make(s).Hours {
		if h.Set != 0 || !math.IsNaN(float64(h.Left)) {
			t.Fatalf("with an unknown endurance set %d has %v", h.Set, h.Left)
		}
	}
	s = station()
	s.Sets = 1 // none is charged at 4:30
	short := Make(s)
	if h := short.Hours[5]; h.Set != 0 || !math.IsNaN(float64(h.Left)) || short.Hours[4].Set != 1 {
		t.Errorf("after the last set %+v, before %+v", h, short.Hours[4])
	}
	s.Duration = 1000 * hour
	if p := Make(s); len(p.Hours) != 1000 || has(p, "hours that are listed") {
		t.Errorf("%d hours of a thousand, gaps %q", len(p.Hours), p.Gaps)
	}
	s.Duration = 1000*hour + 2
	if p := Make(s); len(p.Hours) != 0 || !has(p, "the station is longer than the 1000 hours that are listed") {
		t.Errorf("%d hours, gaps %q", len(p.Hours), p.Gaps)
	}
}

// ⌈12 h/10 min⌉ = 72 identifications, one more for a second more; none are counted without an interval.
func TestIdentifications(t *testing.T) {
	for _, c := range []struct {
		every, length unit.Duration
		want          float64
	}{{10 * minute, 12 * hour, 72}, {10 * minute, 12*hour + 1, 73}, {0.5, 1, 2}, {0, 12 * hour, math.NaN()}, {-1, 12 * hour, math.NaN()}, {unit.Duration(math.Inf(1)), 12 * hour, math.NaN()}} {
		s := station()
		s.Identify, s.Duration = c.every, c.length
		if got := float64(Make(s).Identifications); got != c.want && !(math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("every %v for %v: %v, want %v", c.every, c.length, got, c.want)
		}
	}
}

// What is needed to plan the gas is named when it is missing or makes no sense, and a tight envelope needs none of it.
func TestGasThatCannotBePlanned(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name   string
		change func(*Station)
		gap    string
		topUps float64
	}{
		{"no loss is known", func(s *Station) { s.GasLoss = unit.Loss(nan) }, "the loss of gas is not known", nan},
		{"all is lost in a day", func(s *Station) { s.GasLoss = 1 }, "the loss of gas is not known", nan},
		{"nearly all is lost in a day", func(s *Station) { s.GasLoss, s.Duration = 0.999, hour/60 }, "", 0},
		{"a tight envelope", func(s *Station) { s.GasLoss, s.TopUpAt = 0, unit.Ratio(nan) }, "", 0},
		{"no threshold", func(s *Station) { s.TopUpAt = unit.Ratio(nan) }, "the share of gas at which to top up is not known", nan},
		{"a threshold of nothing", func(s *Station) { s.TopUpAt = 0 }, "the share of gas at which to top up is not known", nan},
		{"a threshold of all", func(s *Station) { s.TopUpAt = 1 }, "the share of gas at which to top up is not known", nan},
		{"a tiny leak", func(s *Station) { s.GasLoss = 1e-6 }, "", 0},
		{"without end", func(s *Station) { s.GasLoss, s.TopUpAt = 0.9, 0.9999 }, "the gas would be topped up more than 1000 times", nan},
		{"no duration", func(s *Station) { s.Duration = unit.Duration(nan) }, "the duration of the station is not known", nan},
	} {
		s := station()
		c.change(&s)
		p := Make(s)
		if got := float64(p.TopUps); got != c.topUps && !(math.IsNaN(got) && math.IsNaN(c.topUps)) {
			t.Errorf("%s: %v top-ups, want %v", c.name, got, c.topUps)
		}
		if c.gap == "" && len(p.Gaps) > 0 || c.gap != "" && (len(p.Gaps) != 1 || p.Gaps[0] != c.gap) {
			t.Errorf("%s: got the gaps %q, want %q", c.name, p.Gaps, c.gap)
		}
		if math.IsNaN(c.topUps) && (!math.IsNaN(float64(p.OffAir)) || len(p.Hours) > 0 && !math.IsNaN(float64(p.Hours[1].Gas))) {
			t.Errorf("%s: %v off the air, gas %v", c.name, p.OffAir, p.Hours)
		}
	}
}

// A thousand changes are planned and no more; a whole battery less than its change, or one that just outlasts it.
func TestTheEdgesOfThePlan(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Station)
		gap    string
	}{
		{"a thousand", func(s *Station) { s.Duration, s.Endurance, s.Reserve, s.ChangeTime, s.Sets = 1000, 1, 0, 0.5, 1000 }, ""},
		{"more", func(s *Station) { s.Duration, s.Endurance, s.Reserve, s.ChangeTime, s.Sets = 1000.5, 1, 0, 0.5, 1000 }, "more than 1000 times"},
		{"just its change", func(s *Station) { s.Endurance, s.Reserve, s.ChangeTime = hour, 0, hour }, "does not outlast its change"},
		{"a moment more", func(s *Station) { s.Endurance, s.Reserve, s.ChangeTime, s.Sets = hour, 0, hour-1, 12 }, ""},
		{"all in reserve", func(s *Station) { s.Reserve = 1 }, "the reserve left in a battery is not known"},
		{"nearly all in reserve", func(s *Station) { s.Reserve, s.Sets, s.Duration = 0.9, 100, 3*hour }, ""},
		{"one set", func(s *Station) { s.Sets, s.Duration = 1, hour }, ""},
		{"no set", func(s *Station) { s.Sets = 0 }, "the number of battery sets is not known"},
		{"a negative reserve", func(s *Station) { s.Reserve = -0.1 }, "the reserve left in a battery is not known"},
		{"endless endurance", func(s *Station) { s.Endurance = unit.Duration(math.Inf(1)) }, "the endurance of a battery is not known"},
	} {
		s := station()
		s.GasLoss = 0
		c.change(&s)
		p := Make(s)
		if c.gap == "" && (len(p.Gaps) > 0 || math.IsNaN(float64(p.Changes))) || c.gap != "" && !has(p, c.gap) {
			t.Errorf("%s: %v changes, gaps %q, want %q", c.name, p.Changes, p.Gaps, c.gap)
		}
	}
}

// Off the air is every change and every top-up; a top-up at a change counts only what it takes longer.
func TestTimeOffTheAir(t *testing.T) {
	s := station()
	s.Duration, s.Endurance, s.Reserve, s.Sets, s.GasLoss, s.TopUpAt = 25*hour, 10*hour, 0, 3, 0.2, 0.9
	p := Make(s) // changes and top-ups at 10:00 and 20:00
	if p.TopUps != 2 || p.OffAir != 2*15*minute {
		t.Errorf("%v top-ups, %v off the air\n%s", p.TopUps, p.OffAir, timetable(p))
	}
	s.TopUpTime = 5 * minute // done while the battery is changed
	if p := Make(s); p.OffAir != 2*8*minute {
		t.Errorf("%v off the air", p.OffAir)
	}
	s.TopUpTime = unit.Duration(math.NaN())
	if p := Make(s); !math.IsNaN(float64(p.OffAir)) || !has(p, "the time for a change of battery or a top-up is not known") {
		t.Errorf("with top-ups of unknown length: %v, %q", p.OffAir, p.Gaps)
	}
	s.TopUpTime, s.Sets = 15*minute, 1
	if p := Make(s); p.Outcome != NotEnough || !math.IsNaN(float64(p.OffAir)) {
		t.Errorf("%s, %v off the air", p.Outcome, p.OffAir)
	}
}

// A second way to the top-ups: a clock that ticks minute by minute, while the gas leaks and nobody tops up at changes.
func TestTopUpsAgreeWithAClockThatTicks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Station{Duration: unit.Duration(rapid.IntRange(1, 200).Draw(t, "hours"))*hour + 30, Endurance: 1000 * hour, Sets: 1,
			GasLoss: unit.Loss(rapid.Float64Range(0.01, 0.5).Draw(t, "loss")), TopUpAt: unit.Ratio(rapid.Float64Range(0.5, 0.98).Draw(t, "at"))}
		gas, ticked := 1.0, 0
		kept := math.Pow(1-float64(s.GasLoss), 1.0/24/60)
		for now := minute; now < s.Duration; now += minute {
			if gas *= kept; gas <= float64(s.TopUpAt) {
				gas = 1
				ticked++
			}
		}
		p := Make(s)
		// The clock only looks once a minute, and loses at most one in what its waiting adds up to.
		if lasts := math.Log(float64(s.TopUpAt)) / math.Log(1-float64(s.GasLoss)) * 86400; math.Abs(float64(p.TopUps)-float64(ticked)) > 1+60*float64(p.TopUps)/lasts {
			t.Fatalf("%v top-ups, the clock counts %d", p.TopUps, ticked)
		}
		for i, e := range p.Events[1 : len(p.Events)-1] {
			want := float64(i+1) * math.Log(float64(s.TopUpAt)) / math.Log(1-float64(s.GasLoss)) * 86400
			if e.Kind != TopUp || e.With || math.Abs(float64(e.At)-want) > 1e-6*want {
				t.Fatalf("top-up %d: %+v, due at %v", i+1, e, want)
			}
		}
	})
}

// What is ready comes before what is done with it: nothing happens after a change without a charged set but what was begun
// before, and where the sets last without it nothing is recharged.
func TestTimetablesAreWhole(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Station)
		want   string
	}{
		{"none is charged at 9:00", func(s *Station) { s.Sets, s.Chargers, s.ChargeTime = 2, 1, 5*hour }, `0:00 station on the air with battery set 1
4:30 change the battery: set 1 off, set 2 on
9:00 battery set 2 must come off and no set is charged: close the station
9:30 battery set 1 is charged again
12:00 end of the station`},
		{"enough beside a charger", func(s *Station) { s.Chargers = 1 }, `0:00 station on the air with battery set 1
4:30 change the battery: set 1 off, set 2 on
9:00 change the battery: set 2 off, set 3 on
12:00 end of the station`},
		{"charged at the minute of the change", func(s *Station) { s.Sets, s.Chargers, s.ChargeTime = 2, 1, 4.5*hour }, `0:00 station on the air with battery set 1
4:30 change the battery: set 1 off, set 2 on
9:00 battery set 1 is charged again
9:00 change the battery: set 2 off, set 1 on
12:00 end of the station`},
	} {
		s := station()
		c.change(&s)
		if got := timetable(Make(s)); got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

// A sixteenth is left after a day, so that half is left after six hours: topped up then, or at the last change before.
func TestTopUpsBetweenChanges(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Station)
		want   string
		off    unit.Duration
	}{
		// Alone at 6:00, with the change at 10:00, and alone six hours later.
		{"on both sides of a change", func(s *Station) {}, `0:00 station on the air with battery set 1
6:00 bring the balloon down and top up the gas
10:00 change the battery: set 1 off, set 2 on
10:00 top up the gas while the battery is changed
16:00 bring the balloon down and top up the gas
18:00 end of the station`, 45 * minute},
		{"due at a change", func(s *Station) { s.Endurance, s.Duration = 6*hour, 7*hour }, `0:00 station on the air with battery set 1
6:00 change the battery: set 1 off, set 2 on
6:00 top up the gas while the battery is changed
7:00 end of the station`, 15 * minute},
		{"due at the end", func(s *Station) { s.Duration = 6 * hour }, `0:00 station on the air with battery set 1
6:00 end of the station`, 0},
		// Set 1 is back at 5:00, which is no time to top up.
		{"with a set that comes back", func(s *Station) {
			s.Endurance, s.Duration, s.Sets, s.Chargers, s.ChargeTime = 4*hour, 9*hour, 2, 1, hour
		}, `0:00 station on the air with battery set 1
4:00 change the battery: set 1 off, set 2 on
4:00 top up the gas while the battery is changed
5:00 battery set 1 is charged again
8:00 change the battery: set 2 off, set 1 on
9:00 end of the station`, 23 * minute},
	} {
		s := station()
		s.Duration, s.Endurance, s.Reserve, s.GasLoss, s.TopUpAt = 18*hour, 10*hour, 0, 15./16, 0.5
		c.change(&s)
		p := Make(s)
		if got := timetable(p); got != c.want || p.OffAir != c.off {
			t.Errorf("%s: %v off the air, want %v; got\n%s\nwant\n%s", c.name, p.OffAir, c.off, got, c.want)
		}
	}
}

// Half is lost a day and a quarter left after two: a thousand times two days are planned, with 999 top-ups between, and no second
// more.
func TestAThousandTopUps(t *testing.T) {
	s := station()
	s.Duration, s.Endurance, s.Sets, s.GasLoss, s.TopUpAt = 2000*day, 4000*day, 1, 0.5, 0.25
	if p := Make(s); p.TopUps != 999 {
		t.Errorf("%v top-ups, gaps %q", p.TopUps, p.Gaps)
	}
	s.Duration++
	if p := Make(s); !math.IsNaN(float64(p.TopUps)) || !has(p, "more than 1000 times") {
		t.Errorf("%v top-ups, gaps %q", p.TopUps, p.Gaps)
	}
}
