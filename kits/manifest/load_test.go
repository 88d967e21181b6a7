package manifest_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"hoistbook/kits/manifest"
)

func read(t testing.TB, path string) manifest.Source {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return manifest.Source{Name: path, Data: text}
}

func load(t testing.TB, base manifest.Source, overlays ...manifest.Source) *manifest.Manifest {
	t.Helper()
	m, err := manifest.Load(base, overlays...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func full(t testing.TB) manifest.Source { return read(t, "testdata/full.json") }

func overlay(text string) manifest.Source {
	return manifest.Source{Name: "club.json", Data: []byte(text)}
}

func TestLoadFillsTheTypes(t *testing.T) {
	m := load(t, full(t))
	reg := m.Parts["REG1"].Converter
	if reg == nil || *reg.Output != 5 || reg.Input.High != 24 || *reg.Quiescent != 0.005 || reg.Kind != manifest.Buck {
		t.Errorf("REG1 is %+v", reg)
	}
	if s := m.Station; *s.Duration != 12*3600 || s.Site.Coldest.Celsius() != -5 || s.Duty[manifest.Standby] != 0.7 || s.Rules[0] != "us" {
		t.Errorf("the station is %+v", s)
	}
	if tx := m.Parts["TX1"].Transmitter; *tx.Power != 1 || *tx.NoiseFloor != -75 || tx.Antenna != "ANT2" {
		t.Errorf("TX1 is %+v", tx)
	}
	if o := m.Parts["ENV1"].Offers[0]; o.Price.String() != "48.00" || o.Breaks["10"].String() != "41.00" || o.LeadTime.Days() != 7 {
		t.Errorf("the offer is %+v", o)
	}
	if len(m.Parts) != 16 || len(m.Station.Duty) != 3 {
		t.Errorf("%d parts and %d states: notes do not count", len(m.Parts), len(m.Station.Duty))
	}
	if m.Parts["RX1"].Receiver.Sensitivity.DBm() != -118 || m.Ground["handheld"].Power.Level().DBm() < 36 {
		t.Error("levels are not what is written")
	}
}

func TestPlacesAndOrigins(t *testing.T) {
	base := manifest.Source{Name: "kit.json", Data: []byte(`{
  "format": "hoistbook-manifest/1", "kit": { "id": "reed", "name": "Reed", "revision": "1.0.0" },
  "parts": { "A": { "name": "a", "mass": "85 g" } }
}`)}
	m := load(t, base, overlay(`{ "parts": { "A": { "mass": "95 g", "x-why": "weighed again" }, "B": { "name": "b" } } }`))
	for pointer, want := range map[string][2]string{
		"/parts/A/name":   {"kit.json:3:21", "kit.json:3:29"},
		"/parts/A/mass":   {"club.json:1:21", "club.json:1:29"},
		"/parts/B":        {"club.json:1:65", "club.json:1:70"},
		"/parts/B/mass":   {"club.json:1:65", "club.json:1:65"},
		"/station":        {"kit.json:1:1", "kit.json:1:1"},
		"/parts/A/x-why":  {"club.json:1:37", "club.json:1:46"},
		"/kit/id":         {"kit.json:2:46", "kit.json:2:52"},
		"/parts/C/nobody": {"kit.json:3:3", "kit.json:3:3"},
	} {
		if key, value := m.Place(pointer).String(), m.ValuePlace(pointer).String(); key != want[0] || value != want[1] {
			t.Errorf("%s has its key at %s and its value at %s, want %s and %s", pointer, key, value, want[0], want[1])
		}
	}
	for pointer, want := range map[string]string{"/parts/A/mass": "club.json", "/parts/A/name": "kit.json", "/station": ""} {
		if got := m.Origin(pointer); got != want || m.Has(pointer) != (want != "") {
			t.Errorf("%s comes from %q (has: %v), want %q", pointer, got, m.Has(pointer), want)
		}
	}
	if text, ok := m.Text("/parts/A/mass"); text != "95 g" || !ok {
		t.Errorf("the mass is written %q", text)
	}
	if text, ok := m.Text("/parts/A"); text != "" || ok {
		t.Errorf("an object has the text %q", text)
	}
}

func TestNotesSurvive(t *testing.T) {
	bare := load(t, full(t))
	noted := load(t, full(t), overlay(`{ "x-a": [1], "parts": { "TX1": { "load": { "wire": { "x-b": { "any": null } } } } }, "x-c": "d" }`))
	for _, note := range []string{"/x-a/0", "/parts/TX1/load/wire/x-b", "/x-c", "/x-note", "/parts/x-order"} {
		if !noted.Has(note) {
			t.Errorf("the note %s is gone", note)
		}
	}
	if noted.Digest() == bare.Digest() || !strings.Contains(string(noted.JSON()), `"x-c":"d"`) {
		t.Error("the digest does not cover notes")
	}
}

func TestOverlaysApplyInOrder(t *testing.T) {
	m := load(t, full(t), overlay(`{"kit": {"name": "first", "licence": null}}`), overlay(`{"kit": {"name": "second"}}`))
	if m.Kit.Name != "second" || m.Kit.Licence != "" || m.Kit.ID != "reed-relay" {
		t.Errorf("the kit is %+v", m.Kit)
	}
}

func TestDigestLooksLikeOne(t *testing.T) {
	m := load(t, full(t))
	if !regexp.MustCompile(`^sha256:[0-9a-f]{64}$`).MatchString(m.Digest()) || m.ShortDigest() != m.Digest()[7:19] {
		t.Errorf("the digests are %q and %q", m.Digest(), m.ShortDigest())
	}
}

func TestLoadKeepsItsLimits(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"deep":  {strings.Repeat(`{"x-a":`, 200) + "1" + strings.Repeat("}", 200), "levels deep"},
		"large": {`{"x-a": "` + strings.Repeat("a", 5<<20) + `"}`, "bytes"},
		"many":  {`{"x-a": [` + strings.Repeat("1,", 200_000) + `1]}`, "values"},
	} {
		if _, err := manifest.Load(manifest.Source{Name: name, Data: []byte(c.text)}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
