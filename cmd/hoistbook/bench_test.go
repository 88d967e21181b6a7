package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// Whole processes beside an empty one, started alternately in the same run: how many times as long they take, and how much
// memory they had at the most. Run with: go test -run '^$' -bench Process ./cmd/hoistbook
func BenchmarkProcess(b *testing.B) {
	dir := b.TempDir()
	empty := build(b, dir, "empty", emptyProgram(b, dir))
	hoistbook := build(b, dir, "hoistbook", ".")
	for _, command := range []struct {
		name string
		args []string
	}{
		{"help", []string{"--help"}},
		{"check", []string{"check"}},
		{"book", []string{"book", "-o", filepath.Join(dir, "book")}},
	} {
		b.Run(command.name, func(b *testing.B) {
			var ours, floor time.Duration
			leastOurs, leastFloor := time.Hour, time.Hour // of the processors' time
			peak := int64(0)
			for b.Loop() {
				t, cpu, _ := run(b, empty)
				floor, leastFloor = floor+t, min(leastFloor, cpu)
				t, cpu, rss := run(b, hoistbook, command.args...)
				ours, leastOurs = ours+t, min(leastOurs, cpu)
				peak = max(peak, rss)
			}
			b.ReportMetric(1e3*leastOurs.Seconds(), "ms-ours")
			b.ReportMetric(1e3*leastFloor.Seconds(), "ms-floor")
			b.ReportMetric(float64(ours)/float64(floor), "x-empty")
			b.ReportMetric(float64(peak)/1024, "MB-peak")
		})
	}
}

func emptyProgram(b *testing.B, dir string) string {
	b.Helper()
	file := filepath.Join(dir, "empty.go")
	if err := os.WriteFile(file, []byte("package main\n\nfunc main() {}\n"), 0o644); err != nil {
		b.Fatal(err)
	}
	return file
}

func build(b *testing.B, dir, name, what string) string {
	b.Helper()
	program := filepath.Join(dir, name)
	if out, err := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", program, what).CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	return program
}

// run starts a program and returns how long it took, how long processors worked at it, and its greatest resident size in
// kilobytes.
func run(b *testing.B, program string, args ...string) (took, cpu time.Duration, peak int64) {
	b.Helper()
	c := exec.Command(program, args...)
	start := time.Now()
	if err := c.Run(); err != nil {
		b.Fatal(err)
	}
	took = time.Since(start)
	if usage, ok := c.ProcessState.SysUsage().(*syscall.Rusage); ok {
		peak = usage.Maxrss
	}
	return took, c.ProcessState.UserTime() + c.ProcessState.SystemTime(), peak
}
