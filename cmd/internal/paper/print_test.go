package paper

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"hoistbook/cmd/internal/cli"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// An edition is a demonstration kit as it is printed: together they have both papers, both systems of units and both languages.
type edition struct {
	kit, language string
	paper         page.Paper
	system        unit.System
	args          []string
	once          sync.Once
	dir           string
	fault         error
}

var editions = []*edition{
	{kit: "fen-relay", language: "en", paper: page.A4, system: unit.SI},
	{kit: "ridge-sphere", language: "en", paper: page.Letter, system: unit.US, args: []string{"--paper", "letter", "--units", "us"}},
	{kit: "marsh-data", language: "de", paper: page.A4, system: unit.SI, args: []string{"--lang", "de"}},
}

// printedOn is the date that all of them bear.
var printedOn = time.Date(2027, time.March, 1, 0, 0, 0, 0, time.UTC)

// scratch holds the printed files of all tests.
var scratch string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "paper")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	scratch = dir
	status := m.Run()
	if err := os.RemoveAll(dir); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(status)
}

// print runs the command, once for all tests, and returns the folder with its files.
func (e *edition) print(t *testing.T) string {
	t.Helper()
	e.once.Do(func() {
		e.dir = filepath.Join(scratch, e.kit)
		var said, fault bytes.Buffer
		args := append([]string{"book", "demo:" + e.kit, "-o", e.dir, "--date", printedOn.Format(time.DateOnly)}, e.args...)
		if status := cli.Run(args, cli.Streams{Out: &said, Err: &fault}); status != cli.Done {
			e.fault = fmt.Errorf("%q: status %d: %s", args, status, fault.String())
		}
	})
	if e.fault != nil {
		t.Fatal(e.fault)
	}
	return e.dir
}

// files are all that was printed.
func (e *edition) files(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(e.print(t), "*.pdf"))
	if err != nil || len(files) < 15 {
		t.Fatalf("%s: %d files: %v", e.kit, len(files), err)
	}
	return files
}

// book is the file of the whole book.
func (e *edition) book(t *testing.T) string {
	t.Helper()
	return filepath.Join(e.print(t), "book.pdf")
}

// report is what the command says of the kit to programs.
type report struct {
	Kit struct {
		ID, Revision, Digest string
	}
	Verdict string
	Facts   map[string]any
}

func (e *edition) report(t *testing.T) report {
	t.Helper()
	var said, fault bytes.Buffer
	if status := cli.Run([]string{"check", "--json", "demo:" + e.kit}, cli.Streams{Out: &said, Err: &fault}); status != cli.Done {
		t.Fatalf("status %d: %s", status, fault.String())
	}
	var r report
	if err := json.Unmarshal(said.Bytes(), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// tool runs an independent program from Debian. Without it the test is skipped, but not where changes are judged: there a reader that
// is missing is a failure.
func tool(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	const from = "Debian: poppler-utils, qpdf, zbar-tools"
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed (%s)", name, from)
		}
		t.Skipf("%s is not installed (%s)", name, from)
	}
	var out, fault bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stdout, cmd.Stderr = &out, &fault
	if err := cmd.Run(); err != nil || fault.Len() > 0 {
		t.Fatalf("%s %q: %v\n%s", name, args, err, fault.Bytes())
	}
	return out.Bytes()
}
