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
						// Paper asks for the fill of the coldest day, on which its pulls and its anchor are computed: it cannot compute them anew.
						planned := wrong > 0 && step.ID == "preflight.neck-scale"
						if on := step.Response; !elsewhere[step.ID] && !planned && !strings.Contains(on, text) && !(wrong > 0 && strings.Contains(on, "just charged")) && !strings.Contains(on, strings.Replace(text, " mi", " miles", 1)) {
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

// With every reading the limits move, and what is asked then is what is judged: a fen relay that is read at the very edge of all it may.
func TestWhatIsAskedIsWhatIsJudged(t *testing.T) {
	for _, system := range []unit.System{unit.SI, unit.US} {
		k := kitOf(t, "fen-relay", `{}`)
		k.System = system
		p := start(t, k, walk.Preflight).do(join("Ada", "", true))
		edges := 0
		for range 100 {
			it := p.item(p.view().Next)
			if it.Key == "preflight.launch" {
				break
			}
			for text, wrong := range asks(it.Response) {
				if it.Asks == nil {
					continue
				}
				edges++
				p.do(walk.Input{Do: walk.Read, Item: it.ID, Subject: it.Subject, Text: typedText(t, text, 0)})
				if now := p.item(it.Key); now.State != "settled" || now.Response != it.Response {
					t.Errorf("%s asks %q, and %s is %s (%s), of %q", it.Key, it.Response, text, now.State, now.Why, now.Response)
				}
				p.do(walk.Input{Do: walk.Read, Item: it.ID, Subject: it.Subject, Text: typedText(t, text, wrong)})
				if now := p.item(it.Key); now.State != "not met" || !strings.HasPrefix(now.Why, "reads "+now.Answer[:strings.IndexAny(now.Answer+",", ",")]) {
					t.Errorf("%s asks %q, and one digit beyond it is %s (%s)", it.Key, it.Response, now.State, now.Why)
				}
			}
			p.do(p.answer(it)...)
		}
		if edges < 7 {
			t.Errorf("%d limits were asked for", edges)
		}
	}
}

// asks takes the limits out of what a reading asks for, each with the way on which it is broken.
func asks(response string) map[string]float64 {
	if most, ok := strings.CutPrefix(response, "at most "); ok {
		return map[string]float64{most: 1}
	}
	if least, ok := strings.CutPrefix(response, "at least "); ok {
		return map[string]float64{least: -1}
	}
	if least, most, ok := strings.Cut(response, " to "); ok && strings.ContainsAny(least, "0123456789") {
		return map[string]float64{least: -1, most: 1}
	}
	return nil
}

// typed is the reading of somebody who types a printed number, so many of its last digits more.
func typed(t *testing.T, dim unit.Dimension, text string, digits float64) unit.Quantity {
	t.Helper()
	q, err := walk.ParseReading(dim, typedText(t, text, digits))
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func typedText(t *testing.T, text string, digits float64) string {
	t.Helper()
	at := strings.IndexFunc(text, func(r rune) bool { return r != '−' && r != '.' && (r < '0' || r > '9') })
	number, symbol := text[:at], text[at:]
	n, err := strconv.ParseFloat(strings.Replace(number, "−", "-", 1), 64)
	if err != nil {
		t.Fatal(err)
	}
	_, decimals, _ := strings.Cut(number, ".")
	return strconv.FormatFloat(n+digits*math.Pow10(-len(decimals)), 'f', len(decimals), 64) + strings.Replace(symbol, "°", "deg", 1)
}
