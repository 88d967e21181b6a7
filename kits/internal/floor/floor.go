// Package floor measures work beside the least that such work can cost. Only benchmarks use it.
package floor

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// Beside measures ours and a floor in turns, in one run and in time that the processor has worked, and reports the least of
// each in milliseconds.
func Beside(b *testing.B, ours, floor func()) {
	b.Helper()
	least := [2]time.Duration{1 << 62, 1 << 62}
	for b.Loop() {
		for i, work := range []func(){ours, floor} {
			if work == nil {
				continue
			}
			begun := CPU()
			work()
			least[i] = min(least[i], CPU()-begun)
		}
	}
	b.ReportMetric(1e3*least[0].Seconds(), "ms-ours")
	if floor != nil {
		b.ReportMetric(1e3*least[1].Seconds(), "ms-floor")
	}
}

// Scipy measures how long scipy works at what testdata/floors/times.py knows by this name. Where there is no scipy the
// benchmark is skipped.
func Scipy(b *testing.B, work string) time.Duration {
	b.Helper()
	interpreter := "/usr/bin/python3" // Debian's, which has the libraries
	if _, err := os.Stat(interpreter); err != nil {
		interpreter = "python3"
	}
	above := "."
	for ; len(above) < 40; above = filepath.Join(above, "..") {
		if _, err := os.Stat(filepath.Join(above, "go.mod")); err == nil {
			break
		}
	}
	out, err := exec.Command(interpreter, filepath.Join(above, "testdata", "floors", "times.py"), work).Output()
	if err != nil {
		b.Skipf("%s with scipy: %v", interpreter, err)
	}
	seconds, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	if err != nil {
		b.Fatal(err)
	}
	return time.Duration(seconds * float64(time.Second))
}
