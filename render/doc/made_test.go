package doc

import (
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// Whoever holds any one page can tell for which site, under which rules and with which overlays it was made.
func TestPagesTellForWhatTheyWereMade(t *testing.T) {
	base, _ := kits.Demo(kits.FirstDemo)
	m, err := manifest.Load(base, manifest.Source{Name: "somewhere/our-club.json", Data: []byte(`{"station": {"site": {"name": "mill meadow"}}}`)})
	if err != nil {
		t.Fatal(err)
	}
	in := Gather(kits.Assess(m), builtIn(t), unit.SI, words(t, "en"))
	book, err := Book(in)
	if err != nil {
		t.Fatal(err)
	}
	const want = "mill meadow · uk · our-club.json"
	for i, p := range book.Pages {
		told := false
		for it := range p.All() {
			w, ok := it.(page.Text)
			told = told || ok && strings.HasSuffix(w.Text, want)
		}
		if !told {
			t.Errorf("page %d does not say %q", i+1, want)
		}
	}
	for _, d := range []Document{preflight, recovery, stationLog} {
		list, err := d.Compose(in)
		text := dumped(t, list, err)
		for _, want := range []string{"mill meadow", "United Kingdom", "our-club.json"} {
			if !strings.Contains(text, `"`+want) {
				t.Errorf("%s does not say %q", d.Name, want)
			}
		}
	}
}

// Who answers is named beside the heading, and again below an item only where it is somebody else; the roll of the crew names each once.
func TestWhoAnswersIsNamedOnce(t *testing.T) {
	in := Gather(demo(t, kits.FirstDemo), builtIn(t), unit.SI, words(t, "en"))
	list, err := preflight.Compose(in)
	text := dumped(t, list, err)
	others, phases, phase, who := 0, 0, "", ""
	for i, step := range in.Preflight {
		if step.Phase != phase {
			phase, who = step.Phase, answerer(in.Preflight[i:])
			phases++
		}
		if step.Role != who {
			others++
		}
	}
	named := 0
	roles := []string{"person in charge", "safety watch", "winch hand", "radio operator", "gas handler"}
	for line := range strings.Lines(text) {
		for _, role := range roles {
			if strings.HasPrefix(line, "  text ") && strings.Contains(line, `"`+role) && !strings.Contains(line, role+")") { // not who can take a role as well
				named++
			}
		}
	}
	if least, most := len(roles)+others+phases, len(roles)+others+phases+len(list.Pages)+2; named < least || named > most {
		t.Errorf("roles are named %d times; %d phases and %d other answers ask for %d to %d", named, phases, others, least, most)
	}
}
