package asbuilt

import (
	"math"

	"hoistbook/kits/unit"
	"hoistbook/render/change"
)

// Format is the format of weighings as programs read them.
const Format = "hoistbook-weighing/1"

// Report is a weighing as programs read it.
type Report struct {
	// Format is the format of this report.
	Format string `json:"format"`
	// Parts are the readings against the design.
	Parts []ReportedLine `json:"parts"`
	// Copies are what the masses of each copy do.
	Copies []ReportedCopy `json:"copies"`
}

// ReportedLine is one part; masses are in kilograms, those of the tether in kilograms a metre, null is not stated.
type ReportedLine struct {
	Ref     string   `json:"ref"`
	Stated  *float64 `json:"stated"`
	Worst   *float64 `json:"worst"`
	Mean    *float64 `json:"mean"`
	Copies  int      `json:"copies"`
	Finding Finding  `json:"finding"`
}

// ReportedCopy is one copy.
type ReportedCopy struct {
	Serial     string        `json:"serial"`
	Unweighed  []string      `json:"unweighed"`
	Comparison change.Report `json:"comparison"`
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
