package cli

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/go-fonts/dejavu/dejavumathtexgyre"

	"hoistbook/render/page"
)

// A font that is handed in prints what the built-in one lacks, and poppler reads it back.
func TestFontOfOnesOwn(t *testing.T) {
	const name = "Fen \U0001D400\U0001D401"
	if len(page.Missing(page.Bold, name)) == 0 {
		t.Fatal("the built-in font has these letters: they test nothing")
	}
	dir := t.TempDir()
	file := func(name string, data []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	overlay := file("own.json", []byte(`{"kit": {"name": "`+name+`"}}`))
	font := file("maths.ttf", dejavumathtexgyre.TTF)
	out := filepath.Join(dir, "out")
	var said, fault bytes.Buffer
	if status := Run([]string{"book", "--with", overlay, "--font", font, "-o", out}, Streams{Out: &said, Err: &fault}); status != Done {
		t.Fatalf("status %d: %s", status, fault.String())
	}
	read, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftotext is not installed (Debian: poppler-utils)")
		}
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	for _, pdf := range []string{"book.pdf", "preflight.pdf"} {
		text, err := exec.Command(read, filepath.Join(out, pdf), "-").Output()
		if err != nil || !strings.Contains(string(text), name) {
			t.Errorf("%s: %v, no %q on its pages", pdf, err, name)
		}
	}
}
