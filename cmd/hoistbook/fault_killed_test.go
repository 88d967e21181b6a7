//go:build unix

package main

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Killed while it writes, a command leaves every file as it was or as it was to be, and done again it ends as if nothing had
// happened.
func TestKilledWhileItWrites(t *testing.T) {
	rounds := 3
	if os.Getenv("CI") != "" {
		rounds = 25
	}
	for _, j := range jobs {
		t.Run(j.name, func(t *testing.T) {
			s := staged(t, j)
			halfway, mixed := 0, 0
			for range rounds {
				dir := s.fresh(t)
				killedIn(t, dir, s.args...)
				got, beside := held(t, dir)
				if beside > 0 {
					halfway++
				}
				news, olds := 0, 0
				for name, text := range got {
					switch text {
					case s.new[name]:
						news++
					case s.old[name]:
						olds++
					default:
						t.Errorf("%s has %d bytes, which are neither the %d old nor the %d new ones", name, len(text), len(s.old[name]), len(s.new[name]))
					}
				}
				for name := range s.old {
					if _, there := got[name]; !there {
						t.Errorf("%s is gone", name)
					}
				}
				if news > 0 && olds > 0 {
					mixed++
				}
				if j.name == "new" || j.name == "order" && got["shelf.csv"] == s.new["shelf.csv"] {
					continue // it leaves a folder with something in it alone; what has been received is not ordered again
				}
				hoistbook(t, dir, "", s.args...)
				if after, _ := held(t, dir); fmt.Sprint(after) != fmt.Sprint(s.new) {
					t.Error("done again, it ends otherwise")
				}
			}
			t.Logf("killed %d times, %d of them before all was put in place, %d between old and new files", rounds, halfway, mixed)
			if halfway == 0 && rounds > 3 {
				t.Error("it was never killed in the middle")
			}
		})
	}
}

// killedIn starts the program and kills it soon after it has begun to write.
func killedIn(t *testing.T, dir string, args ...string) {
	t.Helper()
	before := names(t, dir)
	c := exec.Command("hoistbook", args...)
	c.Dir = dir
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan struct{})
	go func() { _ = c.Wait(); close(ended) }()
	for names(t, dir) == before {
		select {
		case <-ended:
			return
		case <-time.After(50 * time.Microsecond):
		}
	}
	time.Sleep(time.Duration(rand.IntN(4000)) * time.Microsecond)
	_ = c.Process.Kill()
	<-ended
}

// names are the names of everything below a folder.
func names(t *testing.T, dir string) string {
	var all strings.Builder
	_ = filepath.WalkDir(dir, func(path string, _ fs.DirEntry, _ error) error { // a temporary file may go while we look
		fmt.Fprintln(&all, path)
		return nil
	})
	return all.String()
}
