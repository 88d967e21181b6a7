package main

import (
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// demos makes the facts of demonstration kits with a change, and remembers those of kits without one.
type demos map[string]rules.Facts

func (d demos) assess(kit string, change *jsontree.Node) (rules.Facts, error) {
	if known, ok := d[kit]; ok && change == nil {
		return known, nil
	}
	base, _ := kits.Demo(kit)
	var overlays []manifest.Source
	if change != nil {
		overlays = append(overlays, manifest.Source{Name: "change", Data: change.JSON()})
	}
	m, err := manifest.Load(base, overlays...)
	if err != nil {
		return nil, err
	}
	facts := kits.Assess(m)
	if change == nil {
		d[kit] = facts
	}
	return facts, nil
}

func builtIn(t testing.TB) rules.Packs {
	t.Helper()
	loaded, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		t.Fatal(err)
	}
	return loaded
}

// Every built-in rule complains about the one example that it carries and is content with the other.
func TestEveryRuleKeepsItsWord(t *testing.T) {
	known := demos{}
	for _, p := range builtIn(t) {
		for _, r := range p.Rules {
			for _, wrong := range r.TryExamples(known.assess) {
				t.Error(wrong)
			}
		}
	}
}

// Whatever a reading feeds into the manifest, the manifest can hold, from one end of the plausible to the other.
func TestReadingsFeedTheManifest(t *testing.T) {
	base, _ := kits.Demo(kits.FirstDemo)
	m, err := manifest.Load(base)
	if err != nil {
		t.Fatal(err)
	}
	dimensions := map[string]unit.Dimension{}
	for _, d := range unit.Dimensions() {
		dimensions[d.String()] = d
	}
	fed := 0
	for _, p := range builtIn(t) {
		for _, item := range p.Checklist {
			if item.Reading == nil {
				continue
			}
			for _, end := range item.Reading.Plausible {
				q, err := unit.ParseQuantity(dimensions[string(item.Reading.Dimension)], end)
				if err != nil {
					t.Fatal(err)
				}
				values := map[string]unit.Quantity{}
				for _, pointer := range item.Reading.Feeds {
					values[pointer] = q
					fed++
				}
				if _, err := (kits.Readings{Values: values}).Lay(m); err != nil {
					t.Errorf("%s: %s: %v", item.Node.Place(), end, err)
				}
			}
		}
	}
	if fed < 3 {
		t.Errorf("only %d readings feed the manifest", fed)
	}
}

// Whatever a crew reads, some item with a reading of its kind says which instrument is taken along. Pieces are counted by hand.
func TestEveryReadingHasItsInstrument(t *testing.T) {
	read, has := map[string]string{}, map[string]bool{}
	for _, p := range builtIn(t) {
		for _, item := range p.Checklist {
			if item.Reading != nil && item.Reading.Dimension != "count" {
				read[string(item.Reading.Dimension)] = item.ID
				has[string(item.Reading.Dimension)] = has[string(item.Reading.Dimension)] || len(item.Gear) > 0
			}
		}
	}
	for dimension, id := range read {
		if !has[dimension] {
			t.Errorf("%s reads %s, and no item says with what", id, dimension)
		}
	}
	if len(read) < 5 {
		t.Errorf("only %d kinds of readings were seen", len(read))
	}
}

func BenchmarkLoad(b *testing.B) {
	texts := packs.Texts()
	for b.Loop() {
		if _, err := rules.Load(kits.Catalogue{}, texts...); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEvaluate(b *testing.B) {
	loaded := builtIn(b)
	facts, err := demos{}.assess("ridge-sphere", nil)
	if err != nil {
		b.Fatal(err)
	}
	o := rules.Options{Regions: []string{"us"}}
	b.ReportMetric(float64(len(rules.Evaluate(loaded, facts, o))), "findings")
	for b.Loop() {
		rules.Evaluate(loaded, facts, o)
	}
}
