package main

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// A fuzzTarget is a function that go test feeds with whatever comes to its mind.
type fuzzTarget struct{ dir, name string }

// strangers are the kinds of input that come from anybody, and the targets that take them.
var strangers = map[string][]fuzzTarget{
	"quantities":  {{"kits/unit", "FuzzQuantity"}, {"kits/unit", "FuzzMoney"}},
	"manifests":   {{"kits/manifest", "FuzzLoad"}, {"kits/jsontree", "FuzzParse"}},
	"overlays":    {{"kits/manifest", "FuzzLoad"}, {"cmd/internal/assess", "FuzzAssess"}},
	"packs":       {{"rules", "FuzzLoad"}, {"cmd/internal/assess", "FuzzAssess"}},
	"stock files": {{"kits/stock", "FuzzRead"}},
	"records":     {{"render/walk", "FuzzReadRecord"}},
	"PDFs in":     {{"render/pdf", "FuzzAttachment"}, {"render/pdf", "FuzzSee"}, {"cmd/internal/cli", "FuzzVerify"}},
	"readings":    {{"render/walk", "FuzzReading"}, {"cmd/internal/asbuilt", "FuzzReadSheet"}},
	"signatures":  {{"cmd/internal/sshsig", "FuzzParse"}, {"cmd/internal/sshsig", "FuzzReadSigners"}},
	"fonts":       {{"render/page", "FuzzOpenFont"}, {"render/pdf", "FuzzSubset"}},
}

var fuzzFunction = regexp.MustCompile(`(?m)^func (Fuzz\w+)\(\w+ \*testing\.F\)`)

// fuzzTargets finds every target of the module.
func fuzzTargets(root string) ([]fuzzTarget, error) {
	var all []fuzzTarget
	for _, room := range []string{"cmd", "kits", "render", "rules", "schemas"} {
		err := filepath.WalkDir(filepath.Join(root, room), func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() || !strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			dir, err := filepath.Rel(root, filepath.Dir(path))
			for _, found := range fuzzFunction.FindAllStringSubmatch(string(text), -1) {
				all = append(all, fuzzTarget{filepath.ToSlash(dir), found[1]})
			}
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	return all, nil
}

// fuzz runs every target, or those of the packages that are named, one after the other. What breaks one is kept by go test
// in the package's testdata/fuzz, where it is tried by every later test.
func fuzz(args []string) error {
	flags := flag.NewFlagSet("fuzz", flag.ContinueOnError)
	each := flags.String("time", "10m", "run each target for this `TIME`, or so many times: 200x")
	if err := flags.Parse(args); err != nil {
		return err
	}
	all, err := fuzzTargets(root())
	if err != nil {
		return err
	}
	var failed error
	for _, target := range all {
		if flags.NArg() > 0 && !slices.Contains(flags.Args(), target.dir) {
			continue
		}
		fmt.Printf("%s %s\n", target.dir, target.name)
		c := exec.Command("go", "test", "-run", "^$", "-fuzz", "^"+target.name+"$", "-fuzztime", *each, "-fuzzminimizetime", "1s", "./"+target.dir)
		c.Dir = root()
		out, err := c.CombinedOutput()
		if err != nil {
			failed = errors.Join(failed, fmt.Errorf("%s %s: %w\n%s", target.dir, target.name, err, out))
			continue
		}
		fmt.Println(lastFuzzLine(string(out)))
	}
	return failed
}

// lastFuzzLine is the line that counts all that was tried.
func lastFuzzLine(out string) string {
	lines := strings.Split(out, "\n")
	for _, line := range slices.Backward(lines) {
		if strings.HasPrefix(line, "fuzz: elapsed") {
			return "  " + strings.TrimPrefix(line, "fuzz: ")
		}
	}
	return "  " + strings.TrimSpace(out)
}
