package version

import (
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
)

func TestDescribe(t *testing.T) {
	recorded := &debug.BuildInfo{Settings: []debug.BuildSetting{
		{Key: "vcs.revision", Value: "0123456789abcdef0123"}, {Key: "vcs.time", Value: "2031-05-04T10:00:00Z"}, {Key: "vcs.modified", Value: "true"},
	}}
	built := ", " + runtime.Version() + ", " + runtime.GOOS + "/" + runtime.GOARCH
	for _, c := range []struct {
		number, commit string
		info           *debug.BuildInfo
		want           string
	}{
		{"1.2.0", "fedcba987654", recorded, "1.2.0, commit fedcba987654" + built},
		{"", "", recorded, "(not a release), commit 0123456789ab with changes of 2031-05-04T10:00:00Z" + built},
		{"", "", nil, "(not a release)" + built},
		{"", "", &debug.BuildInfo{}, "(not a release)" + built},
	} {
		if got := describe(c.number, c.commit, c.info); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
	if strings.Contains(String(), "\n") {
		t.Error("a version of several lines")
	}
}
