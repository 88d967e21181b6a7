package prompt

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"hoistbook/cmd/internal/live"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/walk"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// A screen is a terminal that somebody types at and reads from.
type screen struct {
	*testing.T
	session *live.Session
	desk    *Desk
	keys    *io.PipeWriter
	ended   chan error

	mu   sync.Mutex
	text bytes.Buffer
}

func (s *screen) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(p)
}

func (s *screen) shows() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

func sit(t *testing.T, record string, stay bool) *screen {
	t.Helper()
	source, _ := kits.Demo("fen-relay")
	m, err := manifest.Load(source)
	if err != nil {
		t.Fatal(err)
	}
	p, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		t.Fatal(err)
	}
	now := func() time.Time { return time.Now().Truncate(time.Second) }
	begin := func() (*walk.Kit, error) { return &walk.Kit{Manifest: m, Packs: p, Program: "test"}, nil }
	resume := func(o *walk.Opening) (*walk.Kit, error) { return walk.KitOf(o, p, "test") }
	session, notes, err := live.Open(record, walk.Preflight, begin, resume, now)
	if err != nil {
		t.Fatal(err)
	}
	in, keys := io.Pipe()
	s := &screen{T: t, session: session, keys: keys, ended: make(chan error, 1)}
	d := &Desk{Session: session, Out: s, Style: terminal.Style{}, Now: now, Done: make(chan struct{}), Stay: stay, Echo: true, Notes: notes}
	s.desk = d
	go func() { s.ended <- d.Run(in) }()
	t.Cleanup(s.leave)
	return s
}

// leave gives the record back.
func (s *screen) leave() {
	if s.session == nil {
		return
	}
	_ = s.keys.Close()
	if err := s.session.Close(); err != nil {
		s.Error(err)
	}
	s.session = nil
}

// types types lines, and waits until each has been taken.
func (s *screen) types(lines ...string) *screen {
	s.Helper()
	for _, l := range lines {
		before := len(s.shows())
		if _, err := io.WriteString(s.keys, l+"\r\n"); err != nil { // as a serial line sends it
			s.Fatal(err)
		}
		s.waits(func() bool {
			text := s.shows()
			return len(text) > before && (strings.HasSuffix(text, "> ") || strings.HasSuffix(text, ": ") || strings.HasSuffix(text, "read on -- "))
		})
	}
	return s
}

// ends types the last line.
func (s *screen) ends(line string) {
	s.Helper()
	if _, err := io.WriteString(s.keys, line+"\n"); err != nil {
		s.Fatal(err)
	}
	if err := <-s.ended; err != nil {
		s.Error(err)
	}
}

