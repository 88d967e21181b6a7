package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/logbook"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/cmd/internal/whole"
	"hoistbook/kits"
	"hoistbook/kits/unit"
	"hoistbook/render/doc"
	"hoistbook/render/pdf"
	"hoistbook/render/walk"
)

// A recording is one run of the record command.
type recording struct {
	*options
	pdf   string
	stock string
}

func recordCommand(o *options) *cobra.Command {
	r := &recording{options: o}
	c := &cobra.Command{
		Use:   "record FILE [-o RECORD.pdf] [--stock STOCK.csv]",
		Short: "Check and print the record of a walk, take the stock from it",
		Long: `Record checks that no line of a record was cut out, changed or moved, and prints it: who, what, when, readings,
verdicts, what was overruled, times up and down, what came back. With --stock it writes how many sound pieces of each part
were counted, which order --stock reads.
The exit status is 0 when the last verdict is GO or the recovery is complete, 1 when it is not, and 2 for a record that
cannot be trusted.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return r.run(args[0]) },
	}
	o.printingFlags(c.Flags())
	c.Flags().StringVarP(&r.pdf, "output", "o", "", "write the record as PDF into this `FILE`")
	c.Flags().StringVar(&r.stock, "stock", "", "write what was counted back as a stock list into this `FILE`")
	return c
}

func (r *recording) run(name string) error {
	record, err := logbook.Read(name)
	if err != nil {
		return err
	}
	story, err := walk.Tell(record)
	if err != nil {
		return err
	}
	var files []whole.File
	if r.pdf != "" {
		data, err := r.print(record, story)
		if err != nil {
			return fmt.Errorf("%s: %w", r.pdf, err)
		}
		files = append(files, whole.File{Path: r.pdf, Data: data})
	}
	if r.stock != "" {
		data, err := stockList(story)
		if err != nil {
			return fmt.Errorf("%s: %w", r.stock, err)
		}
		files = append(files, whole.File{Path: r.stock, Data: data})
	}
	if err := whole.Write(files...); err != nil {
		return err
	}
	if err := r.tell(record, story); err != nil {
		return err
	}
	switch record.Entries[len(record.Entries)-1].Verdict {
	case walk.GO, walk.Complete:
		return nil
	}
	return errNoGo
}

// print composes the record as PDF. It is dated by its own last line.
func (r *recording) print(record *walk.Record, story *walk.Story) ([]byte, error) {
	words, err := r.readWords()
	if err != nil {
		return nil, err
	}
	system, err := unit.ParseSystem(record.Entries[0].Opening.Units)
	if err != nil {
		return nil, err
	}
	in := &doc.Input{Facts: &kits.Facts{Manifest: story.Manifest}, System: system, Words: words}
	if err := r.dress(in); err != nil {
		return nil, err
	}
	in.Date = record.Entries[len(record.Entries)-1].At
	pages, err := doc.Record(in, record, story)
	if err != nil {
		return nil, err
	}
	if err := pages.Letters(); err != nil {
		return nil, errLetters(err)
	}
	return pdf.Bytes(pages)
}

// stockList is what was counted back and is sound, as order --stock reads it.
func stockList(story *walk.Story) ([]byte, error) {
	stock := story.Stock()
	if len(stock) == 0 {
		return nil, fmt.Errorf("nothing was counted in this record; walk recovery counts the parts back in")
	}
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	lines := [][]string{{"reference", "quantity"}}
	for _, s := range stock {
		lines = append(lines, []string{s.Part, strconv.Itoa(s.Sound)})
	}
	err := w.WriteAll(lines)
	return text.Bytes(), err
}

// tell prints the record in the terminal, or what it says of itself for programs.
func (r *recording) tell(record *walk.Record, story *walk.Story) error {
	if r.json {
		return json.NewEncoder(r.streams.Out).Encode(recordReport(record, story))
	}
	var out bytes.Buffer
	terminal.Record(&out, record, story, terminal.Style{Colour: r.streams.Colour, System: r.system.value})
	_, err := io.Copy(r.streams.Out, &out)
	return err
}

// recordReport is a record as programs read it.
func recordReport(record *walk.Record, story *walk.Story) any {
	type flown struct {
		Part    string  `json:"part"`
		Label   string  `json:"label,omitempty"`
		Hours   float64 `json:"hours"`
		Flights int     `json:"flights"`
	}
	type stock struct {
		Part    string `json:"part"`
		Out     int    `json:"out"`
		Back    int    `json:"back"`
		Lost    int    `json:"lost"`
		Mend    int    `json:"mend"`
		Replace int    `json:"replace"`
		Sound   int    `json:"sound"`
	}
	first, last := record.Entries[0], record.Entries[len(record.Entries)-1]
	report := struct {
		Format  string        `json:"format"`
		Kit     string        `json:"kit"`
		Digest  string        `json:"digest"`
		Closed  bool          `json:"closed"`
		Lines   int           `json:"lines"`
		Chain   string        `json:"chain"`
		Verdict walk.Verdict  `json:"verdict"`
		Crew    []walk.Member `json:"crew"`
		Flown   []flown       `json:"flown"`
		Stock   []stock       `json:"stock"`
	}{"hoistbook-record-report/1", first.Opening.Kit, first.Opening.Digest, record.Closed(), len(record.Entries), record.Chain.String(), last.Verdict, story.Crew, []flown{}, []stock{}}
	for _, h := range story.Hours() {
		report.Flown = append(report.Flown, flown{h.Part, h.Label, h.Time.Hours(), h.Times})
	}
	for _, s := range story.Stock() {
		report.Stock = append(report.Stock, stock(s))
	}
	return report
}
