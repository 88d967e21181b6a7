package doc

import (
	"strings"
	"testing"
	"time"

	"hoistbook/kits"
	"hoistbook/render/page"
	"hoistbook/render/walk"
)

// kept is the record of what a crew did, minute by minute.
func kept(t *testing.T, list string, inputs ...walk.Input) (*walk.Record, *walk.Story) {
	t.Helper()
	k := &walk.Kit{Manifest: demo(t, "fen-relay").Manifest, Packs: builtIn(t), Program: "a test"}
	now := time.Date(2026, 5, 9, 14, 0, 0, 0, time.FixedZone("", 7200))
	s, e, err := walk.Start(k, list, now)
	if err != nil {
		t.Fatal(err)
	}
	var data []byte
	var chain walk.Chain
	add := func() {
		line, after, err := chain.Seal(e)
		if err != nil {
			t.Fatal(err)
		}
		chain, data = after, append(data, line...)
	}
	add()
	for _, in := range inputs {
		now = now.Add(time.Minute)
		if in.Who == "" {
			in.Who = "Ada"
		}
		if s, e, err = s.Next(in, now); err != nil {
			t.Fatalf("%+v: %v", in, err)
		}
		add()
	}
	r, err := walk.ReadRecord("r", data)
	if err != nil {
		t.Fatal(err)
	}
	story, err := walk.Tell(r)
	if err != nil {
		t.Fatal(err)
	}
	return r, story
}

func printed(t *testing.T, r *walk.Record, story *walk.Story, language string, paper page.Paper) string {
	t.Helper()
	d, err := Record(&Input{Facts: &kits.Facts{Manifest: story.Manifest}, Words: words(t, language), Paper: paper}, r, story)
	text := dumped(t, d, err)
	if err := d.Letters(); err != nil {
		t.Error(err)
	}
	var all strings.Builder
	for _, line := range strings.Split(text, "\n") {
		if _, said, ok := strings.Cut(line, `"`); ok {
			all.WriteString(strings.TrimSuffix(said, `"`) + " ")
		}
	}
	return all.String()
}

func wants(t *testing.T, what, text string, words ...string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(text, w) {
			t.Errorf("%s does not say %q:\n%s", what, w, text)
		}
	}
}

var lead = walk.Input{Do: walk.Join, Name: "Ada", Role: "launch", Lead: true}

func TestARecordOnPaperSaysWhoWhatAndWhen(t *testing.T) {
	r, story := kept(t, walk.Preflight, lead, walk.Input{Do: walk.Join, Who: "Bo", Name: "Bo", Role: "winch"},
		walk.Input{Do: walk.Read, Who: "Bo", Item: "preflight.wind", Text: "9 m/s"}, walk.Input{Do: walk.Read, Item: "preflight.wind", Text: "2 m/s"},
		walk.Input{Do: walk.Weigh, Part: "BOX1", Text: "121 g"}, walk.Input{Do: walk.Overrule, Item: "preflight.pressure", Text: "the barometer is at home"})
	for _, language := range []string{"en", "de"} {
		text := printed(t, r, story, language, page.A4)
		wants(t, language, text, "Ada", "Bo", "winch", "9 m/s", "2 m/s", "121 g", "the barometer is at home", "14:03:00", "2026-05-09 14:06:00 +02:00", r.Chain.String())
	}
	wants(t, "en", printed(t, r, story, "en", page.Letter), "NO-GO", "NOT SHOWN YET", "not met", "No launch is recorded", "Not closed: it has 7 lines", "kept the record")
	wants(t, "de", printed(t, r, story, "de", page.A4), "GESPERRT", "NOCH NICHT GEZEIGT")
}

// What was decided before the launch stands first; what nobody has checked aloft does not change it, and is named below.
func TestARecordOnPaperTellsTheDecisionFromTheChecksAloft(t *testing.T) {
	r, _ := kept(t, walk.Preflight, lead)
	at := r.Entries[1].At
	r.Entries = append(r.Entries, walk.Entry{
		N: 3, At: at.Add(time.Hour), Input: walk.Input{Do: walk.Up, Who: "Bo"}, Verdict: walk.ToCheck, Open: []string{"Line out", "Watch"},
		Decided: &walk.Decision{Verdict: walk.GO, At: at.Add(50 * time.Minute), Who: "Ada", N: 2},
	})
	story, err := walk.Tell(r)
	if err != nil {
		t.Fatal(err)
	}
	for language, want := range map[string][]string{
		"en": {"GO", "Decided before the launch, at 2026-05-09 14:51:00 +02:00 by Ada (line 2).", "STILL TO CHECK", "Items aloft that nobody has answered: Line out; Watch.", "GO 14:51:00, Ada"},
		"de": {"FREI", "Vor dem Start entschieden, 2026-05-09 14:51:00 +02:00 von Ada (Zeile 2).", "NOCH ZU PRÜFEN", "niemand beantwortet hat: Line out; Watch."},
	} {
		text := strings.ReplaceAll(printed(t, r, story, language, page.A4), "  ", " ")
		wants(t, language, text, want...)
		if decided, checked := strings.Index(text, want[1]), strings.Index(text, want[2]); decided > checked {
			t.Errorf("%s: what is open stands before what was decided", language)
		}
	}
}

func TestARecordOnPaperSaysWhatCameHome(t *testing.T) {
	two, one := 2, 1
	up, down := time.Date(2026, 5, 9, 9, 30, 0, 0, time.FixedZone("", 7200)), time.Date(2026, 5, 9, 12, 45, 0, 0, time.FixedZone("", 7200))
	r, story := kept(t, walk.Recovery, lead, walk.Input{Do: walk.Up, Time: &up}, walk.Input{Do: walk.Down, Time: &down}, walk.Input{Do: walk.Count, Part: "PEN1", Pieces: &two},
		walk.Input{Do: walk.Damage, Part: "BOX1", Pieces: &one, Fate: walk.Mend, Text: "lid torn"}, walk.Input{Do: walk.Note, Text: "rain came early"}, walk.Input{Do: walk.Close, Text: "dark"})
	text := printed(t, r, story, "en", page.A4)
	wants(t, "the record", text, "NOT COMPLETE", "Closed with line 8", "dark", "3 h 15 min", "09:30", "12:45", "PEN1", "To mend: lid torn", "rain came early")
}

// Times on both sides of a clock that was set back tell no length, and paper says so.
func TestARecordOnPaperTellsAClockThatWasSetBack(t *testing.T) {
	r, story := kept(t, walk.Recovery, lead, walk.Input{Do: walk.Note, Text: "a"})
	r.Entries[2].At = r.Entries[2].At.Add(-time.Hour)
	wants(t, "the record", printed(t, r, story, "en", page.A4), "The clock was set back once")
}
