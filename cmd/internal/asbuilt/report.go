package asbuilt

import (
	"math"

	"hoistbook/kits/unit"
)

// Format is the format of weighings as programs read them.
const Format = "hoistbook-weighing/1"

// Report is a weighing as programs read it.
type Report struct {
	// The format of this report.
	Format string `json:"format" jsonschema:"enum=hoistbook-weighing/1,example=hoistbook-weighing/1"`
	// The readings against the design.
	Parts []ReportedLine `json:"parts"`
	// What the masses of each copy do.
	Copies []ReportedCopy `json:"copies"`
}

// ReportedLine is one part; masses are in kilograms, those of the tether in kilograms a metre.
type ReportedLine struct {
	// Its reference.
	Ref string `json:"ref" jsonschema:"example=BAT1"`
	// What the design says of one piece; left out where it says nothing.
	Stated *float64 `json:"stated,omitempty" jsonschema:"example=0.298"`
	// The same with its allowance.
	Worst *float64 `json:"worst,omitempty" jsonschema:"example=0.304"`
	// The mean of what was read.
	Mean *float64 `json:"mean,omitempty" jsonschema:"example=0.301"`
	// How many copies were weighed.
	Copies int `json:"copies" jsonschema:"example=2"`
	// What the scale makes of the design.
	Finding Finding `json:"finding" jsonschema:"enum=as designed,enum=heavier than its worst,enum=lighter than stated by more than its allowance,enum=the design says nothing,example=as designed"`
}

// ReportedCopy is one copy.
type ReportedCopy struct {
	// Its serial number.
	Serial string `json:"serial" jsonschema:"example=0007"`
	// What is aloft and was not weighed.
	Unweighed []string `json:"unweighed"`
	// What its masses change: a comparison, which has a schema of its own.
	Comparison any `json:"comparison"`
}

// ReportLines writes the design's lines for programs.
func ReportLines(lines []Line) []ReportedLine {
	all := []ReportedLine{}
	for _, l := range lines {
		one := ReportedLine{Ref: string(l.Ref), Mean: si(l.Mean), Copies: len(l.Read), Finding: l.Finding}
		if l.Finding != Silent {
			one.Stated, one.Worst = si(l.Stated), si(l.Worst)
		}
		all = append(all, one)
	}
	return all
}

func si(q unit.Quantity) *float64 {
	if math.IsNaN(q.SI) || math.IsInf(q.SI, 0) {
		return nil
	}
	return &q.SI
}
