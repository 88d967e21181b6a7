package manifest_test

import (
	"slices"
	"testing"
)

func TestOverlaidListsWhatOverlaysSay(t *testing.T) {
	m := load(t, full(t), overlay(`{"kit": {"name": "ours"}, "parts": {"ZZ9": {"name": "new", "place": "ground"}}}`))
	want := []string{"/kit/name", "/parts/ZZ9/name", "/parts/ZZ9/place"}
	if got := m.Overlaid(); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := load(t, full(t)).Overlaid(); len(got) != 0 {
		t.Errorf("without an overlay: got %q, want none", got)
	}
}
