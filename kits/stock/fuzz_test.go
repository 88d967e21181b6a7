package stock

import (
	"bytes"
	"maps"
	"testing"
)

// Whatever a stranger's spreadsheet saves is refused in words, or read; written again without a delivery it says the same,
// and with one, that much more.
func FuzzRead(f *testing.F) {
	for _, text := range []string{
		"reference,quantity\nBAT1,3\nTX1,0\n", "quantity;part\r\n4;BAT1\r\n", "\xef\xbb\xbfref\tqty\nBAT1\t12,00\n", "sep=;\nref;qty;note\nx-old;9;\"two\nlines\"\nBAT1;2;=1+1\n",
		"ref,qty\nBAT1,\"3\n", "ref,qty\nBAT1,1.200\n", "ref,ref,qty\n", "\xff\xfe", "ref,qty\nBAT1,-1\nBAT1,2\nNONE,1\n", "ref,qty\n,,,\nBAT1\n",
	} {
		f.Add([]byte(text))
	}
	known := []string{"BAT1", "TX1"}
	f.Fuzz(func(t *testing.T, data []byte) {
		list, err := Read("stock.csv", data, known)
		if err != nil {
			if list != nil || err.Error() == "" {
				t.Fatalf("%q: %v beside %v", data, list, err)
			}
			return
		}
		before := list.Pieces()
		for ref, n := range before {
			if n < 0 || n > most || ref != "BAT1" && ref != "TX1" {
				t.Fatalf("%q: %d pieces of %q", data, n, ref)
			}
		}
		same := list.Received(nil)
		again, err := Read("again.csv", same, known)
		if err != nil || !maps.Equal(again.Pieces(), before) {
			t.Fatalf("%q is written as %q and read as %v (%v), not %v", data, same, again, err, before)
		}
		if before["BAT1"] > most-7 {
			return
		}
		more := list.Received(map[string]int{"BAT1": 7})
		after, err := Read("more.csv", more, known)
		if err != nil || after.Pieces()["BAT1"] != before["BAT1"]+7 || after.Pieces()["TX1"] != before["TX1"] {
			t.Fatalf("%q and 7 more are written as %q (%v)", data, more, err)
		}
		if !bytes.Equal(list.Received(nil), same) {
			t.Fatal("a delivery that was only asked about has changed the list")
		}
	})
}
