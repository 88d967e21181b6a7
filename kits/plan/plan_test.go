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

const (
	minute = unit.Duration(60)
	hour   = unit.Duration(3600)
	day    = unit.Duration(86400)
)

// station: twelve hours on sets of five, a tenth kept in reserve, three sets, eight minutes a change.
func station() Station {
	return Station{Duration: 12 * hour, Endurance: 5 * hour, Reserve: 0.1, Sets: 3, ChangeTime: 8 * minute, ChargeTime: 4 * hour, Chargers: 0,
		GasLoss: 0.06, TopUpAt: 0.9, TopUpTime: 15 * minute, Identify: 10 * minute}
}

func timetable(p Plan) string {
	var lines []string
	for _, e := range p.Events {
		lines = append(lines, e.Clock()+" "+e.Text())
	}
	return strings.Join(lines, "\n")
}

// 5 h less a tenth are 4.5 h: changes at 4:30 and 9:00, ⌈12/4.5⌉ − 1 = 2 of them, 16 minutes off the air.
func TestThreeSetsLastTwelveHours(t *testing.T) {
	p := Make(station())
	want := `0:00 station on the air with battery set 1
4:30 change the battery: set 1 off, set 2 on
9:00 change the battery: set 2 off, set 3 on
12:00 end of the station`
	if got := timetable(p); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if p.Outcome != Enough || p.Changes != 2 || p.Sets != 3 || p.Chargers != 0 || p.OffAir != 16*minute || p.Identifications != 72 || len(p.Gaps) > 0 {
		t.Errorf("%s, %v changes, %v sets, %v chargers, %v off the air, %v identifications, %q", p.Outcome, p.Changes, p.Sets, p.Chargers, p.OffAir, p.Identifications, p.Gaps)
	}
	if len(p.Hours) != 12 || p.Hours[5].Set != 2 {
		t.Fatalf("%d hours, at the fifth set %d", len(p.Hours), p.Hours[5].Set)
	}
	// At 5:00 the second set has run half an hour of five; the gas has lost 6 % a day for 5/24 of a day.
	if left := float64(p.Hours[5].Left); math.Abs(left-0.9) > 1e-9 {
		t.Errorf("at 5:00 the set has %v left", left)
	}
	if gas := float64(p.Hours[5].Gas); math.Abs(gas-math.Pow(0.94, 5.0/24)) > 1e-9 {
		t.Errorf("at 5:00 there is %v of the gas", gas)
	}
}

// Two sets and one charger of 4 h: set 1 is off at 4:30 and back at 8:30, in time for 9:00; set 2 is never needed again.
func TestRechargingKeepsUp(t *testing.T) {
	s := station()
	s.Sets, s.Chargers = 2, 1
	p := Make(s)
	want := `0:00 station on the air with battery set 1
4:30 change the battery: set 1 off, set 2 on
8:30 battery set 1 is charged again
9:00 change the battery: set 2 off, set 1 on
12:00 end of the station`
	if got := timetable(p); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if p.Outcome != Recharged || p.Rotation != 2 || p.Chargers != 1 || p.Sets != 3 {
		t.Errorf("%s: rotation %v, chargers %v, sets %v", p.Outcome, p.Rotation, p.Chargers, p.Sets)
	}
	s.ChargeTime = 5 * hour // back at 9:30
	p = Make(s)
	if p.Outcome != NotEnough || p.Rotation != 3 || !math.IsNaN(float64(p.Chargers)) || !math.IsNaN(float64(p.OffAir)) {
		t.Errorf("%s: rotation %v, chargers %v, off the air %v", p.Outcome, p.Rotation, p.Chargers, p.OffAir)
	}
	if got := timetable(p); !strings.Contains(got, "9:00 battery set 2 must come off and no set is charged: close the station") {
		t.Errorf("got\n%s", got)
	}
}

// 6 % a day leave 90 % after log 0.9 / log 0.94 = 1.703 days = 40:52; with changes every 10 h the balloon is down at 40:00.
func TestGasIsToppedUpAtAChange(t *testing.T) {
	s := station()
	s.Duration, s.Endurance, s.Reserve, s.Sets = 3*day, 10*hour, 0, 8
	p := Make(s)
	if got := timetable(p); p.TopUps != 1 || !strings.Contains(got, "40:00 change the battery: set 4 off, set 5 on\n40:00 top up the gas while the battery is changed") {
		t.Errorf("%v top-ups in\n%s", p.TopUps, got)
	}
	if p.OffAir != 7*8*minute+7*minute { // the top-up takes 15 minutes where the change takes 8
		t.Errorf("%v off the air", p.OffAir)
	}
	s.Endurance = 4 * day
	p = Make(s)
	if got := timetable(p); p.TopUps != 1 || !strings.Contains(got, "40:52 bring the balloon down and top up the gas") || p.OffAir != 15*minute {
		t.Errorf("%v top-ups, %v off the air in\n%s", p.TopUps, p.OffAir, got)
	}
}

