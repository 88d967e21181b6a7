package walk_test

import (
	"strings"
	"testing"
	"time"

	"hoistbook/render/walk"
)

func (p *party) wait(d time.Duration) *party {
	p.now = p.now.Add(d)
	return p
}

func (p *party) hours() map[string]time.Duration {
	all := map[string]time.Duration{}
	for _, h := range p.Hours() {
		all[strings.TrimSpace(h.Part+" "+h.Label)] = h.Time
	}
	return all
}

func at(hour, minute int) *time.Time {
	t := time.Date(2026, 5, 9, hour, minute, 0, 0, morning.Location())
	return &t
}

func TestHoursFlown(t *testing.T) {
	p := aloft(t) // up at 7:22
	up := p.now
	for _, e := range p.entries {
		if e.Do == walk.Up {
			up = e.At
		}
	}
	p.now = up.Add(2*time.Hour - time.Minute)
	p.do(walk.Input{Do: walk.Down}) // after 2 h
	p.do(walk.Input{Do: walk.Read, Item: "preflight.battery", Subject: "BAT1", Label: "B", Text: "12.4 V"}).through("preflight.launch")
	p.do(walk.Input{Do: walk.Done, Item: "preflight.launch"}, walk.Input{Do: walk.Up})
	second := p.now
	p.now = second.Add(90*time.Minute - time.Minute)
	p.do(walk.Input{Do: walk.Down}) // after 1 h 30 min
	got := p.hours()
	for name, want := range map[string]time.Duration{"ENV1": 210 * time.Minute, "BAT1 1": 2 * time.Hour, "BAT1 B": 90 * time.Minute} {
		if got[name] != want {
			t.Errorf("%s has flown %v, want %v", name, got[name], want)
		}
	}
}

func TestABatteryIsChangedInTime(t *testing.T) {
	p := aloft(t)
	sets := p.view().Sets
	if len(sets) != 1 || sets[0].Due == "" || sets[0].Late {
		t.Fatalf("the batteries are shown as %+v", sets)
	}
	p.wait(17 * time.Hour).do(walk.Input{Do: walk.Note, Text: "all quiet"}).is(walk.GO)
	p.wait(time.Hour).is(walk.NoGo, "Battery BAT1, set 1: its change was due at")
	p.do(walk.Input{Do: walk.Read, Item: "preflight.battery", Subject: "BAT1", Label: "2", Text: "12.5 V"}).is(walk.GO)
	p.do(walk.Input{Do: walk.Read, Item: "preflight.battery", Subject: "BAT1", Label: "3", Text: "11.1 V"}).is(walk.NoGo, "reads 11.1 V")
}

func TestTheStationTimeEnds(t *testing.T) {
	p := aloft(t)
	p.wait(17 * time.Hour)
	p.do(walk.Input{Do: walk.Read, Item: "preflight.battery", Subject: "BAT1", Label: "2", Text: "12.5 V"}).is(walk.GO)
	p.wait(4*time.Hour).is(walk.NoGo, "the time that the lift was computed for ended at")
}

// A clock that is set back makes no time flown, and is told.
func TestAClockThatIsSetBack(t *testing.T) {
	p := aloft(t)
	p.wait(-3*time.Hour).is(walk.NotShown, "the clock shows a time before the launch")
	if says := p.view().Clock; !strings.Contains(says, "the clock shows 04:") || !strings.Contains(says, "it was set back") {
		t.Errorf("of the clock it says %q", says)
	}
	p.do(walk.Input{Do: walk.Note, Text: "watch says 9"}, walk.Input{Do: walk.Down}) // nobody is refused for it
	for name, flown := range p.hours() {
		if flown != 0 {
			t.Errorf("%s has flown %v", name, flown)
		}
	}
	if says := p.wait(4 * time.Hour).view().Clock; says != "" {
		t.Errorf("with the clock set right it still says %q", says)
	}
}

func TestTimesToldAfterwards(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight).do(join("Ada", "", true)).through("")
	p.refused(walk.Input{Do: walk.Up, Time: at(23, 0)}, "has not come yet").refused(walk.Input{Do: walk.Up, Time: at(3, 0)}, "before this record began")
	p.do(walk.Input{Do: walk.Up, Time: at(7, 5)})
	p.refused(walk.Input{Do: walk.Up}, "is up since 07:05").refused(walk.Input{Do: walk.Down, Time: at(7, 0)}, "before 07:05")
	p.refused(walk.Input{Do: walk.Close}, "the balloon is up")
	p.do(walk.Input{Do: walk.Down, Time: at(7, 15)}).refused(walk.Input{Do: walk.Down}, "on the ground")
	if got := p.hours()["ENV1"]; got != 10*time.Minute {
		t.Errorf("up at 7:05, down at 7:15: flown %v", got)
	}
}

func TestNobodyIsLetUpAgainUnlooked(t *testing.T) {
	p := aloft(t)
	p.do(walk.Input{Do: walk.Down}, read("preflight.wind", "2.1 m/s"))
	p.refused(walk.Input{Do: walk.Up}, "NOT SHOWN YET")
	if it := p.item("preflight.launch"); it.State != "open" {
		t.Errorf("the launch is %s with another wind", it.State)
	}
}
