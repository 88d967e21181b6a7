package tether

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"testing"

	"hoistbook/kits/unit"
)

// reference.csv is solved by scipy.integrate.solve_bvp, by collocation in forces instead of a march in angles; the script
// beside it says how. It knows nothing of this package.
func TestAgainstIndependentBoundaryValueSolver(t *testing.T) {
	const tolerance = 1e-3
	rows := readReference(t, "../../testdata/tether/reference.csv")
	if len(rows) < 60 {
		t.Fatalf("got %d cases, want at least 60", len(rows))
	}
	worst, fallen := 0.0, 0
	for _, row := range rows {
		v := row.number
		rig := Rig{
			Line: Line{Length: unit.Length(v("length_m")), LinearMass: unit.LinearMass(v("linear_mass_kg_m")),
				Diameter: unit.Length(v("diameter_m")), DragCoefficient: v("line_cd")},
			Balloon: Balloon{Fill: unit.Volume(v("fill_m3")), DragCoefficient: v("balloon_cd")},
			Lift:    unit.Mass(v("lift_kg")), Air: unit.Density(v("air_kg_m3")),
			Profile: Profile{MeasuredAt: unit.Length(v("measured_at_m")), Exponent: v("exponent")},
		}
		got, err := rig.In(unit.Speed(v("wind_m_s")))
		if row.text["stands"] == "no" {
			fallen++
			if !errors.Is(err, ErrOnGround) {
				t.Errorf("case %s: got %+v (%v), want a line on the ground", row.text["case"], got, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("case %s: %v", row.text["case"], err)
			continue
		}
		for name, value := range map[string]float64{
			"height_m": got.Height.SI(), "drift_m": got.Drift.SI(), "top_n": got.TensionTop.SI(), "ground_n": got.TensionGround.SI(),
			"across_n": got.PullAcross.SI(), "up_n": got.PullUp.SI(),
		} {
			off := math.Abs(value/v(name) - 1)
			worst = math.Max(worst, off)
			if !(off <= tolerance) {
				t.Errorf("case %s: %s %v, want %v", row.text["case"], name, value, v(name))
			}
		}
	}
	if fallen == 0 {
		t.Error("no case has its line on the ground")
	}
	t.Logf("%d cases, largest difference %.1e", len(rows), worst)
}

type referenceRow struct {
	t    *testing.T
	text map[string]string
}

func (r referenceRow) number(column string) float64 {
	r.t.Helper()
	n, err := strconv.ParseFloat(r.text[column], 64)
	if err != nil {
		r.t.Fatalf("case %s: column %s: %v", r.text["case"], column, err)
	}
	return n
}

func readReference(t *testing.T, path string) []referenceRow {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []referenceRow
	for _, line := range lines[1:] {
		row := referenceRow{t, map[string]string{}}
		for i, column := range lines[0] {
			row.text[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}
