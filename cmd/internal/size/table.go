package size

import (
	"cmp"
	"encoding/json"
	"math"
	"slices"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// A Table is what some facts are along an axis.
type Table struct {
	Title   string    `json:"title"`
	Varied  string    `json:"varied"`
	Columns []Column  `json:"columns"` // the first is what is varied
	Rows    []Row     `json:"rows"`
	Why     string    `json:"why,omitempty"` // why there are no rows
	Aside   []Binding `json:"aside,omitempty"`
}

// A Column is one fact.
type Column struct {
	Fact  string `json:"fact"`
	Title string `json:"title"`
	Unit  string `json:"unit"`
	Words bool   `json:"-"` // the cells are words
}

// A Row is one value of the axis.
type Row struct {
	Now    bool      `json:"now"` // the kit as designed
	Cells  []Cell    `json:"cells"`
	Go     bool      `json:"go"`
	NotMet []Binding `json:"not_met"`
}

// A Cell is an amount, or a word.
type Cell struct {
	Amount
	Word string
}

// MarshalJSON writes the number or the word; what is not known is null.
func (c Cell) MarshalJSON() ([]byte, error) {
	if c.Word != "" {
		return json.Marshal(c.Word)
	}
	return c.Amount.MarshalJSON()
}

// Text prints the cell.
func (c Cell) Text() string {
	if c.Word != "" {
		return c.Word
	}
	return c.Amount.Text()
}

// tables are the sweeps of the report.
func (k *kit) tables() []Table {
	wind, line, fill, height := k.wind(), k.line0(), k.fill(), k.lowest()
	strongest := most(1.3*wind.now, 1.3*k.base.number("wind.greatest_m_s"), 1)
	bought := most(k.base.number("tether.length_m"), line.now)
	full := most(k.base.number("gas.largest_m3")*k.base.number("gas.fill_m3")/k.base.number("gas.volume_hot_m3"), fill.now)
	return []Table{
		k.table("Neck lift needed against wind", wind, 0, strongest, "lift.neck_needed_kg", "gas.fill_needed_m3", "lift.neck_binds"),
		k.table("Greatest wind against line paid out", line, most(0.25*line.now, k.base.number("station.lowest_height_m")), bought, "wind.greatest_m_s", "wind.binds"),
		k.table("Greatest wind against fill", fill, 0.5*fill.now, full, "lift.neck_kg", "wind.greatest_m_s", "wind.binds"),
		k.table("Height and lean against wind", wind, 0, strongest, "tether.height_m", "tether.drift_m", "tether.lean_deg", "tether.tension_peak_n"),
		k.table("Coverage against lowest height", height, 0.25*line.now, line.now, "radio.coverage_km", "radio.horizon_km"),
	}
}

// most is the greatest number of those that are known.
func most(numbers ...float64) float64 {
	greatest := math.NaN()
	for _, n := range numbers {
		if math.IsNaN(greatest) || n > greatest {
			greatest = n
		}
	}
	return greatest
}

// line0 varies the line paid out and leaves the lowest height alone.
func (k *kit) line0() *axis {
	a, n := k.number("line out", "/station/tether_out")
	if a.missing == "" {
		a.scale(unit.DimLength, n.Value.SI, 100)
	}
	return a
}

// rowsWanted is about how many rows a table has.
const rowsWanted = 8

func (k *kit) table(title string, a *axis, from, to float64, facts ...string) Table {
	t := Table{Title: title, Varied: a.varied, Rows: []Row{}}
	if a.missing != "" || !(to > from) {
		t.Why = a.missing
		if t.Why == "" {
			t.Why = "the kit as designed does not say between which values"
		}
		return t
	}
	at := a.round(from, to)
	if !slices.Contains(at, a.now) {
		at = append(at, a.now)
		slices.Sort(at)
	}
	states := a.judgeAll(at)
	aside := k.aside(a, states)
	t.Aside = k.setAside(aside)
	t.Columns = append(t.Columns, Column{Fact: "", Title: a.what, Unit: a.symbol})
	for _, id := range facts {
		t.Columns = append(t.Columns, k.column(id, states))
	}
	places := a.enough(at)
	for i, s := range states {
		value := a.amount(at[i])
		value.Decimals = places
		row := Row{Now: at[i] == a.now, Go: s.goes(aside), NotMet: bindings(s.failing(aside)), Cells: []Cell{{Amount: value}}}
		for c, id := range facts {
			row.Cells = append(row.Cells, cell(s, id, t.Columns[c+1].Unit))
		}
		t.Rows = append(t.Rows, row)
	}
	align(&t)
	return t
}

// round lists round values from one to another.
func (a *axis) round(from, to float64) []float64 {
	in := func(held float64) float64 { return unit.Quantity{SI: held, Dim: a.dim}.In(a.symbol) }
	step := nice((in(to) - in(from)) / rowsWanted)
	var at []float64
	for n := math.Ceil(in(from)/step - 1e-9); n*step <= in(to)*(1+1e-9); n++ {
		at = append(at, a.at(int(math.Round(n*step/a.step))))
	}
	return slices.Compact(at)
}

// enough decimals show all of some values exactly, as far as the row has decimals.
func (a *axis) enough(at []float64) int {
	for places := range a.places {
		exact := true
		for _, x := range at {
			shown := unit.Quantity{SI: x, Dim: a.dim}.In(a.symbol) * math.Pow10(places)
			exact = exact && math.Abs(shown-math.Round(shown)) < 1e-6
		}
		if exact {
			return places
		}
	}
	return a.places
}

// nice is the smallest of 1, 2 and 5 times a power of ten that is not below n.
func nice(n float64) float64 {
	power := math.Pow10(int(math.Floor(math.Log10(n))))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= n*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// heads are short titles of facts for the heads of columns.
var heads = map[string]string{
	"lift.neck_needed_kg": "neck lift", "gas.fill_needed_m3": "fill", "lift.neck_binds": "what binds", "wind.greatest_m_s": "wind", "wind.binds": "what binds",
	"lift.neck_kg": "neck lift", "tether.height_m": "height", "tether.drift_m": "drift", "tether.lean_deg": "lean", "tether.tension_peak_n": "gust pull",
	"radio.coverage_km": "coverage", "radio.horizon_km": "horizon",
}

// column gives all values of a fact the unit that suits the greatest of them.
func (k *kit) column(id string, states []state) Column {
	about, _ := k.facts.Find(id)
	c := Column{Fact: id}
	if about.Entry == nil {
		return c
	}
	c.Title, c.Unit = cmp.Or(heads[id], about.Entry.Title), about.Entry.Unit
	if c.Words = about.Entry.Kind != fact.Number; c.Words {
		return c
	}
	size := 0.0
	for _, s := range states {
		size = most(size, math.Abs(s.number(id)))
	}
	c.Unit = unit.Quantity{SI: size, Dim: about.Entry.Dim}.Symbol(k.system)
	return c
}

func cell(s state, id, symbol string) Cell {
	unknown := Cell{Amount: Amount{Quantity: unit.Quantity{SI: math.NaN()}, Symbol: "kg"}}
	if s.facts == nil {
		return unknown
	}
	v, ok := s.facts.Lookup(id)
	switch {
	case !ok || !v.Known():
		return unknown
	case v.Kind == fact.Number:
		return Cell{Amount: Amount{Quantity: v.Quantity, Symbol: symbol}}
	}
	return Cell{Word: v.Text}
}

// align gives every column the decimals that show its greatest value to three figures.
func align(t *Table) {
	for c := 1; c < len(t.Columns); c++ {
		places := -1
		for _, r := range t.Rows {
			if a := r.Cells[c].Amount; a.Known() && r.Cells[c].Word == "" && a.SI != 0 {
				if d := decimals(a.In(a.Symbol), 3); places < 0 || d < places {
					places = d
				}
			}
		}
		for i := range t.Rows {
			t.Rows[i].Cells[c].Decimals = max(places, 0)
		}
	}
}
