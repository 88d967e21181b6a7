//go:build unix

package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"hoistbook/kits"
)

// fillShelf writes so many kits, each a little heavier than the one before.
func fillShelf(t testing.TB, n int) string {
	t.Helper()
	dir := t.TempDir()
	demos := kits.Demos()
	for i := range n {
		source, _ := kits.Demo(demos[i%len(demos)])
		var kit map[string]any
		if err := json.Unmarshal(source.Data, &kit); err != nil {
			t.Fatal(err)
		}
		kit["kit"].(map[string]any)["id"] = fmt.Sprintf("kit-%d", i)
		for _, part := range kit["parts"].(map[string]any) {
			if part := part.(map[string]any); part["place"] == "aloft" && part["mass"] != nil {
				part["mass_allowance"] = fmt.Sprintf("%.4f %%", 2+float64(i%400)/20)
			}
		}
		text, err := json.MarshalIndent(kit, "", "  ")
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, fmt.Sprintf("%03d", i/500), fmt.Sprintf("kit-%05d.json", i))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// The cost of a kit is the same on a shelf of one and on one of ten thousand, and the memory is that of a few.
func BenchmarkShelf(b *testing.B) {
	for _, n := range []int{1, 10, 100, 1000, 10000} {
		b.Run(fmt.Sprintf("kits=%d", n), func(b *testing.B) {
			dir := fillShelf(b, n)
			var ours, floor time.Duration
			for b.Loop() {
				begun := worked(b)
				if status := Run([]string{"check", dir}, Streams{Out: io.Discard, Err: io.Discard}); status == Unusable {
					b.Fatal("the shelf cannot be used")
				}
				ours += worked(b) - begun
				begun = worked(b)
				decodeAll(b, dir)
				floor += worked(b) - begun
			}
			b.ReportMetric(1e3*ours.Seconds()/float64(b.N), "ms-ours")
			b.ReportMetric(1e3*floor.Seconds()/float64(b.N), "ms-floor")
			b.ReportMetric(1e3*ours.Seconds()/float64(b.N*n), "ms/kit")
			var memory runtime.MemStats
			runtime.ReadMemStats(&memory)
			b.ReportMetric(float64(memory.Sys)/(1<<20), "MB")
		})
	}
}

// worked is the time that this process has worked so far.
func worked(t testing.TB) time.Duration {
	t.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		t.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// decodeAll reads all files of a folder and decodes their JSON, and no more.
func decodeAll(t testing.TB, dir string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		var any any
		return json.Unmarshal(data, &any)
	})
	if err != nil {
		t.Fatal(err)
	}
}

// The lines for programs are whole reports, and the same in every run, whichever core is faster.
func TestShelfIsTheSameEveryTime(t *testing.T) {
	dir := fillShelf(t, 40)
	_, first, _ := run(t, "check", dir, "--json")
	_, table, _ := run(t, "check", dir)
	for range 3 {
		if _, again, _ := run(t, "check", dir, "--json"); again != first {
			t.Fatal("the lines are others the second time")
		}
		if _, again, _ := run(t, "check", dir); again != table {
			t.Fatal("the table is another the second time")
		}
	}
	lines := 0
	for decoder := json.NewDecoder(strings.NewReader(first)); ; lines++ {
		var line struct {
			File, Format, Verdict string
			Facts                 map[string]any
		}
		if err := decoder.Decode(&line); err == io.EOF {
			break
		} else if err != nil || line.Format != "hoistbook-report/1" || line.File == "" || len(line.Facts) < 50 {
			t.Fatalf("line %d: %v, %+v", lines+1, err, line)
		}
	}
	if lines != 40 {
		t.Errorf("%d lines, want 40", lines)
	}
}
