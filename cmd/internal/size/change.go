package size

import (
	"math"
	"strings"

	"hoistbook/kits/fact"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A Change is a small change of one value, and by how much a margin grows with it.
type Change struct {
	Pointer string  `json:"pointer"`
	End     string  `json:"end,omitempty"` // of a range
	Now     Amount  `json:"now"`
	Unit    string  `json:"unit"`
	Change  string  `json:"change"`         // "+1 %", or "−1 %" where more is out of bounds
	Effect  Share   `json:"effect"`         // on the relative margin
	Step    string  `json:"step"`           // a natural step of the value, or the change again
	ByStep  Share   `json:"by_step"`        // its effect
	Then    *Margin `json:"then,omitempty"` // the thinnest margin after the step, where it is another

	number manifest.Number
	held   float64
	shares map[key]float64
}

// changes are one small change of every value that the manifest says, counts of pieces apart.
func (k *kit) changes() []Change {
	var out []Change
	for _, n := range k.m.Numbers() {
		if n.Whole || n.Value.SI == 0 && !logarithmic(n.Value.Dim) {
			continue
		}
		c := Change{Pointer: n.Pointer, End: n.End, number: n, Change: "+1 %", held: percentMore(n.Value), Unit: n.Value.Symbol(k.system), Now: amount(fact.Of(n.Value), k.system)}
		if _, err := k.varied(n, c.held); err != nil {
			c.Change, c.held = "−1 %", 2*n.Value.SI-c.held
		}
		out = append(out, c)
	}
	return out
}

// percentMore is one hundredth more of what a value stands for: of the power of decibels, of the absolute temperature, of the
// diameter that a gauge names (ASTM B258: 39 gauges are a factor of 92).
func percentMore(q unit.Quantity) float64 {
	switch {
	case logarithmic(q.Dim):
		return q.SI + 10*math.Log10(1.01)
	case q.Dim == unit.DimGauge:
		return q.SI - 39*math.Log(1.01)/math.Log(92)
	}
	return q.SI * 1.01
}

func logarithmic(dim unit.Dimension) bool {
	return dim == unit.DimDecibel || dim == unit.DimGain || dim == unit.DimLevel
}

// changed is the kit with another value in the place of one.
func (k *kit) changed(n manifest.Number, held float64) (state, bool) {
	m, err := k.varied(n, held)
	if err != nil {
		return state{}, false
	}
	return k.judge(m), true
}

// varied is the manifest of it. Shares of time make room for each other.
func (k *kit) varied(n manifest.Number, held float64) (*manifest.Manifest, error) {
	m, err := k.m.With(n, held)
	if err == nil && strings.HasPrefix(n.Pointer, duty) {
		return k.makeRoom(m, n, held-n.Value.SI)
	}
	return m, err
}

const duty = "/station/duty/"

// makeRoom takes from the largest other share of time what one has gained.
func (k *kit) makeRoom(m *manifest.Manifest, grown manifest.Number, by float64) (*manifest.Manifest, error) {
	var other manifest.Number
	for _, n := range k.m.Numbers() {
		if strings.HasPrefix(n.Pointer, duty) && n.Pointer != grown.Pointer && n.Value.SI > other.Value.SI {
			other = n
		}
	}
	if other.Pointer == "" {
		return m, nil
	}
	return m.With(other, other.Value.SI-by)
}

// naturalStep is one mark of a scale that has no zero, and otherwise the greatest power of ten of the unit that is at most a
// tenth of the value.
func naturalStep(q unit.Quantity, symbol string) (held float64, text string) {
	switch {
	case logarithmic(q.Dim):
		return 1, "+1 dB"
	case q.Dim == unit.DimGauge:
		return 1, "+1 AWG"
	case q.Dim == unit.DimTemperature && symbol == "degF":
		return 5. / 9, "+1 °F"
	case q.Dim == unit.DimTemperature:
		return 1, "+1 °C"
	}
	power := int(math.Floor(math.Log10(math.Abs(q.In(symbol))/10) + 1e-9))
	for _, u := range q.Dim.Info().Units {
		if u.Symbol == symbol {
			q.SI = math.Pow10(power) * u.Mul / u.Div
		}
	}
	return q.SI, "+" + q.TextTo(symbol, max(0, -power))
}

// Name is how a value of the manifest is called in running text: "BAT1 mass", "station wind speed".
func Name(pointer, end string) string {
	names, _ := jsontree.SplitPointer(pointer)
	if len(names) > 0 && names[0] == "parts" {
		names = names[1:]
	}
	text := strings.ReplaceAll(strings.Join(names, " "), "_", " ")
	if end != "" {
		text += ", " + end
	}
	return text
}
