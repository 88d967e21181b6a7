package pdf

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"hoistbook/render/internal/sample"
	"hoistbook/render/page"
)

// tool runs an independent reader of PDF files from Debian (poppler-utils, qpdf). Without it the test is skipped, but not where changes
// are judged: there a reader that is missing is a failure.
func tool(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed (Debian: poppler-utils, qpdf)", name)
		}
		t.Skipf("%s is not installed (Debian: poppler-utils, qpdf)", name)
	}
	var out, fault bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stdout, cmd.Stderr = &out, &fault
	if err := cmd.Run(); err != nil || fault.Len() > 0 {
		t.Fatalf("%s %q: %v\n%s", name, args, err, fault.Bytes())
	}
	return out.Bytes()
}

// written writes a document to a file of the test's own.
func written(t *testing.T, doc *page.Document) (file string, b []byte) {
	t.Helper()
	b, err := Bytes(doc)
	if err != nil {
		t.Fatal(err)
	}
	file = filepath.Join(t.TempDir(), "test.pdf")
	if err := os.WriteFile(file, b, 0o600); err != nil {
		t.Fatal(err)
	}
	return file, b
}

func sampleOn(t testing.TB, paper page.Paper) *page.Document {
	t.Helper()
	doc, err := sample.Document(paper)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

var papers = []page.Paper{page.A4, page.Letter}
