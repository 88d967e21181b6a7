package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"hoistbook/cmd/internal/cli"
)

// There is a page of every command, and a formatter of manual pages has nothing to say against them.
func TestManualPages(t *testing.T) {
	t.Setenv("SOURCE_DATE_EPOCH", "1924992000") // 2031
	dir, again := t.TempDir(), t.TempDir()
	for _, d := range []string{dir, again} {
		if err := man([]string{"-o", d}); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range cli.Tree().Commands() {
		page, err := os.ReadFile(filepath.Join(dir, "hoistbook-"+c.Name()+".1"))
		if err != nil {
			t.Error(err)
			continue
		}
		other, err := os.ReadFile(filepath.Join(again, "hoistbook-"+c.Name()+".1"))
		if err != nil || !bytes.Equal(page, other) {
			t.Errorf("%s: the page is another one the second time (%v)", c.Name(), err)
		}
		for _, want := range []string{".SH NAME", ".SH SYNOPSIS", ".SH DESCRIPTION", c.Short[:12], "2031"} {
			if !strings.Contains(string(page), want) {
				t.Errorf("%s: the page lacks %q", c.Name(), want)
			}
		}
	}
	groff, err := exec.LookPath("groff")
	if err != nil {
		t.Log("groff is not installed (Debian: groff-base): nobody else has read the pages")
		return
	}
	pages, err := filepath.Glob(filepath.Join(dir, "*.1"))
	if err != nil || len(pages) < 15 {
		t.Fatalf("%d pages, %v", len(pages), err)
	}
	out, err := exec.Command(groff, append([]string{"-Kutf8", "-man", "-Tutf8", "-z", "-ww"}, pages...)...).CombinedOutput()
	if err != nil || len(out) > 0 {
		t.Errorf("groff: %v\n%.600s", err, out)
	}
}

func TestManualPagesNeedAFolder(t *testing.T) {
	for _, args := range [][]string{nil, {"-o", ""}, {"-o", "x", "y"}} {
		if man(args) == nil {
			t.Errorf("%q passes", args)
		}
	}
}
