package asbuilt

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hoistbook/kits"
	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/schemas"
)

func demo(t testing.TB, overlays ...manifest.Source) *manifest.Manifest {
	t.Helper()
	source, ok := kits.Demo("fen-relay")
	if !ok {
		t.Fatal("there is no demonstration kit")
	}
	m, err := manifest.Load(source, overlays...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestRead(t *testing.T) {
	m := demo(t)
	for _, c := range []struct {
		ref, text string
		want      float64 // in SI
		wrong     string
	}{
		{"BAT1", "301 g", 0.301, ""},
		{"BAT1", "0.301kg", 0.301, ""},
		{"BAT1", "10.6 oz", 10.6 * 0.028349523125, ""},
		{"PEN1", "12.3 g / 3", 0.0041, ""},
		{"PEN1", "12.3 g/3", 0.0041, ""},
		{"TET1", "1.42 g/m", 0.00142, ""},
		{"TET1", "84 g / 60 m", 0.0014, ""},
		{"TET1", "84 g", 0, `"84 g" is not the linear mass of a line`},
		{"BAT1", "301", 0, "unit"},
		{"BAT1", "3,01 g", 0, "decimal comma"},
		{"BAT1", "0 g", 0, "shows nothing"},
		{"BAT1", "2.98 kg", 0, "look at the unit"},
		{"BAT1", "30 g", 0, "look at the unit"},
		{"PEN1", "12.3 g / 0", 0, `"0" is not a number of pieces`},
		{"BAT", "301 g", 0, `there is no part "BAT"; did you mean "BAT1"?`},
	} {
		r, err := Read(m, c.ref, c.text, diag.Place{File: "r.csv", Line: 2, Col: 3}, false)
		if c.wrong != "" {
			if err == nil || !strings.Contains(err.Error(), c.wrong) || !strings.HasPrefix(err.Error(), "r.csv:2:3: ") {
				t.Errorf("%s=%s: got %v, want %q", c.ref, c.text, err, c.wrong)
			}
			continue
		}
		if err != nil || math.Abs(r.Mass.SI-c.want) > 1e-12 {
			t.Errorf("%s=%s: got %v, %v, want %v", c.ref, c.text, r.Mass.SI, err, c.want)
		}
	}
	if _, err := Read(m, "BAT1", "2.98 kg", diag.Place{}, true); err != nil {
		t.Errorf("a reading that is sure is refused: %v", err)
	}
}

// The overlay of a copy is one that its schema knows, was made for this revision, and gives every part the mass that was read.
func TestOverlayOfACopy(t *testing.T) {
	m := demo(t)
	refs := []string{"BAT1", "TX1", "PEN1", "BOX1", "TET1"}
	rapid.Check(t, func(rt *rapid.T) {
		c := Copy{Serial: "0007"}
		for _, ref := range rapid.SliceOfNDistinct(rapid.SampledFrom(refs), 1, len(refs), rapid.ID).Draw(rt, "refs") {
			stated, _ := Stated(m.Parts[manifest.Ref(ref)])
			mass := unit.Quantity{SI: stated.SI * rapid.Float64Range(0.3, 3).Draw(rt, "times"), Dim: stated.Dim}
			c.Readings = append(c.Readings, Reading{manifest.Ref(ref), "read", mass})
		}
		overlay, err := c.Overlay(m)
		if err != nil {
			rt.Fatal(err)
		}
		tree, err := jsontree.Parse(overlay.Name, overlay.Data)
		if err != nil {
			rt.Fatal(err)
		}
		if wrong := schemas.Validate("overlay", tree.Any()); len(wrong) > 0 || !manifest.IsOverlay(overlay) {
			rt.Fatalf("the overlay does not follow its schema: %v", wrong)
		}
		built := demo(t, overlay)
		if built.Kit.Serial != "0007" || len(built.Layers()[0].Stale) > 0 {
			rt.Fatalf("copy %q, stale %v", built.Kit.Serial, built.Layers()[0].Stale)
		}
		for _, r := range c.Readings {
			got, ok := Stated(built.Parts[r.Ref])
			if !ok || math.Abs(got.SI-r.Mass.SI) > 1e-5*r.Mass.SI || built.Parts[r.Ref].MassBasis != manifest.Weighed {
				rt.Fatalf("%s weighs %v, want %v", r.Ref, got.SI, r.Mass.SI)
			}
		}
	})
}

func TestDesign(t *testing.T) {
	facts := kits.Assess(demo(t))
	read := func(ref, text string) Reading {
		r, err := Read(facts.Manifest, ref, text, diag.Place{}, true)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	copies := []Copy{
		{"1", []Reading{read("BAT1", "300 g"), read("TX1", "31 g"), read("WIR1", "34 g"), read("BOX1", "100 g")}},
		{"2", []Reading{read("BAT1", "302 g"), read("TX1", "33 g"), read("WIR1", "37 g")}},
	}
	// From the policy: weighed 2 %, calculated 10 %. BAT1 states 298 g weighed, TX1 31 g weighed, WIR1 34 g calculated, BOX1 118 g weighed.
	want := map[manifest.Ref]struct {
		mean    float64
		finding Finding
	}{"BAT1": {0.301, Within}, "TX1": {0.032, Beyond}, "WIR1": {0.0355, Within}, "BOX1": {0.1, Lighter}}
	lines := Design(facts, copies)
	if len(lines) != len(want) {
		t.Fatalf("%d lines, want %d", len(lines), len(want))
	}
	for _, l := range lines {
		if w := want[l.Ref]; l.Finding != w.finding || math.Abs(l.Mean.SI-w.mean) > 1e-12 {
			t.Errorf("%s: %s with a mean of %v, want %s with %v", l.Ref, l.Finding, l.Mean.SI, w.finding, w.mean)
		}
	}
	if left := Unweighed(facts, copies[1]); slices.Contains(left, "BAT1") || !slices.Contains(left, "BOX1") || !slices.Contains(left, "TET1") {
		t.Errorf("not weighed: %v", left)
	}
}

func TestReadSheet(t *testing.T) {
	m := demo(t)
	copies, err := ReadSheet(m, "r.csv", []byte("\xef\xbb\xbfref;0001;0002\r\nBAT1;301 g;299 g\r\nTX1;;31 g\r\n"), false)
	if err != nil || len(copies) != 2 || len(copies[0].Readings) != 1 || len(copies[1].Readings) != 2 || copies[1].Serial != "0002" {
		t.Errorf("got %+v, %v", copies, err)
	}
	for text, want := range map[string]string{
		"":                        "r.csv:1:1: this is no table of readings",
		"part,mass\n":             "this is no table of readings",
		"ref,1,1\nBAT1,1 g,1 g":   `r.csv:1:7: the serial number "1" stands here again`,
		"ref,../a\n":              "names a file",
		"ref,1\nBAT1,3 m\n":       "r.csv:2:6: BAT1: ",
		"ref,1\nBAT9,3 g\n":       `r.csv:2:6: there is no part "BAT9"`,
		"ref,1\nBAT1,300 g,5 g":   "wrong number of fields",
		"ref,1\nTX1,30 g\nTX1,\n": `r.csv:3:1: the part "TX1" stands here again`,
	} {
		if _, err := ReadSheet(m, "r.csv", []byte(text), false); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %v, want %q", text, err, want)
		}
	}
}

func FuzzReadSheet(f *testing.F) {
	source, _ := kits.Demo("fen-relay")
	m, err := manifest.Load(source)
	if err != nil {
		f.Fatal(err)
	}
	f.Add([]byte("ref,0001\nBAT1,301 g\n"))
	f.Add([]byte("ref;1\n\"BAT1\";\"1 g\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		copies, err := ReadSheet(m, "r.csv", data, false)
		for _, c := range copies {
			for _, r := range c.Readings {
				if err == nil && !(r.Mass.SI > 0) {
					t.Errorf("%s: a mass of %v was read", r.Ref, r.Mass.SI)
				}
			}
		}
	})
}

func TestSerialNumbersNameFiles(t *testing.T) {
	for _, wrong := range []string{"", ".", "..", "a/b", `a\b`, "-o", strings.Repeat("7", 41), "ü", "a b"} {
		if CheckSerial(wrong) == nil {
			t.Errorf("%q passes", wrong)
		}
	}
	if err := CheckSerial("2026-A.7_b"); err != nil || strings.ContainsRune(FileName("7"), os.PathSeparator) {
		t.Error(err)
	}
}
