package doc

import (
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/change"
	"hoistbook/render/page"
)

// laid is a demonstration kit under an overlay.
func laid(t *testing.T, id, name, overlay string) *kits.Facts {
	t.Helper()
	base, ok := kits.Demo(id)
	if !ok {
		t.Fatalf("there is no demonstration kit %q", id)
	}
	m, err := manifest.Load(base, manifest.Source{Name: name, Data: []byte(overlay)})
	if err != nil {
		t.Fatal(err)
	}
	return kits.Assess(m)
}

// sheetOf sets the change sheet from a demonstration kit to the same under an overlay.
func sheetOf(t *testing.T, overlay, language string, system unit.System, paper page.Paper) string {
	t.Helper()
	all := builtIn(t)
	before, after := demo(t, "fen-relay"), laid(t, "fen-relay", "clubs/far/away/ours.json", overlay)
	c := change.Between(change.Judge("demo:fen-relay", before.Manifest, all, system), change.Judge("ours", after.Manifest, all, system), all, system)
	in := Gather(after, all, system, words(t, language))
	in.Paper = paper
	doc, err := ChangeSheet(in, c)
	return dumped(t, doc, err)
}

const stronger = `{"made_for": {"id": "fen-relay", "revision": "1.0.0"}, "parts": {"LMP1": null,
"TX1": {"name": "transmitter of another make, 10 W", "load": {"current": {"transmit": "4 A"}}},
"ZIP1": {"name": "bag for the winch", "place": "ground"}}, "station": {"site": {"hottest": "30 degC"}}}`

func TestChangeSheet(t *testing.T) {
	text := sheetOf(t, stronger, "en", unit.SI, page.A4)
	for _, want := range []string{
		`"GO → NO-GO"`, `"From"`, `"To"`, `"The overlay ours.json was made for another revision."`, `"LMP1, clip-on lamp, white, flashing, own cell: gone"`,
		`"TX1, transmitter of another make, 10 W: replaced"`, `"ZIP1, bag for the winch: new"`, `"site: changed"`, `"+4 °C"`, `"+3.25 A (+433 %)"`,
		`"TX1 does not fit"`, `"no rule is touched"`, `"Margins, the worst change first"`, `"What the crew reads otherwise"`, `"Read and understood"`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %s", want)
		}
	}
	if strings.Contains(text, "far/away") {
		t.Error("the sheet tells where a file lies on somebody's machine")
	}
	if text != sheetOf(t, stronger, "en", unit.SI, page.A4) {
		t.Error("the same comparison is set in another way the second time")
	}
}

func TestChangeSheetInOtherEditions(t *testing.T) {
	text := sheetOf(t, stronger, "de", unit.US, page.Letter)
	for _, want := range []string{`"Änderungsblatt"`, `"+7,2 °F"`, `"TX1 passt nicht"`, `Letter landscape`} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %s", want)
		}
	}
	if strings.ContainsAny(text, "{}") {
		t.Error("a brace was not filled")
	}
}

func TestChangeSheetOfNothing(t *testing.T) {
	text := sheetOf(t, `{"parts": {"BAT1": {"x-note": "the same"}}}`, "en", unit.SI, page.A4)
	if !strings.Contains(text, `"Both say the same."`) || !strings.Contains(text, `"GO → GO"`) {
		t.Error("a sheet of nothing does not say so")
	}
}

// The change record of a book says what comes from the shared kit and what from which overlay.
func TestOriginsInTheBook(t *testing.T) {
	facts := laid(t, "fen-relay", "some/where/ours.json", `{"made_for": {"id": "fen-relay", "revision": "1.0.0"}, "parts": {"BAT1": {"mass": "301 g"}, "LMP1": null}, "kit": {"maintainer": "ours"}}`)
	for language, wants := range map[string][]string{
		"en": {`"ours.json (made for revision 1.0.0: see below)"`, `"BAT1: mass"`, `"298 g"`, `"301 g"`, `"Quillmere Relay Circle"`, `"ours"`, `"LMP1"`, `made for revision 1.0.0, and this is`},
		"de": {`"ours.json (gemacht für Revision 1.0.0: siehe unten)"`},
	} {
		in := Gather(facts, builtIn(t), unit.SI, words(t, language))
		d, ok := Find("changes")
		if !ok {
			t.Fatal("there is no change record")
		}
		doc, err := d.Compose(in)
		text := dumped(t, doc, err)
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the record does not say %s", language, want)
			}
		}
		if strings.Contains(text, "some/where") {
			t.Error("the record tells where a file lies on somebody's machine")
		}
		sound(t, in)
	}
	in := Gather(demo(t, "fen-relay"), builtIn(t), unit.SI, words(t, "en"))
	d, _ := Find("changes")
	doc, err := d.Compose(in)
	if strings.Contains(dumped(t, doc, err), "Changed by overlays") {
		t.Error("a kit without overlays has a list of them")
	}
}
