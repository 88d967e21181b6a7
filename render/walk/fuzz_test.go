package walk_test

import (
	"bytes"
	"testing"

	"hoistbook/render/walk"
)

// Whatever stands in a file, reading it ends, and every byte of what is taken for a record is accounted for.
func FuzzReadRecord(f *testing.F) {
	p := aloft(f)
	short := bytes.SplitAfter(p.record, []byte("\n"))
	f.Add(p.record)
	f.Add(bytes.Join(short[:3], nil))
	f.Add([]byte(`{"chain":"`))
	f.Add([]byte("{}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := walk.ReadRecord("r", data)
		if err != nil {
			return
		}
		if r.Size+r.Torn != int64(len(data)) || len(r.Entries) == 0 {
			t.Fatalf("%d whole and %d torn bytes of %d, %d entries", r.Size, r.Torn, len(data), len(r.Entries))
		}
		if _, err := walk.Tell(r); err != nil {
			return
		}
		if k, err := walk.KitOf(r.Entries[0].Opening, p.Kit().Packs, ""); err == nil {
			_, _, _ = walk.Again(k, r.Entries)
		}
	})
}

// Whatever is typed, a reading is a number of its dimension or a refusal.
func FuzzReading(f *testing.F) {
	p := aloft(f)
	for _, seed := range []string{"1.8 m/s", "1,8 m/s", "4 mph", "-1 m/s", "1e9 m/s", "\u202e1 m/s", "1 800 m/s", ""} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, e, err := p.Next(walk.Input{Do: walk.Read, Who: "Ada", Item: "preflight.gust", Text: text}, p.now)
		if err == nil && (e.Value == "" || e.Outcome == "" || s.N() != p.N()+1) {
			t.Fatalf("%q is taken as %+v", text, e)
		}
	})
}
