package walk_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/render/walk"
	"hoistbook/rules"
)

// elsewhere are items whose paper asks for what was planned, which is less than what the walk-through allows after its readings.
var elsewhere = map[string]bool{"preflight.wind": true, "preflight.gust": true}

// Whoever reads just the printed number keeps to the limit, and one printed digit on the wrong side does not: for every reading of
// every demonstration kit, in both systems of units, on paper and in the walk-through.
func TestTheNumberThatIsPrintedIsTheLimit(t *testing.T) {
	for _, demo := range kits.Demos() {
		for _, system := range []unit.System{unit.SI, unit.US} {
			k := kitOf(t, demo, `{}`)
			k.System = system
			facts := kits.Assess(k.Manifest)
			limits := 0
			for _, list := range []string{walk.Preflight, walk.Recovery} {
				s, _, err := walk.Start(k, list, morning)
				if err != nil {
					t.Fatal(err)
				}
				asked := map[string]string{}
				for _, phase := range s.View(morning).Phases {
					for _, it := range phase.Items {
						asked[it.Key] = it.Response
					}
				}
				for _, step := range crew.Checklist(k.Manifest, k.Packs, facts, crew.Options(k.Manifest, system), list, crew.Own{}) {
					if step.Reading == nil || !step.Reading.Limited || step.Reading.Dim == unit.DimCount {
						continue
					}
					key := step.ID
					if step.Subject != "" {
						key += "/" + step.Subject
					}
					least, most := step.Reading.Bounds(system)
					for text, wrong := range map[string]float64{least: -1, most: 1} {
						if text == "" {
							continue
						}
						limits++
						if !strings.Contains(asked[key], text) {
							t.Errorf("%s, %s: the walk-through asks %q, and the limit is %s", demo, key, asked[key], text)
						}
						if on := step.Response; !elsewhere[step.ID] && !strings.Contains(on, text) && !(wrong > 0 && strings.Contains(on, "just charged")) && !strings.Contains(on, strings.Replace(text, " mi", " miles", 1)) {
							t.Errorf("%s, %s: paper asks %q, and the limit is %s", demo, key, on, text)
						}
						if got := step.Reading.Judge(typed(t, step.Reading.Dim, text, 0)); got != rules.Met {
							t.Errorf("%s, %s: of a reading of just %s it is said: %s", demo, key, text, got)
						}
						if got := step.Reading.Judge(typed(t, step.Reading.Dim, text, wrong)); got == rules.Met {
							t.Errorf("%s, %s: one digit beyond %s is met as well", demo, key, text)
						}
					}
				}
			}
			if limits < 8 {
				t.Errorf("%s has %d limits", demo, limits)
			}
		}
	}
}

// typed is the reading of somebody who types a printed number, so many of its last digits more.
func typed(t *testing.T, dim unit.Dimension, text string, digits float64) unit.Quantity {
	t.Helper()
	at := strings.IndexFunc(text, func(r rune) bool { return r != '−' && r != '.' && (r < '0' || r > '9') })
	number, symbol := text[:at], text[at:]
	n, err := strconv.ParseFloat(strings.Replace(number, "−", "-", 1), 64)
	if err != nil {
		t.Fatal(err)
	}
	_, decimals, _ := strings.Cut(number, ".")
	number = strconv.FormatFloat(n+digits*math.Pow10(-len(decimals)), 'f', len(decimals), 64)
	q, err := walk.ParseReading(dim, number+strings.Replace(symbol, "°", "deg", 1))
	if err != nil {
		t.Fatal(err)
	}
	return q
}
