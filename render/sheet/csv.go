// Package sheet writes an order as spreadsheets read it: CSV for programs, XLSX for people.
//
// Both say the same as the printed order sheets, to the last minor unit.
package sheet

import (
	"bytes"
	"strconv"
	"strings"

	"hoistbook/kits"
	"hoistbook/kits/unit"
)

// The kinds of rows of the CSV form: the first column of each.
const (
	rowGoods     = "goods"
	rowMakeUp    = "make-up"
	rowPostage   = "postage"
	rowTax       = "tax"
	rowParcel    = "supplier total"
	rowNet       = "order net"
	rowAllTax    = "order tax"
	rowTotal     = "order total"
	rowEachKit   = "each kit"
	rowOnce      = "each kit, one deployment"
	rowFromStock = "from stock each kit, list price"
	rowBill      = "bill each kit, list price"
	rowBudget    = "budget each kit"
	rowPick      = "pack into each kit"
	rowRemains   = "remains"
	rowLacking   = "lacking"
)

// columns names the columns of the CSV form.
var columns = []string{
	"row", "supplier", "supplier name", "order code", "reference", "part", "packs", "pieces a pack", "pieces",
	"price a pack", "amount", "currency", "lead time days", "order by",
}

// CSV writes the order as one table by RFC 4180, in UTF-8: a row for every position, charge and sum, then what goes into
// each kit, what remains, and what is lacking. The amounts of the goods, make-up, postage and tax rows add up to the total.
//
// Text is always quoted. One that a spreadsheet would take for a formula has an apostrophe put before it (CSV injection,
// CWE-1236); numbers stand bare, with a decimal point.
func CSV(o *kits.Order) []byte {
	t := &table{currency: o.Currency.Code()}
	for _, name := range columns {
		t.text(name)
	}
	t.end()
	for _, p := range o.Parcels {
		for _, l := range p.Lines {
			r := row{kind: rowGoods, supplier: p.Supplier, name: p.Name, code: l.OrderCode, ref: l.Ref, part: o.Part(l.Ref).Name,
				packs: l.Packs, pack: l.Pack, pieces: l.Packs * l.Pack, price: l.Price.String(), amount: amount(l.Amount)}
			if n, ok := kits.LeadDays(l.LeadTime); ok {
				r.lead = strconv.Itoa(n)
			}
			r.orderBy = o.Plan.OrderByDay(l.LeadTime)
			t.row(r)
		}
		for _, charge := range []struct {
			kind string
			m    unit.Money
		}{{rowMakeUp, p.MakeUp}, {rowPostage, p.Postage}, {rowTax, p.Tax}, {rowParcel, p.Total}} {
			t.row(row{kind: charge.kind, supplier: p.Supplier, name: p.Name, amount: amount(charge.m)})
		}
	}
	t.row(row{kind: rowNet, amount: amount(o.Net)})
	t.row(row{kind: rowAllTax, amount: amount(o.Tax)})
	t.row(row{kind: rowTotal, amount: amount(o.Total)})
	if each, known := o.EachKit(); known {
		t.row(row{kind: rowEachKit, amount: amount(each)})
	}
	for _, sum := range []struct {
		kind string
		of   func() (unit.Money, bool)
	}{{rowFromStock, o.EachKitStock}, {rowOnce, o.EachKitOnce}, {rowBill, o.Bill}, {rowBudget, o.Budget}} {
		if m, known := sum.of(); known {
			t.row(row{kind: sum.kind, amount: amount(m)})
		}
	}
	for _, p := range o.Parts {
		t.row(row{kind: rowPick, ref: string(p.Ref), part: p.Part.Name, pieces: p.EachKit})
	}
	for _, p := range o.Parts {
		t.row(row{kind: rowRemains, ref: string(p.Ref), part: p.Part.Name, pieces: p.Remains, none: true})
	}
	for _, p := range o.Short() {
		t.row(row{kind: rowLacking, ref: string(p.Ref), part: p.Part.Name, pieces: p.Lacking})
	}
	return t.out.Bytes()
}

func amount(m unit.Money) string { return m.Decimal().String() }

// A row is one line of the table; what is empty or zero is left empty, but for pieces of which there are none.
type row struct {
	kind, supplier, name, code, ref, part string
	packs, pack, pieces                   int
	price, amount                         string
	lead, orderBy                         string
	none                                  bool // no pieces are 0
}

// A table is CSV that is being written.
type table struct {
	out      bytes.Buffer
	begun    bool // in the line
	currency string
}

func (t *table) row(r row) {
	t.text(r.kind)
	for _, text := range []string{r.supplier, r.name, r.code, r.ref, r.part} {
		t.text(text)
	}
	t.count(r.packs, false)
	t.count(r.pack, false)
	t.count(r.pieces, r.none)
	t.bare(r.price)
	t.bare(r.amount)
	if r.amount != "" {
		t.text(t.currency)
	} else {
		t.bare("")
	}
	t.bare(r.lead)
	t.bare(r.orderBy)
	t.end()
}

func (t *table) comma() {
	if t.begun {
		t.out.WriteByte(',')
	}
	t.begun = true
}

func (t *table) end() {
	t.out.WriteString("\r\n")
	t.begun = false
}

// bare writes a number, a date or nothing.
func (t *table) bare(text string) {
	t.comma()
	t.out.WriteString(text)
}

func (t *table) count(n int, none bool) {
	if n == 0 && !none {
		t.bare("")
		return
	}
	t.bare(strconv.Itoa(n))
}

// text writes a quoted cell that no spreadsheet takes for a formula.
func (t *table) text(text string) {
	t.comma()
	if text == "" {
		return
	}
	t.out.WriteByte('"')
	if looksLikeFormula(text) {
		t.out.WriteByte('\'')
	}
	t.out.WriteString(strings.ReplaceAll(text, `"`, `""`))
	t.out.WriteByte('"')
}

// looksLikeFormula reports whether a spreadsheet might calculate a text: it begins with one of = + - @, their full-width
// forms, a tab or an end of line; white space before them does not make it safe.
func looksLikeFormula(text string) bool {
	if strings.ContainsRune("\t\r\n", rune(text[0])) {
		return true
	}
	first := strings.TrimLeft(text, " \t\r\n\u00a0")
	return strings.IndexAny(first, "=+-@＝＋－＠") == 0
}
