package cli

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"hoistbook/render/pdf"
)

// spoken are names that say something to a spreadsheet, a PDF reader, a browser or a shell.
var spoken = []string{
	`=HYPERLINK("http://x.example","ok")`, `+1+1`, `-2+3`, `@SUM(A1)`, `=cmd|' /C calc'!A0`, `) Tj ET Q endstream endobj`, `(((`, `\\)\\(\\`, `<</JS(app.alert(1))>>`,
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `$(touch pwned)`, "`touch pwned`", `%s%n{lift.free_kg}`, `../../etc/passwd`,
}

// A kit that is in order but for what its names say: they are printed as they are, and nothing obeys them.
func TestNamesThatSpeakToPrograms(t *testing.T) {
	dir := t.TempDir()
	var parts []string
	for i, name := range spoken {
		quoted := fmt.Sprintf("%q", name)
		parts = append(parts, fmt.Sprintf(`"Q%d": {"name": %s, "place": "ground", "mass": "1 g", "note": %s, "packed_in": "box", "offers": [{"supplier": "CHIP", "order_code": %s, "price": "1.00", "lead_time": "1 d"}]}`, i, quoted, quoted, quoted))
	}
	overlay := filepath.Join(dir, "spoken.json")
	if err := os.WriteFile(overlay, []byte(`{"parts": {`+strings.Join(parts, ",")+`}}`), 0o600); err != nil {
		t.Fatal(err)
	}
	var files []string
	for _, name := range []string{"o.csv", "o.xlsx", "o.pdf"} {
		files = append(files, "-o", filepath.Join(dir, name))
	}
	if status, _, errs := run(t, append([]string{"order", "demo:marsh-data", "--with", overlay}, files...)...); status == Unusable {
		t.Fatal(errs)
	}
	if status, _, errs := run(t, "book", "demo:marsh-data", "--with", overlay, "-o", dir); status == Unusable {
		t.Fatal(errs)
	}

	file, err := os.Open(filepath.Join(dir, "o.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, row := range rows {
		for _, cell := range row {
			found[strings.TrimPrefix(cell, "'")] = true
			if cell != "" && strings.ContainsRune("=+@\t\r", rune(cell[0])) {
				t.Errorf("a cell of the table begins as a formula does: %q", cell)
			}
		}
	}
	for _, name := range spoken {
		if !found[name] {
			t.Errorf("the table has no %q", name)
		}
	}

	book, err := excelize.OpenFile(filepath.Join(dir, "o.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	for _, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range rows {
			for c := range row {
				at, _ := excelize.CoordinatesToCellName(c+1, r+1)
				formula, err := book.GetCellFormula(sheet, at)
				for _, name := range spoken {
					if err != nil || strings.Contains(formula, strings.TrimPrefix(name, "=")) && len(name) > 4 {
						t.Errorf("%s %s is a formula: %s (%v)", sheet, at, formula, err)
					}
				}
			}
		}
	}

	for _, name := range []string{"o.pdf", "book.pdf", "bill-of-materials.pdf"} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := pdf.See(data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if status, out, errs := run(t, "verify", filepath.Join(dir, "book.pdf")); !strings.Contains(out, "tell the truth") && status == Unusable {
		t.Errorf("the book is not verified: %d %s %s", status, out, errs)
	}
	if left, err := filepath.Glob(filepath.Join(dir, "*pwned*")); err != nil || len(left) > 0 {
		t.Errorf("somebody has obeyed: %v", left)
	}
}

// The largest kits that are accepted, made to be as hard as possible: a long chain of converters, as many modules and boxes
// as may be. They are judged and ordered in bounded time.
func TestTheLargestKitsThatAreAccepted(t *testing.T) {
	if testing.Short() {
		t.Skip("large kits take seconds")
	}
	for name, part := range map[string]func(i int) string{
		"converters in a chain": func(i int) string {
			if i >= 48 {
				return `{"name": "s", "place": "ground", "mass": "1 g"}`
			}
			from := fmt.Sprint("R", i)
			if i == 0 {
				from = "CELL"
			}
			return fmt.Sprintf(`{"name": "c", "place": "aloft", "mass": "1 g", "converter": {"kind": "linear", "from": "%s", "to": "R%d", "output": "3 V", "tolerance": "1 %%", "headroom": "0.1 V", "greatest_current": "1 A", "quiescent": "1 mA", "input": "1 V to 9 V"}}`, from, i+1)
		},
		"loads": func(int) string {
			return `{"name": "l", "place": "aloft", "mass": "1 g", "load": {"rail": "3V0", "rated": "3 V to 4 V", "damaged_above": "5 V", "current": {"transmit": "1 mA", "receive": "1 mA", "standby": "1 mA"}, "wire": {"gauge": "AWG 24", "length": "20 cm"}}}`
		},
		"boxes": func(i int) string {
			return fmt.Sprintf(`{"name": "b", "place": "ground", "packed_in": "box %d", "mass": "1 g"}`, i)
		},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			var parts []string
			size := 0
			for i := 0; i < 1900 && size < 600_000; i++ {
				parts = append(parts, fmt.Sprintf(`"Q%d": %s`, i, part(i)))
				size += len(parts[i])
			}
			overlay := filepath.Join(dir, "large.json")
			if err := os.WriteFile(overlay, []byte(`{"parts": {`+strings.Join(parts, ",")+`}}`), 0o600); err != nil {
				t.Fatal(err)
			}
			for _, args := range [][]string{{"check", "--json"}, {"order", "-o", filepath.Join(dir, "o.xlsx"), "-o", filepath.Join(dir, "o.pdf")}} {
				start := time.Now()
				status, out, errs := run(t, append([]string{args[0], "demo:marsh-data", "--with", overlay}, args[1:]...)...)
				took := time.Since(start)
				t.Logf("%d parts, %s: %v, status %d, %d bytes said, %.100s", len(parts), args, took, status, len(out), errs)
				if status == Unusable {
					t.Errorf("%s cannot be used: %.500s", name, errs)
				}
				if took > 3*time.Minute {
					t.Errorf("%s takes %v", args, took)
				}
				if status == Done && args[0] == "check" {
					t.Errorf("%s is GO, with two kilograms more", name)
				}
			}
		})
	}
}
