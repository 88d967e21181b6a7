package tether

import (
	"fmt"
	"math"
	"testing"

	"hoistbook/kits/internal/outside"
	"hoistbook/kits/unit"
)

func TestPublishedValues(t *testing.T) {
	var checks []outside.Check
	add := func(what, source, at, published, u string, ours, within float64, why string) {
		checks = append(checks, outside.Check{What: what, Source: source, At: at, Published: published, Unit: u, Ours: ours, Within: within, Why: why})
	}
	const catenary = "the catenary, worked by hand and by quadrature"
	heavy := stand(t, pulled(20, 10, 0.05, 100, 5, 0), 5)
	add("height on 100 m of 0.05 N/m, pulled by 20 N up and 10 N across", catenary, "", "86.658", "m", heavy.Height.SI(), 1e-3, "a march")
	add("drift on the same line", catenary, "", "49.774", "m", heavy.Drift.SI(), 1e-3, "a march")
	add("tension at its foot", catenary, "", "18.028", "N", heavy.TensionGround.SI(), 1e-3, "a march")
	straight := stand(t, pulled(20, 10, 0, 100, 5, 0), 5)
	add("lean of a line without weight, pulled by 20 N up and 10 N across", "statics of a straight line", "tan θ = D/L", "26.565", "°", straight.Lean.Degrees(), 0, "")
	add("height on 100 m of it", "statics of a straight line", "h = s cos θ", "89.443", "m", straight.Height.SI(), 0, "")
	add("tension of it", "statics of a straight line", "T = √(L² + D²)", "22.361", "N", straight.TensionTop.SI(), 0, "")
	for _, c := range []struct {
		exponent, height float64
		printed          string
	}{{1. / 7, 50, "12.59"}, {1. / 7, 150, "14.72"}, {0.2, 100, "15.85"}, {0.4, 100, "25.12"}} {
		add(fmt.Sprintf("wind at %v m over 10 m/s at 10 m, exponent %.3g", c.height, c.exponent), "patel", "power law, worked by hand", c.printed, "m/s", Profile{10, c.exponent}.At(unit.Length(c.height), 10).SI(), 6e-3, "one unit of the last digit")
	}
	for _, c := range []struct {
		terrain Terrain
		printed string
	}{{Water, "0.10"}, {Open, "0.15"}, {Rough, "0.20"}, {Wooded, "0.25"}, {Town, "0.30"}, {City, "0.40"}} {
		exponent, _ := c.terrain.Exponent()
		add("exponent of the wind, "+string(c.terrain), "patel", "", c.printed, "", exponent, 0, "")
	}
	for _, c := range []struct {
		cd, wind float64
		printed  string
	}{{0.47, 5, "22.6"}, {0.7, 10, "134.7"}} {
		add(fmt.Sprintf("drag of a sphere of 2 m at %v m/s, coefficient %v, air of 1.225 kg/m³", c.wind, c.cd), "hoerner", "½ ρ U² C_d A, worked by hand", c.printed, "N", Balloon{unit.Length(2).Ball(), c.cd}.Drag(1.225, unit.Speed(c.wind)).SI(), 0, "")
	}
	for _, c := range []struct {
		factor  float64
		printed string
	}{{5, "140"}, {12, "58.3"}, {15, "46.7"}} {
		load, _ := WorkingLoad(1000, 0.7, c.factor)
		add(fmt.Sprintf("working load of 1000 N at a knot of 70 %% and a design factor of %v", c.factor), "ci-1401", "working load = strength/design factor", c.printed, "N", load.SI(), 0, "")
	}
	up, across := unit.Force(50*math.Cos(30*degree)), unit.Force(50*math.Sin(30*degree))
	mass, _ := Anchor{Friction: 0.4, DesignFactor: 1.5}.MassNeeded(up, across)
	add("weight of a deadweight under 50 N at 30° from the vertical, friction 0.4, factor 1.5", "statics", "worked by hand", "158.7", "N", mass.Weight().SI(), 0, "")
	outside.Table(t, "kits/tether", "Line, wind and anchor", checks)
}
