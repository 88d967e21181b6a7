package jsontree_test

import (
	"fmt"
	"strings"
	"testing"

	"hoistbook/kits/jsontree"
)

// A large object is looked up as a small one is, and so is one that was made from it with keys left out.
func TestKeysOfLargeObjects(t *testing.T) {
	const keys = 100
	texts := make([]string, keys)
	for i := range texts {
		texts[i] = fmt.Sprintf(`"k%d": %d`, i, i)
	}
	n, problems := jsontree.Parse("large.json", []byte("{"+strings.Join(texts, ",")+"}"))
	if problems != nil {
		t.Fatal(problems)
	}
	less := n.Without("k0", "k50")
	for i := range keys {
		name, want := fmt.Sprintf("k%d", i), fmt.Sprint(i)
		if got := n.Get(name); got == nil || got.Text != want {
			t.Errorf("%s is %v", name, got)
		}
		got := less.Get(name)
		if gone := i == 0 || i == 50; gone != (got == nil) || !gone && got.Text != want {
			t.Errorf("with two keys left out %s is %v", name, got)
		}
	}
	if n.Get("k100") != nil || less.Get("") != nil {
		t.Error("keys that are not there are found")
	}
}
