package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/purchase"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/cmd/internal/whole"
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/stock"
	"hoistbook/render/doc"
	"hoistbook/render/page"
	"hoistbook/render/pdf"
	"hoistbook/render/sheet"
)

// ordering are the flags of order.
type ordering struct {
	*options
	plan    kits.OrderPlan
	today   string
	needed  string
	stock   string
	outputs []string
	receive string
	inPlace bool
	stocked []byte // the list as it was read
}

func orderCommand(o *options) *cobra.Command {
	r := &ordering{options: o}
	c := &cobra.Command{
		Use:   "order [MANIFEST] --kits N [-o FILE]…",
		Short: "Order parts for a number of kits: the cheapest choice of suppliers",
		Long: `Order works out what N kits need (spares, what deployments use up, of a battery all sets), takes off what is in stock,
and finds the cheapest choice of offers in whole packs, with price breaks, postage, free postage and least orders. That no
order is cheaper is proved; where the search had to be cut short, the order says so. Nothing needless is bought to reach a
sum. Of equally cheap orders the one with fewer parcels is taken, then the sooner.

With -o it writes order sheets a supplier, pick list and labels (.pdf), a workbook with formulas (.xlsx) or a table (.csv),
as many as are asked for. In the .csv a text that a spreadsheet would take for a formula has an apostrophe before it.

The stock is CSV with the columns "reference" and "quantity". --receive writes the list anew with all that is ordered on
top, into a new file.

Exit status: 0 when the order is complete, 1 when a part has no offer that can be used (what can be ordered is written all
the same, and says so), 2 for unusable input or usage: then nothing is written.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			m, err := o.load(manifestOf(args))
			if err != nil {
				return err
			}
			return r.order(m)
		},
	}
	f := c.Flags()
	o.printingFlags(f)
	f.IntVar(&r.plan.Kits, "kits", 1, "order for `N` kits")
	f.IntVar(&r.plan.Deployments, "deployments", 0, "with what `N` deployments of each kit use up; 0: as many as the manifest plans")
	f.IntVar(&r.plan.FirstSerial, "first-serial", 1, "number the kits from `N` on")
	f.StringVar(&r.stock, "stock", "", "take off what this stock list (`FILE`.csv) has")
	f.StringVar(&r.needed, "needed-by", "", "leave out offers that come after this `DATE`, and print the last days to order")
	f.StringVar(&r.today, "today", "", "order on this `DATE`; with --needed-by, today when it is not given")
	f.StringArrayVarP(&r.outputs, "output", "o", nil, "write the order into this `FILE`: .pdf, .xlsx or .csv; repeatable")
	f.StringVar(&r.receive, "receive", "", "write the stock list, with all that is ordered on top, into this new `FILE`")
	f.BoolVar(&r.inPlace, "in-place", false, "let --receive replace the --stock list")
	return c
}

// errShort ends an order that has been printed and is not complete.
var errShort = fmt.Errorf("the order is not complete: %w", errNoGo)

func (r *ordering) order(m *manifest.Manifest) error {
	if err := r.check(); err != nil {
		return err
	}
	list, err := r.readStock(m)
	if err != nil {
		return err
	}
	r.plan.Stock = list.Pieces()
	o, err := kits.OrderFor(m, r.plan)
	if err != nil {
		return err
	}
	var files []whole.File
	for _, name := range r.outputs {
		data, err := r.form(name, o)
		if err != nil {
			return err
		}
		files = append(files, whole.File{Path: name, Data: data})
	}
	if r.receive != "" {
		received := whole.File{Path: r.receive, Data: list.Received(o.Received())}
		if r.inPlace {
			received.From = r.stocked
		}
		files = append(files, received)
	}
	said, err := r.say(o)
	if err != nil {
		return err
	}
	if err := whole.Write(files...); err != nil {
		return err
	}
	if _, err := r.streams.Out.Write(said); err != nil {
		return err
	}
	if !o.Complete() {
		return errShort
	}
	return nil
}

// say is what is printed.
func (r *ordering) say(o *kits.Order) ([]byte, error) {
	if r.json {
		text, err := purchase.JSON(o)
		return append(text, '\n'), err
	}
	var out bytes.Buffer
	terminal.Order(&out, o, len(r.outputs) == 0, terminal.Style{Colour: r.streams.Colour, System: r.system.value})
	return out.Bytes(), nil
}

// mostKits bounds the lists and labels.
const mostKits = 999

// check reads the dates and looks at the files before anything is computed.
func (r *ordering) check() (err error) {
	switch {
	case r.plan.Kits < 1 || r.plan.Kits > mostKits:
		return fmt.Errorf("%d kits cannot be ordered; write 1 to %d", r.plan.Kits, mostKits)
	case r.plan.Deployments < 0 || r.plan.Deployments > mostKits:
		return fmt.Errorf("%d deployments cannot be planned; write 1 to %d", r.plan.Deployments, mostKits)
	case r.plan.FirstSerial < 1 || r.plan.FirstSerial > 1_000_000:
		return fmt.Errorf("kits cannot be numbered from %d on; write 1 to 1000000", r.plan.FirstSerial)
	}
	if r.plan.Today, err = date("today", r.today); err != nil {
		return err
	}
	if r.plan.NeededBy, err = date("needed-by", r.needed); err != nil {
		return err
	}
	if !r.plan.NeededBy.IsZero() && r.plan.Today.IsZero() {
		y, m, d := time.Now().Date()
		r.plan.Today = time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	}
	return r.checkFiles()
}

func date(flag, text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	at, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return at, fmt.Errorf("--%s %q is no date; write year, month and day as in 2027-03-01", flag, text)
	}
	return at, nil
}

// checkFiles sees to it that nothing is written over a list that is still needed.
func (r *ordering) checkFiles() error {
	seen := map[string]bool{}
	for _, name := range r.outputs {
		if _, ok := forms[extension(name)]; !ok {
			return fmt.Errorf("an order cannot be written as %q; end the name in .pdf, .xlsx or .csv", name)
		}
		if r.isStock(name) {
			return fmt.Errorf("-o %s would replace the stock list; name another file", name)
		}
		if path := filepath.Clean(name); seen[path] || r.receive != "" && path == filepath.Clean(r.receive) {
			return fmt.Errorf("%s is to be written twice; name another file", name)
		} else {
			seen[path] = true
		}
	}
	switch _, err := os.Lstat(r.receive); {
	case r.receive == "" && r.inPlace:
		return errors.New("--in-place is for --receive; name the list that is to be written")
	case r.receive == "" || errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !r.isStock(r.receive):
		return fmt.Errorf("%s is there already; name a new file", r.receive)
	case !r.inPlace:
		return fmt.Errorf("--receive %s would replace the stock list; name a new file, or allow it with --in-place", r.receive)
	}
	return nil
}

func (r *ordering) isStock(name string) bool {
	if r.stock == "" {
		return false
	}
	a, errA := os.Stat(r.stock)
	b, errB := os.Stat(name)
	return errA == nil && errB == nil && os.SameFile(a, b)
}

func (r *ordering) readStock(m *manifest.Manifest) (*stock.List, error) {
	if r.stock == "" {
		return stock.Empty(), nil
	}
	var err error
	if r.stocked, err = os.ReadFile(r.stock); err != nil {
		return nil, err
	}
	var known []string
	for ref := range manifest.Sorted(m.Parts) {
		known = append(known, string(ref))
	}
	return stock.Read(r.stock, r.stocked, known)
}

func extension(name string) string { return strings.ToLower(filepath.Ext(name)) }

// forms are what an order is written as, by the ending of the file's name.
var forms = map[string]func(*ordering, *kits.Order, *doc.Words) ([]byte, error){
	".pdf": func(r *ordering, o *kits.Order, words *doc.Words) ([]byte, error) {
		in := &doc.Input{Facts: &kits.Facts{Manifest: o.Manifest}, System: r.system.value, Words: words}
		if err := r.dress(in); err != nil {
			return nil, err
		}
		in.Date = o.Plan.Today
		pages, err := doc.Order(in, o)
		if err != nil {
			return nil, err
		}
		if err := pages.Letters(); err != nil {
			return nil, errLetters(err)
		}
		return pdf.Bytes(pages)
	},
	".xlsx": func(r *ordering, o *kits.Order, words *doc.Words) ([]byte, error) {
		paper := sheet.A4
		if r.paper.value == page.Letter {
			paper = sheet.Letter
		}
		return sheet.XLSX(o, words, paper)
	},
	".csv": func(_ *ordering, o *kits.Order, _ *doc.Words) ([]byte, error) { return sheet.CSV(o), nil },
}

func (r *ordering) form(name string, o *kits.Order) ([]byte, error) {
	words, err := r.readWords()
	if err != nil {
		return nil, err
	}
	data, err := forms[extension(name)](r, o, words)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return data, nil
}
