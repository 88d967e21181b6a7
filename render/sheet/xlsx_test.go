package sheet

import (
	"bytes"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/doc"
)

func english(t testing.TB) Words {
	t.Helper()
	words, err := doc.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	return words
}

// opened writes a workbook and opens it with a library that has no line in common with the writer.
func opened(t testing.TB, o *kits.Order) *excelize.File {
	t.Helper()
	data, err := XLSX(o, english(t), A4)
	if err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Close() })
	return f
}

// find returns the row of a sheet whose cell in a column has a text.
func find(t testing.TB, f *excelize.File, sheet, column, text string) int {
	t.Helper()
	for row := 1; row < 1000; row++ {
		if got, _ := f.GetCellValue(sheet, fmt.Sprint(column, row)); got == text {
			return row
		}
	}
	t.Fatalf("%s: nothing in column %s is %q", sheet, column, text)
	return 0
}

func raw(t testing.TB, f *excelize.File, sheet, cell string) string {
	t.Helper()
	text, err := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// agree recalculates every formula, and holds the result against the value that the file carries.
func agree(t testing.TB, f *excelize.File) (formulas int) {
	t.Helper()
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r := range rows {
			for c := range 14 {
				cell := at(c, r+1)
				formula, err := f.GetCellFormula(sheet, cell)
				if err != nil {
					t.Fatal(err)
				}
				if formula == "" {
					continue
				}
				formulas++
				carried := raw(t, f, sheet, cell)
				got, err := f.CalcCellValue(sheet, cell, excelize.Options{RawCellValue: true})
				if err != nil {
					t.Errorf("%s %s: %s: %v", sheet, cell, formula, err)
					continue
				}
				a, okA := new(big.Rat).SetString(got)
				b, okB := new(big.Rat).SetString(carried)
				if !okA || !okB || a.Sub(a, b).Abs(a).Cmp(big.NewRat(1, 1e6)) > 0 {
					t.Errorf("%s %s: %s is %s, and the file carries %s", sheet, cell, formula, got, carried)
				}
			}
		}
	}
	return formulas
}

// Every sum is where it should be, to the last cent, as a number with a currency, and its formula comes to the same.
func TestXLSX(t *testing.T) {
	o := orderOf(t, `{}`, plan())
	// One kit, one deployment: gas 11.50, with tax 13.685, half to even 13.68; two pins with spares, a pack of 0.125, half to
	// even 0.12, made up to 3.00, postage 2.00, tax 0.95.
	if o.Total.String() != "19.63 EUR" || o.Parcels[0].Total.String() != "13.68 EUR" || o.Parcels[1].Goods.String() != "0.12 EUR" {
		t.Fatalf("the order costs %s", o.Total)
	}
	f := opened(t, o)
	if want := []string{"Order", "1 S1", "2 a-supplier-with-a-long-id-000", "Parts and what remains", "Pick list", "Labels"}; !slices.Equal(f.GetSheetList(), want) {
		t.Errorf("sheets %q, want %q", f.GetSheetList(), want)
	}
	if n := agree(t, f); n < 30 {
		t.Errorf("only %d formulas", n)
	}
	row := find(t, f, "Order", "A", "All, EUR")
	for column, want := range map[string]unit.Money{"F": o.Net, "G": o.Tax, "H": o.Total} {
		cell := fmt.Sprint(column, row)
		if got := raw(t, f, "Order", cell); got != want.Decimal().String() {
			t.Errorf("Order %s: got %s, want %s", cell, got, want)
		}
		if kind, err := f.GetCellType("Order", cell); err != nil || kind != excelize.CellTypeUnset && kind != excelize.CellTypeNumber && kind != excelize.CellTypeFormula {
			t.Errorf("Order %s is of type %v, %v", cell, kind, err)
		}
		if got, _ := f.GetCellValue("Order", cell); !strings.HasPrefix(got, "EUR") {
			t.Errorf("Order %s is shown as %q, without its currency", cell, got)
		}
	}
	for i, p := range o.Parcels {
		sheet := f.GetSheetList()[1+i]
		row := find(t, f, sheet, "C", "With tax")
		if got := raw(t, f, sheet, fmt.Sprint("I", row)); got != p.Total.Decimal().String() {
			t.Errorf("%s: got %s, want %s", sheet, got, p.Total)
		}
	}
	// Days are shown: a column that is too narrow for one shows ###. Ten digits and a margin take eleven.
	for _, cell := range []string{"H2", "H3", "H4"} {
		width, err := f.GetColWidth("1 S1", cell[:1])
		if got, _ := f.GetCellValue("1 S1", cell); err != nil || width < 11 || len(got) != len("2027-03-01") {
			t.Errorf("%s: %q in a column of %v digits, %v", cell, got, width, err)
		}
	}
	// 36 hours before 1 March is 27 February, and that is a day and no text.
	if got := raw(t, f, "2 a-supplier-with-a-long-id-000", "K8"); got != "46445" {
		t.Errorf("order by: got %s, want 46445", got)
	}
}