func TestWhatIsNotKnownIsSaid(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name   string
		change func(*Station)
		gap    string
	}{
		{"endurance", func(s *Station) { s.Endurance = unit.Duration(nan) }, "the endurance of a battery is not known"},
		{"no endurance", func(s *Station) { s.Endurance = 0 }, "the endurance of a battery is not known"},
		{"duration", func(s *Station) { s.Duration = unit.Duration(nan) }, "the duration of the station is not known"},
		{"reserve", func(s *Station) { s.Reserve = 1 }, "the reserve left in a battery is not known"},
		{"sets", func(s *Station) { s.Sets = 0 }, "the number of battery sets is not known"},
		{"charge time", func(s *Station) { s.Sets, s.ChargeTime = 1, unit.Duration(nan) }, "charge time or number of chargers is not known"},
		{"a battery shorter than its change", func(s *Station) { s.Endurance = 5 * minute }, "a battery does not outlast its change"},
		{"endless changes", func(s *Station) { s.Endurance, s.ChangeTime = 1, 0 }, "the battery would be changed more than 1000 times"},
	} {
		s := station()
		c.change(&s)
		p := Make(s)
		if p.Outcome != NotKnown || !slices.Contains(p.Gaps, c.gap) || !math.IsNaN(float64(p.OffAir)) {
			t.Errorf("%s: %s, off the air %v, gaps %q", c.name, p.Outcome, p.OffAir, p.Gaps)
		}
	}
	s := station()
	s.GasLoss = unit.Loss(nan)
	if p := Make(s); p.Outcome != Enough || !math.IsNaN(float64(p.TopUps)) || !math.IsNaN(float64(p.OffAir)) || !math.IsNaN(float64(p.Hours[1].Gas)) {
		t.Errorf("with an unknown loss of gas: %s, %v top-ups, %v off the air", p.Outcome, p.TopUps, p.OffAir)
	}
	s = station()
	s.ChangeTime = unit.Duration(nan)
	if p := Make(s); p.Changes != 2 || !math.IsNaN(float64(p.OffAir)) {
		t.Errorf("with changes of unknown length: %v changes, %v off the air", p.Changes, p.OffAir)
	}
}

func TestClockRoundsToTheSafeSide(t *testing.T) {
	for _, c := range []struct {
		e    Event
		want string
	}{
		{Event{At: 4*hour + 59, Kind: Change}, "4:00"}, {Event{At: 4*hour + 1, Kind: Back}, "4:01"},
		{Event{At: 4 * hour, Kind: Back}, "4:00"}, {Event{At: 100 * hour, Kind: End}, "100:00"},
	} {
		if got := c.e.Clock(); got != c.want {
			t.Errorf("%v is %s, want %s", c.e, got, c.want)
		}
	}
}

// A second way to the outcome: a clock that ticks minute by minute, a queue before the chargers, and no arithmetic on times.
func TestOutcomeAgreesWithAClockThatTicks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		use, charge := rapid.IntRange(5, 90).Draw(t, "use"), rapid.IntRange(1, 300).Draw(t, "charge")
		sets, chargers := rapid.IntRange(1, 6).Draw(t, "sets"), rapid.IntRange(0, 4).Draw(t, "chargers")
		length := rapid.IntRange(1, 900).Draw(t, "length")
		p := Make(Station{Duration: unit.Duration(length) * minute, Endurance: unit.Duration(use) * minute, Sets: sets,
			ChargeTime: unit.Duration(charge) * minute, Chargers: unit.Count(chargers)})
		changes, lasts := tick(length, use, charge, sets, chargers)
		if (p.Outcome == Enough || p.Outcome == Recharged) != lasts {
			t.Fatalf("%s, yet the clock says %v", p.Outcome, lasts)
		}
		if lasts && p.Changes != unit.Count(changes) {
			t.Fatalf("%v changes, the clock counts %d", p.Changes, changes)
		}
		if _, with := tick(length, use, charge, int(p.Rotation), chargers); !with {
			t.Fatalf("a rotation of %v does not last", p.Rotation)
		}
		if p.Rotation > 1 {
			if _, with := tick(length, use, charge, int(p.Rotation)-1, chargers); with {
				t.Fatalf("a rotation of %v is not the least", p.Rotation)
			}
		}
		if n := p.Chargers; !math.IsNaN(float64(n)) {
			if _, with := tick(length, use, charge, sets, int(n)); !with {
				t.Fatalf("%v chargers do not keep up", n)
			}
		}
	})
}

func tick(length, use, charge, sets, chargers int) (changes int, lasts bool) {
	charged, worn := sets-1, 0
	var queue int
	var charging []int // minutes left
	for now := 1; now < length; now++ {
		worn++
		var still []int
		for _, left := range charging {
			if left > 1 {
				still = append(still, left-1)
			} else {
				charged++
			}
		}
		charging = still
		for queue > 0 && len(charging) < chargers {
			queue--
			charging = append(charging, charge)
		}
		if worn == use {
			if charged == 0 {
				return changes, false
			}
			charged--
			changes++
			worn = 0
			if len(charging) < chargers {
				charging = append(charging, charge)
			} else {
				queue++
			}
		}
	}
	return changes, true
}

func TestTheSameStationGivesTheSamePlan(t *testing.T) {
	if a, b := fmt.Sprint(Make(station())), fmt.Sprint(Make(station())); a != b {
		t.Errorf("%s\n%s", a, b)
	}
}

// Sixty intervals of ten minutes are ten hours, in whatever units either was written.
func TestIdentificationsKnowTheRoundingOfUnits(t *testing.T) {
	for identify, want := range map[unit.Duration]unit.Count{600: 60, 600 * (1 - 5e-13): 60, 600 * (1 + 5e-13): 60, 599: 61} {
		if p := Make(Station{Duration: 36000, Identify: identify}); p.Identifications != want {
			t.Errorf("every %v s: got %v, want %v", float64(identify), p.Identifications, want)
		}
	}
}
