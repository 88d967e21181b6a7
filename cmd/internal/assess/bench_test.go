package assess_test

import (
	"testing"

	"hoistbook/cmd/internal/assess"
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// calm says no wind, so that nothing of the line is solved and nothing sought.
var calm = manifest.Source{Name: "calm", Data: []byte(`{"station": {"wind": null}}`)}

func benched(b *testing.B, overlays ...manifest.Source) (*manifest.Manifest, rules.Packs) {
	b.Helper()
	source, _ := kits.Demo(kits.FirstDemo)
	m, err := manifest.Load(source, overlays...)
	if err != nil {
		b.Fatal(err)
	}
	all, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		b.Fatal(err)
	}
	return m, all
}

func BenchmarkFacts(b *testing.B) {
	m, _ := benched(b)
	for b.Loop() {
		kits.Assess(m)
	}
}

func BenchmarkFactsWithoutStatics(b *testing.B) {
	m, _ := benched(b, calm)
	for b.Loop() {
		kits.Assess(m)
	}
}

func BenchmarkFactsAndRules(b *testing.B) {
	m, all := benched(b)
	o := crew.Options(m, unit.SI)
	for b.Loop() {
		rules.Evaluate(all, kits.Assess(m), o)
	}
}

// checks is a whole check as the command does it, from the texts of manifest and packs to the bytes of the report.
func checks(b *testing.B, overlays ...manifest.Source) {
	source, _ := kits.Demo(kits.FirstDemo)
	for b.Loop() {
		all, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
		if err != nil {
			b.Fatal(err)
		}
		m, err := manifest.Load(source, overlays...)
		if err != nil {
			b.Fatal(err)
		}
		a, err := assess.Of(m, all, unit.SI)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := a.JSON(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheck(b *testing.B)               { checks(b) }
func BenchmarkCheckWithoutStatics(b *testing.B) { checks(b, calm) }
