package walk_test

import (
	"testing"

	"hoistbook/render/walk"
)

func BenchmarkReading(b *testing.B) {
	p := aloft(b)
	texts := []string{"1.9 m/s", "2.0 m/s"}
	i := 0
	for b.Loop() {
		i++
		_, _, err := p.Next(walk.Input{Do: walk.Read, Who: "Ada", Item: "preflight.wind", Text: texts[i%2]}, p.now)
		if err != nil {
			b.Fatal(err)
		}
	}
}