func (s *screen) waits(until func() bool) {
	s.Helper()
	for range 400 {
		if until() {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	s.Fatalf("this does not end:\n%s", s.shows())
}

// sees waits until the end of the screen has a text.
func (s *screen) sees(text string) *screen {
	s.Helper()
	s.waits(func() bool {
		all := s.shows()
		return strings.Contains(strings.Join(strings.Fields(all[max(0, len(all)-4000):]), " "), text)
	})
	return s
}

var answers = map[string]string{
	"preflight.wind-height": "2 m", "preflight.wind": "1.8 m/s", "preflight.gust": "2,6 m/s", "preflight.temperature": "11 degC", "preflight.pressure": "1009 hPa",
	"preflight.anchor-mass": "41 kg", "preflight.battery/BAT1": "12.5 V set A", "preflight.neck-scale": "3.95 kg", "preflight.line-out": "45 m", "preflight.lean": "12 deg",
	"recovery.wind": "2 m/s", "recovery.pressure": "40 bar", "recovery.battery-volts/BAT1": "11.2 V",
}

// through answers what is asked, up to an item.
func (s *screen) through(until string) *screen {
	s.Helper()
	for range 300 {
		v, _ := s.session.View()
		it, ok := find(v, v.Next)
		if !ok || it.Key == until || it.Barred != "" {
			return s
		}
		text := "y"
		if t, counting := uncounted(it); counting {
			text = fmt.Sprint(t.Out)
		} else if it.Asks != nil {
			if text, ok = answers[it.Key]; !ok {
				s.Fatalf("nobody knows what %s reads", it.Key)
			}
		}
		s.types(text)
	}
	s.Fatal("the list does not end")
	return s
}

func TestAWholeWalkAtTheTerminal(t *testing.T) {
	record := filepath.Join(t.TempDir(), "r.jsonl")
	s := sit(t, record, false).types("Ada", "")
	s.through("preflight.wind").types("3").sees("has no unit").types("300 m/s").sees("not plausible").types("9 m/s").sees("NO-GO").sees("go on when it reads at most").sees("more; v lists them all").types("v").sees("the greatest wind is")
	s.types("preflight.wind: 1.8 m/s").sees("NOT SHOWN YET")
	s.through("preflight.plugs").types("n box is taped").sees("over 29 REASON").types("over preflight.plugs").sees("needs a reason").types("over preflight.plugs pulled last night")
	s.types("preflight.battery/BAT1: 12.5 V B").sees("write the set with its word: 12.5 V set B")
	s.types("weigh").sees("BOX1").sees("stated 118 g").types("weigh BOX1 119 g").types("weigh").sees("stated 118 g, weighed 119 g")
	s.types("weigh BOX1 118 g", "note cold hands", "list").sees("[o]").types("v").sees("overruled by Ada: pulled last night")
	s.through("").sees("Type up when the balloon leaves the ground").types("up").through("").sees("On station")
	s.types("battery BAT1 B 12.4 V").sees("12.4 V, set B").types("preflight.wind: 9 m/s").sees("NO-GO").types("preflight.wind: 2 m/s").sees("GO")
	s.types("down", "home").through("recovery.pack/winch case").types("1", "2", "2", "1").sees("not back: 1 PEN1").types("count PEN1 3")
	s.through("").types("damage BOX1 1 mend lid torn").sees("BOX1: 1 to mend: lid torn").types("v").sees("COMPLETE").sees("BOX1 1 to mend: lid torn")
	s.ends("close")
	for _, line := range strings.Split(s.shows(), "\n") {
		if n := utf8.RuneCountInString(strings.TrimRight(line, " ")); n > terminal.Columns {
			t.Errorf("%d columns: %s", n, line)
		}
		if strings.ContainsAny(line, "\x1b\r") {
			t.Errorf("the terminal is sent a control character: %q", line)
		}
	}
}

func TestAResumedWalkStandsWhereItStood(t *testing.T) {
	record := filepath.Join(t.TempDir(), "r.jsonl")
	s := sit(t, record, false).types("Ada", "").through("preflight.wind").types("9 m/s")
	v, _ := s.session.View()
	s.ends("quit")
	s.leave()
	again := sit(t, record, false).sees("NO-GO").types("Bo").sees("Greatest gust")
	if now, _ := again.session.View(); now.Next != v.Next || now.Verdict != v.Verdict || now.Leader != "Ada" {
		t.Errorf("resumed: %s at %s under %q; it was %s at %s under %q", now.Verdict, now.Next, now.Leader, v.Verdict, v.Next, v.Leader)
	}
}

// What a phone records the terminal shows, and a question that was answered elsewhere is not asked again.
func TestTheTerminalIsInStep(t *testing.T) {
	s := sit(t, "", true).types("Ada", "").through("preflight.wind").sees("mean wind in m/s>")
	for _, in := range []walk.Input{{Do: walk.Join, Name: "Bo"}, {Do: walk.Read, Who: "Bo", Item: "preflight.wind", Text: "1.9 m/s"}} {
		if _, err := s.session.Do(in); err != nil {
			t.Fatal(err)
		}
	}
	s.sees("[Bo] Mean wind over ten minutes, at 2 m: 1.9 m/s").sees("greatest gust in m/s>")
	s.types("2.6 m/s").sees("Permission of the landowner")
}

// Who answers the first question as if it were another one is asked again.
func TestAnAnswerIsTakenForNoName(t *testing.T) {
	s := sit(t, "", false).types("y").sees(`"y" is no name of a person`).types("ok, winch hand").sees(`"ok" is no name`).types("Ada, winch hand").sees("in charge [Enter: you]")
	s.types("Yes").sees(`"Yes" is no name of a person`).sees("Enter is for Ada").types("Bo, launch leader").sees("Bo joins as launch leader, in charge")
	if crew := s.session.State().Crew; len(crew) != 2 || crew[0].Name != "Ada" || !crew[1].Lead {
		t.Errorf("the crew is %+v", crew)
	}
}

func TestTheRecordSaysWhoDoesWhat(t *testing.T) {
	s := sit(t, "", false).types("Ada , gas handler", "Bo").sees("Ada joins as gas handler").types("who Cy, winch hand").sees("Cy joins as winch hand")
	if crew := s.session.State().Crew; len(crew) != 3 || crew[0].Role != "gas handler" || crew[1].Name != "Bo" || !crew[1].Lead || crew[2].Role != "winch hand" {
		t.Errorf("the crew is %+v", crew)
	}
}

func TestTypingMistakesAreTold(t *testing.T) {
	s := sit(t, "", false).types("", "\x07", "Ada", "").sees("1>")
	for line, want := range map[string]string{
		"maybe": "answer y, or n and the reason", "99: y": "there is no item 99", "go x": "there is no item x", "weigh NIX 3 g": "there is no part", "battery BAT1": "write the battery, the set and the voltage",
		"up": "the verdict is NOT SHOWN YET", "up 9": "write the time as 14:05", "damage BOX1": "write part, pieces", "count TX1 x": "write how many pieces", "over 1 we like it": "",
		"lead": "write a name", strings.Repeat("x", 5000): "a line may have", "?": "a reading with its unit", "skip": "Person in charge", "page": "no page is served",
	} {
		s.types(line)
		if want != "" {
			s.sees(want)
		}
	}
	for _, line := range strings.Split(help, "\n") {
		if n := utf8.RuneCountInString(line); n > terminal.Columns {
			t.Errorf("%d columns: %s", n, line)
		}
	}
}

func TestTheInputEnds(t *testing.T) {
	for _, typed := range [][]string{nil, {"Ada"}, {"Ada", ""}, {"Ada", "", "y"}} {
		s := sit(t, "", false)
		s.types(typed...)
		_ = s.keys.Close()
		select {
		case err := <-s.ended:
			if err != nil {
				t.Error(err)
			}
		case <-time.After(3 * time.Second):
			t.Fatalf("after %q it does not end", typed)
		}
	}
}

// sits is a screen of a desk that waits for its reader.
func sits(t *testing.T, rows int) *screen {
	t.Helper()
	s := sit(t, "", false)
	s.desk.Rows = rows
	return s
}

// No screen of 24 lines loses a caution at its top: the reader is waited for, and what is typed too early is not lost.
func TestLongTextsWaitForTheirReader(t *testing.T) {
	s := sits(t, 24).types("Ada")
	s.types("").sees("Enter: read on --")
	for range 9 {
		all := s.shows()
		if strings.HasSuffix(all, "1> ") {
			break
		}
		before := strings.TrimSuffix(all, "read on -- ")
		since := all[max(strings.LastIndex(before, "read on -- "), strings.LastIndex(before, "== Go or no go"), 0):]
		if n := strings.Count(since, "\n"); n > 23 {
			t.Errorf("%d lines have run through:\n%s", n, since)
		}
		s.types("")
	}
	for _, word := range []string{"DANGER", "CAUTION", "1> "} {
		if !strings.Contains(s.shows(), word) {
			t.Errorf("no %s was shown", word)
		}
	}
	s.types("list all").sees("Enter: read on --").types("1: y").sees("Person in charge: done").types("cautions").sees("Enter: read on --").types("").sees("trolley")
}

// Nobody who reads on slowly misses what a phone records.
func TestAPhoneIsToldToWhoeverReads(t *testing.T) {
	s := sit(t, "", true)
	s.desk.Rows = 24
	s.types("Ada", "").sees("Enter: read on --")
	for _, in := range []walk.Input{{Do: walk.Join, Name: "Bo"}, {Do: walk.Not, Who: "Bo", Item: "preflight.thunder", Text: "thunder in the west"}} {
		if _, err := s.session.Do(in); err != nil {
			t.Fatal(err)
		}
	}
	s.sees("thunder in the west").sees("NO-GO 1>").types("y").sees("Wind meter")
	// and when the terminal has gone, nobody waits for it
	_ = s.keys.Close()
	if _, err := s.session.Do(walk.Input{Do: walk.Note, Who: "Bo", Text: "alone now"}); err != nil {
		t.Fatal(err)
	}
	s.sees("[Bo] note: alone now")
}

// Cautions are read once; a phase that is come back to has its heading alone.
func TestCautionsAreNotRepeated(t *testing.T) {
	s := sit(t, "", false).types("Ada", "").through("kit.case-high").types("preflight.wind: 1.9 m/s").sees("has changed since it was answered").types("y")
	if n := strings.Count(s.shows(), "DANGER    Lightning"); n != 1 {
		t.Errorf("the same danger was told %d times", n)
	}
	if n := strings.Count(s.shows(), "== Go or no go"); n != 2 {
		t.Errorf("the phase was headed %d times", n)
	}
}

// At the hold point what was answered with no is asked again, and somebody who leaves it gets to the hold point.
func TestNoIsAskedAgainAtTheHoldPoint(t *testing.T) {
	s := sit(t, "", false).types("Ada", "").through("preflight.keep-out").types("n two cars").sees("NO-GO").sees("see to it: no road")
	s.through("preflight.keep-out").sees("Ground within 47.1 m of the anchor safety watch -> no road, no roof, nobody but the crew ! two cars")
	s.types("n one car").sees("HOLD POINT").types("y").sees("item 12 before it").types("12: y", "n a fox", "y", "y").sees("Battery case")
}

func TestWhatIsMovedByAReadingIsTold(t *testing.T) {
	sit(t, "", false).types("Ada", "").through("preflight.wind").types("2.4 m/s").sees("now: Neck lift needed").types("v").sees("Measured height of the wind meter 2 m, mean wind 2.4 m/s; all else as planned")
}
