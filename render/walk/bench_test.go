package walk_test

import (
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/walk"
	"hoistbook/rules"
)

// A reading's verdict against its floor in the same run: what the same manifest costs to read, to compute and to judge once.
func BenchmarkReading(b *testing.B) {
	p := aloft(b)
	k := p.Kit()
	b.Run("floor: read, compute and judge a manifest", func(b *testing.B) {
		for b.Loop() {
			m, err := manifest.Load(manifest.Source{Name: "m", Data: k.Manifest.JSON()})
			if err != nil {
				b.Fatal(err)
			}
			rules.Evaluate(k.Packs, kits.Assess(m), rules.Options{})
		}
	})
	for _, c := range []struct{ name, item, a, b string }{
		{"the wind rises", "preflight.wind", "1.9 m/s", "2.0 m/s"},
		{"the scale is read again", "preflight.neck-scale", "3.95 kg", "3.9 kg"},
		{"more line is out", "preflight.line-out", "45 m", "44 m"},
	} {
		b.Run(c.name, func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				s, _, err := p.Next(walk.Input{Do: walk.Read, Who: "Ada", Item: c.item, Text: []string{c.a, c.b}[i%2]}, p.now)
				if err != nil {
					b.Fatal(err)
				}
				if v := s.View(p.now); v.Verdict != walk.GO {
					b.Fatal(v.Verdict)
				}
			}
		})
	}
}
