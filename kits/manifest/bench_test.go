package manifest_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"hoistbook/kits/internal/floor"
	"hoistbook/kits/manifest"
)

// Reading a manifest, to the last check, beside bare decoding of the same JSON into maps, and how both grow with the number of
// parts: go run ./cmd/dev bench. A manifest of 10 000 parts is refused; what is measured then is the refusal.
func BenchmarkBesideBareDecoding(b *testing.B) {
	for _, parts := range []int{10, 100, 1000, 2000, 10000} {
		b.Run(fmt.Sprintf("parts=%d", parts), func(b *testing.B) {
			var each []string
			for i := range parts {
				each = append(each, fmt.Sprintf(`"M%d": {"name": "m %d", "place": "aloft", "mass": "1.25 g"}`, i, i))
			}
			text := []byte(head + `"parts": {` + strings.Join(each, ",") + `}}`)
			if _, err := manifest.Load(manifest.Source{Name: "kit.json", Data: text}); (err == nil) != (parts <= 2000) {
				b.Fatal(err)
			}
			floor.Beside(b, func() {
				_, _ = manifest.Load(manifest.Source{Name: "kit.json", Data: text})
			}, func() {
				var any any
				if err := json.Unmarshal(text, &any); err != nil {
					b.Fatal(err)
				}
			})
		})
	}
}
