package walk_test

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"hoistbook/render/walk"
)

func lines(record []byte) [][]byte {
	return bytes.SplitAfter(bytes.TrimSuffix(record, []byte("\n")), []byte("\n"))
}

func whole(t *testing.T, lines [][]byte) []byte {
	t.Helper()
	text := bytes.Join(lines, nil)
	if !bytes.HasSuffix(text, []byte("\n")) {
		text = append(text, '\n')
	}
	return text
}

func TestARecordReadsBackAsItWasWritten(t *testing.T) {
	p := aloft(t)
	r, err := walk.ReadRecord("r", p.record)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Entries) != len(p.entries) || r.Chain != p.chain || r.Size != int64(len(p.record)) || r.Torn != 0 || r.Closed() {
		t.Errorf("got %d entries, chain %s, %d bytes, %d torn; want %d, %s, %d, 0", len(r.Entries), r.Chain.Short(), r.Size, r.Torn, len(p.entries), p.chain.Short(), len(p.record))
	}
	for i, e := range r.Entries {
		again, chain, err := walk.Chain{}.Seal(e)
		want, wantChain, _ := walk.Chain{}.Seal(p.entries[i])
		if err != nil || !bytes.Equal(again, want) || chain != wantChain {
			t.Errorf("entry %d comes back as\n%s\nand was\n%s", i+1, again, want)
		}
	}
}

// A record that ends within a line has lost that line and no other.
func TestATornLineIsLostAlone(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight)
	p.do(join("Ada", "", true)).through("preflight.go")
	ends := []int{0}
	for i, c := range p.record {
		if c == '\n' {
			ends = append(ends, i+1)
		}
	}
	for cut := ends[1]; cut <= len(p.record); cut += 1 + cut%3 {
		r, err := walk.ReadRecord("r", p.record[:cut])
		if err != nil {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		n, _ := slices.BinarySearch(ends, cut+1)
		if want := ends[n-1]; len(r.Entries) != n-1 || r.Size != int64(want) || r.Torn != int64(cut-want) {
			t.Fatalf("cut at %d: got %d entries, %d whole and %d torn bytes; want %d, %d, %d", cut, len(r.Entries), r.Size, r.Torn, n-1, want, cut-want)
		}
	}
}

func TestTamperingIsFoundAtItsPlace(t *testing.T) {
	p := aloft(t)
	all := lines(p.record)
	for i := 1; i < len(all)-1; i++ {
		for name, change := range map[string]struct {
			lines [][]byte
			want  string
		}{
			"cut":     {slices.Delete(slices.Clone(all), i, i+1), "lines were cut out or moved"},
			"doubled": {slices.Insert(slices.Clone(all), i, all[i]), "lines were put in, doubled or moved"},
			"moved":   {slices.Insert(slices.Delete(slices.Clone(all), i, i+1), i+1, all[i]), "lines were cut out or moved"},
		} {
			if name == "moved" && i == len(all)-2 {
				continue // the last line has no line end of its own here
			}
			_, err := walk.ReadRecord("r", whole(t, change.lines))
			if err == nil || !strings.Contains(err.Error(), change.want) {
				t.Errorf("line %d %s: got %v, want %q", i+1, name, err, change.want)
			}
		}
	}
}

func TestAnyChangedByteIsFound(t *testing.T) {
	p := aloft(t)
	random := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		at := random.IntN(len(p.record) - 1)
		changed := slices.Clone(p.record)
		changed[at] ^= byte(1 + random.IntN(255))
		if changed[len(changed)-1] != '\n' {
			continue
		}
		if _, err := walk.ReadRecord("r", changed); err == nil {
			t.Fatalf("byte %d changed from %q to %q: nobody notices", at, p.record[at], changed[at])
		}
	}
}

func TestAnEditedReadingIsFoundEvenWithAnHonestLook(t *testing.T) {
	p := aloft(t)
	edited := bytes.Replace(p.record, []byte(`"text":"1.8 m/s"`), []byte(`"text":"0.8 m/s"`), 1)
	_, err := walk.ReadRecord("r.jsonl", edited)
	if err == nil || !strings.HasPrefix(err.Error(), "r.jsonl:") || !strings.Contains(err.Error(), "was changed after it was written") {
		t.Errorf("got %v", err)
	}
}

func TestWhatIsNoRecord(t *testing.T) {
	for _, text := range []string{"", "\n", "{}\n", "hello\n", `{"chain":"00","entry":{}}` + "\n", strings.Repeat("x", 200) + "\n"} {
		if _, err := walk.ReadRecord("r", []byte(text)); err == nil || !strings.Contains(err.Error(), "no record") {
			t.Errorf("%.20q: got %v", text, err)
		}
	}
	if _, err := walk.ReadRecord("r", make([]byte, walk.MaxRecord+1)); err == nil {
		t.Error("a record of any size is read")
	}
}

// Gone on with from its record, a walk-through stands exactly where it stood.
func TestARecordLeadsToTheSameState(t *testing.T) {
	p := aloft(t)
	p.do(walk.Input{Do: walk.Down}, walk.Input{Do: walk.Recover}).through("recovery.faults")
	r, err := walk.ReadRecord("r", p.record)
	if err != nil {
		t.Fatal(err)
	}
	k, err := walk.KitOf(r.Entries[0].Opening, p.Kit().Packs, "another version")
	if err != nil {
		t.Fatal(err)
	}
	s, differs, err := walk.Again(k, r.Entries)
	if err != nil || len(differs) > 0 {
		t.Fatal(err, differs)
	}
	if got, want := encode(t, s.View(p.now)), encode(t, p.view()); got != want {
		t.Errorf("resumed:\n%s\nbefore:\n%s", got, want)
	}
}

func TestARecordIsNotGoneOnWithByOtherRules(t *testing.T) {
	p := aloft(t)
	o := *p.entries[0].Opening
	other := kitOf(t, "fen-relay", `{}`, `{"format": "hoistbook-pack/1", "id": "more", "title": "More"}`)
	if _, err := walk.KitOf(&o, other.Packs, ""); err == nil || !strings.Contains(err.Error(), "other rules") {
		t.Errorf("other rules: got %v", err)
	}
	o.Digest = "sha256:0"
	if _, err := walk.KitOf(&o, p.Kit().Packs, ""); err == nil || !strings.Contains(err.Error(), "digest") {
		t.Errorf("another manifest: got %v", err)
	}
}

// A verdict in a record is not believed but found again.
func TestAVerdictThatComesOutOtherwiseIsSaid(t *testing.T) {
	p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight)
	p.do(join("Ada", "", true))
	p.entries[1].Verdict = walk.GO
	_, differs, err := walk.Again(p.Kit(), p.entries)
	if err != nil || len(differs) != 1 || !strings.Contains(differs[0], "entry 2 says GO, and it comes out as NOT SHOWN YET") {
		t.Errorf("got %v, %v", differs, err)
	}
}
