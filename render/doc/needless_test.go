package doc

import (
	"regexp"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// A kit that need not identify itself and never listens while it sends says so; "not shown" is for what nobody says.
func TestWhatAKitDoesNotNeedIsNotCalledNotShown(t *testing.T) {
	source, _ := kits.Demo("marsh-data")
	all := builtIn(t)
	text := func(data []byte, d Document) string {
		doc, err := d.Compose(Gather(read(t, source.Name, data), all, unit.SI, words(t, "en")))
		return dumped(t, doc, err)
	}
	for _, d := range []Document{summary, preflight, stationLog, radioPlan, calculation} {
		if dump := text(source.Data, d); silence.MatchString(dump) {
			t.Errorf("%s says that something is not shown", d.Name)
		}
	}
	for _, gone := range []struct {
		d    Document
		what string
	}{{preflight, "Licence holder: GO"}, {radioPlan, "Call sign"}, {stationLog, "Identif"}} {
		if strings.Contains(text(source.Data, gone.d), gone.what) {
			t.Errorf("%s of a kit without call sign says %q", gone.d.Name, gone.what)
		}
	}
	if dump := text(source.Data, radioPlan); !strings.Contains(dump, "a licence-exempt device has no call sign") || !strings.Contains(dump, "Not needed: the relay does not listen") {
		t.Error("the radio plan does not say why nothing is needed")
	}
	silent := []byte(strings.Replace(string(source.Data), `"no_identification": "a licence-exempt device has no call sign",`, "", 1))
	for _, d := range []Document{stationLog, radioPlan} {
		if !strings.Contains(text(silent, d), "not shown") {
			t.Errorf("%s takes silence for no need", d.Name)
		}
	}
}

// The list and the table count the same: what is used up is in neither, and a cylinder comes home in both.
func TestThePackInIsCountedOnce(t *testing.T) {
	for _, id := range kits.Demos() {
		in := Gather(demo(t, id), builtIn(t), unit.SI, words(t, "en"))
		listed := 0.0
		for _, box := range in.Facts.Subjects("packing") {
			v, _ := in.Facts.Lookup("packing." + box + ".pieces")
			listed += v.Quantity.SI
		}
		counted := 0
		for ref, p := range in.Facts.Manifest.Parts {
			if p.ComesHome() && p.PackedIn != "" {
				counted += pieces(p)
			}
			if p.Cylinder != nil && !p.ComesHome() {
				t.Errorf("%s: %s stays in the field", id, ref)
			}
		}
		if int(listed) != counted {
			t.Errorf("%s: the items count %v pieces and the table %d", id, listed, counted)
		}
	}
}

// silence is a value that is not shown, and a reason why.
var silence = regexp.MustCompile(`"not shown"|not shown,|every not shown|Not shown: `)

// metric are lengths, masses, forces and speeds in units of the SI.
var metric = regexp.MustCompile(`[0-9] ?(mm|cm|m|km|g|kg|N|m/s|km/h|°C)\b`)

// A crew with units of its own reads no others, but where a name brings them along.
func TestCrewSheetsKeepToTheReadersUnits(t *testing.T) {
	in := Gather(demo(t, "ridge-sphere"), builtIn(t), unit.US, words(t, "en"))
	for _, step := range append(in.Preflight, in.Recovery...) {
		for _, text := range []string{step.Challenge, step.Response, step.Notes} {
			if metric.MatchString(text) {
				t.Errorf("%s says %q", step.ID, text)
			}
		}
	}
	for _, a := range in.Cautions {
		for _, text := range []string{a.Hazard, a.Consequence, a.Avoidance} {
			if metric.MatchString(text) {
				t.Errorf("%s says %q", a.ID, text)
			}
		}
	}
}

// No step of a kit is about what the kit does not have.
func TestStepsFitTheKit(t *testing.T) {
	for id, foreign := range map[string][]string{
		"marsh-data": {"call through", "Pennants", "crank", "stop the transmitter"}, "fen-relay": {"test message", "streamers", "in its bag"},
		"ridge-sphere": {"test message", "pennants", "second person before", "rubber", "with two"},
	} {
		in := Gather(demo(t, id), builtIn(t), unit.SI, words(t, "en"))
		said := ""
		for _, step := range append(in.Preflight, in.Recovery...) {
			said += step.Challenge + "\n" + step.Response + "\n"
		}
		for _, a := range in.Cautions {
			said += a.Hazard + "\n" + a.Consequence + "\n" + a.Avoidance + "\n"
		}
		for _, text := range foreign {
			if strings.Contains(said, text) {
				t.Errorf("%s: %q", id, text)
			}
		}
		for _, step := range in.Preflight {
			if strings.HasSuffix(step.Challenge, ".") {
				t.Errorf("%s: a full stop before the leader of %q", id, step.Challenge)
			}
		}
	}
}

// A device that lets the gas out is armed when the balloon pulls on the line, and safe before the line goes slack.
func TestTheDeviceIsSafeWhileTheLineIsSlack(t *testing.T) {
	in := Gather(demo(t, kits.FirstDemo), builtIn(t), unit.SI, words(t, "en"))
	at := map[string]int{}
	for i, step := range append(in.Preflight, in.Recovery...) {
		at[step.ID] = i
	}
	for _, order := range [][2]string{{"preflight.order", "preflight.deflation"}, {"preflight.deflation", "preflight.launch"}, {"recovery.disarm", "recovery.caught"}} {
		if at[order[0]] >= at[order[1]] {
			t.Errorf("%s does not come before %s", order[0], order[1])
		}
	}
}

// Everything that tells two sheets apart stands in the head of every page, however many overlays there are; what has no room is counted.
func TestHeadsCutNothing(t *testing.T) {
	w := words(t, "en")
	made := make([]string, 30)
	for i := range made {
		made[i] = "as-built-000" + digits(i) + ".json"
	}
	for n := range made {
		r := page.Running{Kit: "Fen relay", Revision: "Rev. 1.4.0", Made: made[:n], Title: "Pre-flight checklist", More: func(n int) string { return w.Count("running.more", n) }}
		in := Gather(demo(t, kits.FirstDemo), builtIn(t), unit.SI, w)
		text := page.SheetMargins.Inside(page.A4)
		var said []string
		for _, it := range r.Items(page.Place{Number: 1, Count: 1, Paper: page.A4, Text: text, Fonts: in.Fonts, Scale: &page.Afield}) {
			if line, ok := it.(page.Text); ok {
				said = append(said, line.Text)
				if box, _ := page.Bounds(it, in.Fonts); box.Y < 5 || box.Right() > text.Right()+0.1 {
					t.Errorf("%d overlays: %q leaves the paper", n, line.Text)
				}
			}
		}
		all := strings.Join(said, "\n")
		told := strings.Count(all, "as-built-")
		if strings.Contains(all, "…") || told < n && !strings.Contains(all, w.Count("running.more", n-told)) {
			t.Errorf("%d overlays: the head says %q", n, said)
		}
	}
}

// What no envelope holds is no fill that a card may ask for.
func TestTheCardAsksForNoFillThatTheEnvelopeCannotHold(t *testing.T) {
	in := Gather(demo(t, "ridge-sphere"), builtIn(t), unit.US, words(t, "en"))
	in.Paper = page.Letter
	card, err := limitsCard.Compose(in)
	if text := dumped(t, card, err); !strings.Contains(text, "too much for the") || strings.Contains(text, `"65.`) {
		t.Error("the card asks for a neck lift of more than 60 lb, and the envelope lifts 42")
	}
}

// No sentence ends before a leader: neither a step of assembly nor one of a checklist.
func TestNoFullStopBeforeALeader(t *testing.T) {
	stop := regexp.MustCompile(` (11|13\.5) ".*\."\n`) // the sizes of steps
	for _, id := range kits.Demos() {
		in := Gather(demo(t, id), builtIn(t), unit.SI, words(t, "en"))
		for _, d := range []Document{assembly, preflight, recovery} {
			doc, err := d.Compose(in)
			if found := stop.FindString(dumped(t, doc, err)); found != "" {
				t.Errorf("%s, %s: %s", id, d.Name, found)
			}
		}
	}
}
