// Package version says which build of the program this is. Nothing of it goes into documents: two builds of one program print the
// same bytes.
package version

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"
)

// What a release knows of itself; the script .ci/release sets them. A build without them looks at what Go recorded.
var (
	number string // "1.0.0"
	commit string // twelve digits
)

// String is one line: number, commit, and with what it was built for what.
func String() string {
	info, _ := debug.ReadBuildInfo()
	return describe(number, commit, info)
}

func describe(number, commit string, info *debug.BuildInfo) string {
	var about []string
	if info != nil {
		recorded := map[string]string{}
		for _, s := range info.Settings {
			recorded[s.Key] = s.Value
		}
		if commit == "" && recorded["vcs.revision"] != "" {
			commit = recorded["vcs.revision"][:min(12, len(recorded["vcs.revision"]))]
			if recorded["vcs.modified"] == "true" {
				commit += " with changes"
			}
			if at := recorded["vcs.time"]; at != "" {
				commit += " of " + at
			}
		}
	}
	if number == "" {
		number = "(not a release)"
	}
	if commit != "" {
		about = append(about, "commit "+commit)
	}
	about = append(about, runtime.Version(), runtime.GOOS+"/"+runtime.GOARCH)
	return fmt.Sprintf("%s, %s", number, strings.Join(about, ", "))
}
