package rules

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// Relation is how the measured value was compared, in the words of reports.
type Relation string

// The relations. Below and Above come from a negated AtLeast and AtMost.
const (
	AtLeast Relation = "at least"
	AtMost  Relation = "at most"
	Below   Relation = "below"
	Above   Relation = "above"
	Is      Relation = "is"
	IsNot   Relation = "is not"
	Present Relation = "present"
	Absent  Relation = "absent"
)

// A Finding is what one rule says about one subject. For a condition of several comparisons it shows the binding one: of
// those that hold the one with the least relative margin, of those that fail the one that fails most.
type Finding struct {
	Rule    string
	Pack    string
	Subject string // the member of the family, if the rule runs over one
	Title   string
	Level   Level
	Outcome Outcome

	Fact     string // id of the measured fact; empty when nothing was compared
	Measure  fact.Value
	Relation Relation
	Limit    fact.Value
	Unit     string  // symbol in which reports give measure, limit and margin
	Margin   float64 // in Unit; positive is room; NaN where no margin makes sense
	Share    float64 // Margin as a part of the limit, or NaN

	Missing string // id of the fact that is not known, where that is why it is not shown

	Message string // a sentence with its numbers in the reader's units
	Hint    string
	Source  []string
	Waived  string // the reason why a manifest sets this SHOULD aside
}

// Pair prints measure and limit for a reader: the limit rounded to its safe side, and both with as many figures as it takes to see
// what became of the comparison.
func (f Finding) Pair(system unit.System) (value, limit string) {
	m, l := f.Measure, f.Limit
	if m.Kind != fact.Number || l.Kind != fact.Number || !m.Known() || !l.Known() || m.Quantity.Dim != l.Quantity.Dim {
		return m.Print(system, ""), l.Print(system, "")
	}
	side := unit.AtMost
	switch f.Relation {
	case AtLeast, Above:
		side = unit.AtLeast
	case AtMost, Below:
	default:
		return unit.Apart(m.Quantity, l.Quantity, system)
	}
	return unit.Against(m.Quantity, side, l.Quantity, system)
}

// HasMargin reports whether there is a margin.
func (f Finding) HasMargin() bool { return !math.IsNaN(f.Margin) }

// MarginText prints the margin with its sign, for readers of the given system of units; it is empty when there is none.
func (f Finding) MarginText(system unit.System) string {
	if !f.HasMargin() {
		return ""
	}
	text := marginSize(f.Measure, f.Limit, system)
	switch {
	case f.Margin > 0:
		return "+" + text
	case f.Margin < 0:
		return "−" + text
	}
	return text
}

// marginSize prints the distance between two values of one kind. Between marks on a scale it is in the scale's steps.
func marginSize(measure, limit fact.Value, system unit.System) string {
	if measure.Kind == fact.Money {
		return moneyMargin(measure, limit)
	}
	distance := math.Abs(measure.Quantity.SI - limit.Quantity.SI)
	switch dim := measure.Quantity.Dim; {
	case dim == unit.DimTemperature && system == unit.US:
		return unit.Figures(distance*9/5, 3) + " °F"
	case dim == unit.DimTemperature:
		return unit.Figures(distance, 3) + " °C"
	case dim == unit.DimLevel || dim == unit.DimGain:
		return unit.Quantity{SI: distance, Dim: unit.DimDecibel}.Text(system)
	default:
		return unit.Between(measure.Quantity, limit.Quantity, system)
	}
}

// Reported is a finding as reports write it. What is not known is null.
type Reported struct {
	// The id of the rule.
	Rule string `json:"rule" jsonschema:"example=lift.free"`
	// The id of the rule's pack.
	Pack string `json:"pack" jsonschema:"example=mass-and-lift"`
	// The part, rail or station that it is about, where the rule runs over several.
	Subject string `json:"subject" jsonschema:"example=TX1"`
	// What holds when the rule is met.
	Title string `json:"title" jsonschema:"example=The line bears the gust"`
	// How binding the rule is.
	Level Level `json:"level" jsonschema:"enum=must,enum=should,example=must"`
	// What became of it.
	Outcome string `json:"outcome" jsonschema:"enum=met,enum=not met,enum=not shown,example=met"`
	// The id of the fact that was compared.
	Fact string `json:"fact" jsonschema:"example=tether.tension_peak_n"`
	// The fact's value, in the unit.
	Measure any `json:"measure" jsonschema:"example=49.2"`
	// How it was compared.
	Relation Relation `json:"relation" jsonschema:"example=at most"`
	// What it was compared with, in the unit.
	Limit any `json:"limit" jsonschema:"example=62.5"`
	// The unit of measure, limit and margin; empty for counts, words and money.
	Unit string `json:"unit" jsonschema:"example=N"`
	// The room between the two, in the unit; negative where it is lacking.
	Margin any `json:"margin" jsonschema:"example=13.3"`
	// The margin as a part of the limit.
	RelativeMargin any `json:"relative_margin" jsonschema:"example=0.213"`
	// A sentence with its numbers.
	Message string `json:"message" jsonschema:"example=49.2 N\\, at most 62.5 N"`
	// What to do about it.
	Hint string `json:"hint,omitempty" jsonschema:"example=choose a stronger line"`
	// On whose authority the rule stands.
	Source string `json:"source" jsonschema:"example=kit engineering policy"`
	// The reason for which the manifest sets the rule aside.
	Waived string `json:"waived,omitempty" jsonschema:"example=nobody lives below"`
}

// Report writes the finding as reports do.
func (f Finding) Report() Reported {
	r := Reported{
		Rule: f.Rule, Pack: f.Pack, Subject: f.Subject, Title: f.Title, Level: f.Level, Outcome: f.Outcome.String(), Fact: f.Fact,
		Relation: f.Relation, Unit: f.Unit, Message: f.Message, Hint: f.Hint, Source: strings.Join(f.Source, "; "), Waived: f.Waived,
	}
	if f.Fact != "" {
		r.Measure = f.Measure.JSON(f.Unit)
	}
	if f.Fact != "" && f.Relation != Present && f.Relation != Absent {
		r.Limit = f.Limit.JSON(f.Unit)
	}
	r.Margin, r.RelativeMargin = finite(f.Margin), finite(f.Share)
	if f.HasMargin() && f.Measure.Kind == fact.Money {
		r.Margin = signed(f.Margin, moneyMargin(f.Measure, f.Limit))
	}
	return r
}

// MarshalJSON writes the finding as reports do.
func (f Finding) MarshalJSON() ([]byte, error) { return json.Marshal(f.Report()) }

func signed(n float64, text string) string {
	if n < 0 {
		return "-" + text
	}
	return text
}

// finite returns the number to twelve figures, or nil when there is none.
func finite(n float64) any {
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return nil
	}
	n, _ = strconv.ParseFloat(strconv.FormatFloat(n, 'g', 12, 64), 64) // it reads what it wrote
	return n
}
