package manifest_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A variation says the same as a file with the other value in it, and leaves the manifest it was made from alone.
func TestAVariationIsWhatItsTextSays(t *testing.T) {
	m := load(t, full(t))
	before, tried := string(m.JSON()), 0
	for _, n := range m.Numbers() {
		held := n.Value.SI / 2
		if n.Whole {
			held = n.Value.SI + 1
		}
		varied, err := m.With(n, held)
		if err != nil {
			continue // out of bounds: the test below
		}
		again, err := manifest.Load(manifest.Source{Name: "varied", Data: varied.JSON()})
		if err != nil {
			if !slices.ContainsFunc(belongTogether, func(why string) bool { return strings.Contains(err.Error(), why) }) {
				t.Errorf("%s %s: %v", n.Pointer, n.End, err)
			}
			continue
		}
		tried++
		if !reflect.DeepEqual(again.Document, varied.Document) {
			t.Errorf("%s %s: the document differs from its text", n.Pointer, n.End)
		}
		if varied.Digest() == m.Digest() && held != n.Value.SI {
			t.Errorf("%s %s: the digest is the same for %v", n.Pointer, n.End, held)
		}
		if varied.Place(n.Pointer) != m.Place(n.Pointer) {
			t.Errorf("%s: the place has moved", n.Pointer)
		}
	}
	if tried < 100 {
		t.Errorf("only %d numbers could be varied", tried)
	}
	if string(m.JSON()) != before {
		t.Error("the manifest has changed")
	}
}

// belongTogether are words of what is said of two values that cannot change alone.
var belongTogether = []string{"runs backwards", "100 %", "hottest", "pieces of the one envelope"}

// Every number of a text of the file is found: what a value of the tree says with a digit in it and binds to a number.
func TestNumbersFindsEveryNumber(t *testing.T) {
	m := load(t, full(t))
	found := map[string]manifest.Number{}
	for _, n := range m.Numbers() {
		if _, twice := found[n.Pointer+n.End]; twice {
			t.Errorf("%s %s is listed twice", n.Pointer, n.End)
		}
		found[n.Pointer+n.End] = n
	}
	for pointer, want := range map[string]float64{
		"/station/duration": m.Station.Duration.SI(), "/station/wind/gust_factor": *m.Station.Wind.GustFactor, "/station/duty/transmit": m.Station.Duty["transmit"].SI(),
		"/station/site/coldest": m.Station.Site.Coldest.SI(), "/parts/BAT1/battery/cells_in_series": float64(*m.Parts["BAT1"].Battery.CellsInSeries),
		"/parts/TX1/load/rated" + "low": m.Parts["TX1"].Load.Rated.Low.SI(), "/parts/TX1/load/rated" + "high": m.Parts["TX1"].Load.Rated.High.SI(),
		"/ground/handheld/sensitivity": m.Ground["handheld"].Sensitivity.SI(),
	} {
		if n, ok := found[pointer]; !ok || n.Value.SI != want {
			t.Errorf("%s: got %v, %v, want %v", pointer, n.Value, ok, want)
		}
	}
	if n, ok := m.Number("/budget/per_kit"); !ok || !n.Price {
		t.Errorf("the budget: got %+v, %v", n, ok)
	}
	if _, ok := m.Number("/station/nothing"); ok {
		t.Error("a number that nobody says is found")
	}
}

// Bounds are those of the schema.
func TestAVariationStaysWithinBounds(t *testing.T) {
	m := load(t, full(t))
	for _, c := range []struct {
		pointer string
		held    float64
		ok      bool
	}{
		{"/station/duration", 0, false}, {"/station/duration", 1, true}, {"/station/wind/gust_factor", 0.9, false}, {"/station/wind/gust_factor", 5, true},
		{"/parts/BAT1/battery/usable", 1, true}, {"/parts/BAT1/battery/usable", 1.01, false}, {"/parts/BAT1/battery/cells_in_series", 2.5, false},
		{"/parts/ENV1/mass", -0.1, false}, {"/ground/handheld/sensitivity", -130, true}, {"/station/site/elevation", 1e300, false}, {"/station/site/elevation", 8848, true}, {"/parts/ENV1/envelope/drag_coefficient", 0.05, false}, {"/parts/TX1/load/rated", -1, false}, {"/parts/TX1/load/rated", 0, true},
	} {
		n, ok := m.Number(c.pointer)
		if !ok {
			t.Fatalf("%s is not said", c.pointer)
		}
		if _, err := m.With(n, c.held); (err == nil) != c.ok {
			t.Errorf("%s of %v: got %v, want an error: %v", c.pointer, c.held, err, !c.ok)
		}
	}
}

func TestAddingAPart(t *testing.T) {
	m := load(t, full(t))
	grams := unit.Mass(0.125)
	more, err := m.Adding("ADDED", manifest.Part{Name: "ballast", Place: manifest.Aloft, Mass: &grams, MassBasis: manifest.Weighed})
	if err != nil {
		t.Fatal(err)
	}
	again, err := manifest.Load(manifest.Source{Name: "added", Data: more.JSON()})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(again.Document, more.Document) || len(m.Parts)+1 != len(more.Parts) {
		t.Error("the document differs from its text")
	}
	if _, err := more.Adding("ADDED", manifest.Part{}); err == nil {
		t.Error("a reference is taken twice")
	}
}
