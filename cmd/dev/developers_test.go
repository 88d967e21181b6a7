package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// DEVELOPERS.md names every module that the program asks for, and every room of the house.
func TestDevelopersNamesEveryModuleAndRoom(t *testing.T) {
	read := func(name string) string {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	told := read("../../DEVELOPERS.md")
	direct := regexp.MustCompile(`(?m)^\t(\S+) v\S+$`).FindAllStringSubmatch(read("../../go.mod"), -1)
	for _, line := range direct {
		module := strings.TrimSuffix(line[1], "/v2")
		if last := module[strings.LastIndex(module, "/")+1:]; !strings.Contains(told, module) && !strings.Contains(told, "`"+last+"`") {
			t.Errorf("DEVELOPERS.md gives no reason for %s", line[1])
		}
	}
	if len(direct) < 10 {
		t.Errorf("go.mod asks for only %d modules", len(direct))
	}
	rooms := 0
	for _, pattern := range []string{"../../cmd/internal/*/*.go", "../../render/*/*.go", "../../kits/*/*.go"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		named := map[string]bool{}
		for _, file := range files {
			room := filepath.Base(filepath.Dir(file))
			if !named[room] && !strings.Contains(told, "`"+room+"`") && !strings.Contains(told, "/"+room+"`") {
				t.Errorf("DEVELOPERS.md does not name %s", filepath.Dir(file))
			}
			named[room] = true
		}
		rooms += len(named)
	}
	if rooms < 35 {
		t.Errorf("only %d rooms were found", rooms)
	}
}
