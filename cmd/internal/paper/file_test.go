package paper

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/page"
)

// qpdf finds every file valid.
func TestFilesAreValid(t *testing.T) {
	for _, e := range editions {
		for _, file := range e.files(t) {
			if out := tool(t, "qpdf", "--check", file); !bytes.Contains(out, []byte("No syntax or stream encoding errors found")) {
				t.Errorf("%s: %s", file, out)
			}
		}
	}
}

// The manifest rides inside every file, a single sheet too, and comes back byte for byte by another program.
func TestManifestRidesInside(t *testing.T) {
	for _, e := range editions {
		source, ok := kits.Demo(e.kit)
		if !ok {
			t.Fatalf("no kit %q", e.kit)
		}
		m, err := manifest.Load(source)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range e.files(t) {
			dir := t.TempDir()
			tool(t, "pdfdetach", "-saveall", "-o", dir, file)
			got, err := os.ReadFile(filepath.Join(dir, "manifest.json"))
			if err != nil || !bytes.Equal(got, m.JSON()) {
				t.Errorf("%s: the attachment is not the manifest (%v, %d bytes of %d)", file, err, len(got), len(m.JSON()))
			}
		}
	}
}

// The code on the cover is read from the picture of the page, as a telephone would.
func TestCodeOnTheCover(t *testing.T) {
	for _, e := range editions {
		r := e.report(t)
		picture := filepath.Join(t.TempDir(), "cover")
		tool(t, "pdftoppm", "-png", "-gray", "-r", "120", "-f", "1", "-l", "1", "-singlefile", e.book(t), picture)
		got := strings.TrimSpace(string(tool(t, "zbarimg", "--nodbus", "--quiet", "--raw", picture+".png")))
		if want := r.Kit.ID + "\n" + r.Kit.Revision + "\n" + r.Kit.Digest; got != want {
			t.Errorf("%s: the code says %q, want %q", e.kit, got, want)
		}
	}
}

// Title, language, program and the date that was handed in are in the description of the file; every document is a bookmark.
func TestDescription(t *testing.T) {
	for _, e := range editions {
		info := string(tool(t, "pdfinfo", "-isodates", e.book(t)))
		for _, want := range []string{"Creator:         Hoistbook 1.0\n", "CreationDate:    2027-03-01T00:00:00Z", "Form:            AcroForm", "Title:           "} {
			if !strings.Contains(info, want) {
				t.Errorf("%s: no %q in\n%s", e.kit, want, info)
			}
		}
		outline := string(tool(t, "qpdf", "--json", "--json-key=outlines", e.book(t)))
		if n := strings.Count(outline, `"destpageposfrom1"`); n < 17 {
			t.Errorf("%s: only %d bookmarks", e.kit, n)
		}
	}
}

// Every page says its kit, its revision, its number of how many, and the short digest.
func TestRunningLines(t *testing.T) {
	for _, e := range editions {
		r := e.report(t)
		_, digest, _ := strings.Cut(r.Kit.Digest, ":")
		sheets := read(t, e.book(t))
		for i, s := range sheets {
			var above, below []string
			text := page.SheetMargins.Inside(page.Paper{Width: s.paper.W, Height: s.paper.H})
			for _, w := range s.words {
				switch {
				case w.Bottom() < text.Y:
					above = append(above, w.text)
				case w.Y > text.Bottom():
					below = append(below, w.text)
				}
			}
			head, foot := strings.Join(above, " "), strings.Join(below, " ")
			if !strings.Contains(head, r.Kit.Revision) {
				t.Errorf("%s page %d: no revision in %q", e.kit, i+1, head)
			}
			number := map[string]string{"en": "page %d of %d", "de": "Seite %d von %d"}[e.language]
			for _, want := range []string{digest[:12], fmt.Sprintf(number, i+1, len(sheets)), "2027-03-01"} {
				if !strings.Contains(foot, want) {
					t.Errorf("%s page %d: no %q in %q", e.kit, i+1, want, foot)
				}
			}
		}
	}
}
