package page_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hoistbook/render/internal/sample"
	"hoistbook/render/page"
)

var update = flag.Bool("update", false, "write the goldens anew; then read the difference")

// The sample, which holds every kind of block, comes out as people have looked at it.
func TestSampleIsAsReviewed(t *testing.T) {
	for _, paper := range []page.Paper{page.A4, page.Letter} {
		doc, err := sample.Document(paper)
		if err != nil {
			t.Fatal(err)
		}
		if err := doc.Check(); err != nil {
			t.Fatal(err)
		}
		var got bytes.Buffer
		if err := page.Dump(doc, &got); err != nil {
			t.Fatal(err)
		}
		golden := filepath.Join("testdata", "sample."+strings.ToLower(paper.Name)+".txt")
		if *update {
			if err := os.WriteFile(golden, got.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got.Bytes(), want) {
			t.Errorf("%s: %s", golden, firstDifference(got.String(), string(want)))
		}
	}
}

// A golden that nobody compares with would only look like a test.
func TestGoldensAreUsed(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) != 2 {
		t.Errorf("testdata holds %q, %v; want the two goldens of the sample", files, err)
	}
}

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return fmt.Sprintf("line %d\n got %s\nwant %s", i+1, g[i], w[i])
		}
	}
	return fmt.Sprintf("%d lines, want %d", len(g), len(w))
}