// Text stays text, whatever it looks like.
func TestXLSXText(t *testing.T) {
	o := orderOf(t, `{ "parts": { "GAS1": { "name": "=HYPERLINK(\"x\") _x0041_ <&> 'é ☐" } } }`, plan())
	f := opened(t, o)
	const want = `=HYPERLINK("x") _x0041_ <&> 'é ☐`
	if got, _ := f.GetCellValue("1 S1", "C8"); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	for cell, want := range map[string]string{"C8": want, "B8": "=1+1"} {
		got, _ := f.GetCellValue("1 S1", cell)
		formula, _ := f.GetCellFormula("1 S1", cell)
		kind, _ := f.GetCellType("1 S1", cell)
		if got != want || formula != "" || kind != excelize.CellTypeInlineString {
			t.Errorf("%s: %q is of type %v with the formula %q", cell, got, kind, formula)
		}
	}
}

// The formulas of every demonstration kit come to what the order says, for one team and for twelve, with and without stock.
func TestXLSXOfDemos(t *testing.T) {
	for _, id := range kits.Demos() {
		source, _ := kits.Demo(id)
		m, err := manifest.Load(source)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []kits.OrderPlan{{Kits: 1}, {Kits: 12, Deployments: 4}, {Kits: 3, Stock: map[string]int{"BAT1": 2, "PEN1": 500}}} {
			o, err := kits.OrderFor(m, p)
			if err != nil {
				t.Fatal(err)
			}
			f := opened(t, o)
			agree(t, f)
			row := find(t, f, "Order", "A", "All, "+o.Currency.Code())
			if got := raw(t, f, "Order", fmt.Sprint("H", row)); got != o.Total.Decimal().String() {
				t.Errorf("%s: got %s, want %s", id, got, o.Total)
			}
			if last, err := f.GetRows("Labels"); err != nil || len(last) != 2+p.Kits*len(o.Parts) {
				t.Errorf("%s: %d rows of labels for %d kits of %d parts", id, len(last), p.Kits, len(o.Parts))
			}
		}
	}
}

// The same order gives the same bytes; one without decimals in its currency and one where nothing is bought are written too.
func TestXLSXOfOddOrders(t *testing.T) {
	o := orderOf(t, `{}`, plan())
	a, errA := XLSX(o, english(t), Letter)
	b, errB := XLSX(o, english(t), Letter)
	if errA != nil || errB != nil || !bytes.Equal(a, b) {
		t.Errorf("two different files, %v, %v", errA, errB)
	}
	yen := orderOf(t, `{ "budget": { "currency": "JPY", "per_kit": "5000" }, "parts": { "GAS1": { "offers": [ { "supplier": "S1", "price": "1150.5" } ] } } }`, kits.OrderPlan{Kits: 3})
	agree(t, opened(t, yen))
	nothing := orderOf(t, `{}`, kits.OrderPlan{Kits: 1, Stock: map[string]int{"GAS1": 9, "PIN1": 9}})
	f := opened(t, nothing)
	agree(t, f)
	if got := raw(t, f, "Order", fmt.Sprint("H", find(t, f, "Order", "A", "All, EUR"))); got != "0.00" && got != "0" {
		t.Errorf("nothing costs %s", got)
	}
}

func TestColumnNames(t *testing.T) {
	for column, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := letters(column); got != want {
			t.Errorf("column %d: got %s, want %s", column, got, want)
		}
	}
	if got := sheetName(`1 [a]:b*c?d/e\f'`); got != "1 -a--b-c-d-e-f" {
		t.Errorf("got %q", got)
	}
}
