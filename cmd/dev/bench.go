package main

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"time"
)

// A measurement is a benchmark with what it measures and the floor that it stands beside. Its benchmark reports ms-ours and
// ms-floor, both of the same run, in time that processors worked.
type measurement struct {
	dir, benchmark, times string
	rows                  map[string]string // what it is, by the benchmark's own name, or a part of it that ends in =
	floor                 string
}

var measurements = []measurement{
	{"cmd/hoistbook", "Process", "20x", map[string]string{"help": "`--help`", "check": "`check` of the first demonstration kit", "book": "`book` of it, and each document alone"}, "an empty Go process"},
	{"kits/manifest", "BesideBareDecoding", "10x", map[string]string{"parts=": "reading and checking a manifest of %s parts"}, "bare JSON decoding of it"},
	{"render/doc", "Book", "2x", map[string]string{"parts=": "judging a kit and setting its book, %s parts"}, "as many bare pages by the PDF library"},
	{"kits/tether", "BesideScipy", "20x", map[string]string{"": "100 lines in a wind"}, "scipy, solve_ivp and brentq"},
	{"kits/cost", "BesideScipy", "5x", map[string]string{"": "12 orders of 40 to 60 parts, proved"}, "scipy, milp (HiGHS)"},
	{"kits/cost", "BesideGreedy", "1x", map[string]string{"parts=": "an order of %s parts from 10 suppliers, proved", "kits=": "five orders of 60 parts for %s kits, proved"}, "greedy order, unproved"},
	{"cmd/internal/cli", "Shelf", "1x", map[string]string{"kits=": "`check` of a folder of %s kits"}, "bare JSON decoding of them"},
}

var benchLine = regexp.MustCompile(`^Benchmark\w+?(?:/(\S+?))?(?:-\d+)?\s+\d+\s(.*)$`)

// A measured row stands in the table.
type measured struct {
	what, floor  string
	ours, beside float64 // milliseconds
	note         string
}

// bench runs the benchmarks one after the other and writes their table into DEVELOPERS.md.
func bench(args []string) error {
	flags := flag.NewFlagSet("bench", flag.ContinueOnError)
	date := flags.String("date", time.Now().Format(time.DateOnly), "the `DATE` that the table bears")
	machine := flags.String("machine", fmt.Sprintf("%d processors of the class %s/%s, %s", runtime.NumCPU(), runtime.GOOS, runtime.GOARCH, runtime.Version()), "the `CLASS` of the machine")
	if err := flags.Parse(args); err != nil {
		return err
	}
	var all []measured
	for _, m := range measurements {
		c := exec.Command("go", "test", "-run", "^$", "-bench", "^Benchmark"+m.benchmark+"$", "-benchtime", m.times, "-timeout", "0", "./"+m.dir)
		c.Dir, c.Stderr = root(), os.Stderr
		out, err := c.Output()
		if err != nil {
			return fmt.Errorf("%s: %w\n%s", m.dir, err, out)
		}
		rows, err := m.read(string(out))
		if err != nil {
			return fmt.Errorf("%s: %w", m.dir, err)
		}
		for _, row := range rows {
			fmt.Println(row)
		}
		all = append(all, rows...)
	}
	return writeBetween(filepath.Join(root(), "DEVELOPERS.md"), "bench", benchTable(all, *date, *machine))
}

// read takes the rows out of what go test prints.
func (m measurement) read(out string) ([]measured, error) {
	var rows []measured
	for lines := bufio.NewScanner(strings.NewReader(out)); lines.Scan(); {
		found := benchLine.FindStringSubmatch(lines.Text())
		if found == nil {
			continue
		}
		row := measured{floor: m.floor}
		for name, what := range m.rows {
			if name == found[1] {
				row.what = what
			} else if n, ok := strings.CutPrefix(found[1], name); ok && strings.HasSuffix(name, "=") {
				row.what = fmt.Sprintf(what, n)
			}
		}
		values := map[string]float64{}
		fields := strings.Fields(found[2])
		for i := 0; i+1 < len(fields); i += 2 {
			value, err := strconv.ParseFloat(fields[i], 64)
			if err != nil {
				return nil, fmt.Errorf("%q: %w", lines.Text(), err)
			}
			values[fields[i+1]] = value
		}
		row.ours, row.beside = values["ms-ours"], values["ms-floor"]
		if row.what == "" || row.ours == 0 || row.beside == 0 {
			return nil, fmt.Errorf("%q says nothing of ours and its floor", lines.Text())
		}
		for unit, say := range map[string]string{"MB-peak": "%.0f MB at most", "pages": "%.0f pages", "%saved": "%.1f %% cheaper"} {
			if value, ok := values[unit]; ok {
				row.note = fmt.Sprintf(say, value)
			}
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		return nil, errors.New("nothing was measured")
	}
	return rows, nil
}

func (m measured) String() string {
	return fmt.Sprintf("| %s | %s | %s | %s | %s | %s |", m.what, figures(m.ours), m.floor, figures(m.beside), figures(m.ours/m.beside), m.note)
}

// figures prints three figures.
func figures(x float64) string {
	text := strconv.FormatFloat(x, 'g', 3, 64)
	if x >= 100 {
		text = strconv.FormatFloat(x, 'f', 0, 64)
	}
	return text
}

func benchTable(rows []measured, date, machine string) string {
	var table strings.Builder
	fmt.Fprintf(&table, "%s, %s. Milliseconds of processor time, the least of several runs for whole processes and libraries, ours and floor in turns in one run (of the book, time by the clock).\n\n", date, machine)
	table.WriteString("| what | ms | floor | ms | times the floor | |\n|---|--:|---|--:|--:|---|\n")
	for _, row := range rows {
		fmt.Fprintln(&table, row)
	}
	return table.String()
}

// writeBetween puts a text between the marks <!-- NAME --> and <!-- /NAME --> of a file.
func writeBetween(file, name, text string) error {
	data, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	first, last := []byte("<!-- "+name+" -->\n"), []byte("<!-- /"+name+" -->")
	from, to := bytes.Index(data, first), bytes.Index(data, last)
	if from < 0 || to < from {
		return fmt.Errorf("%s has no place between %s and %s", file, bytes.TrimSpace(first), last)
	}
	out := append(append(append([]byte(nil), data[:from+len(first)]...), text...), data[to:]...)
	return os.WriteFile(file, out, 0o644)
}
