package cli

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/asbuilt"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/cmd/internal/whole"
	"hoistbook/kits/diag"
	"hoistbook/kits/manifest"
	"hoistbook/render/change"
	"hoistbook/rules"
)

// weighing are the flags of weigh.
type weighing struct {
	serial, sheet, output string
	ask, sure             bool
}

func weighCommand(o *options) *cobra.Command {
	var w weighing
	c := &cobra.Command{
		Use:   "weigh [MANIFEST] [REF=MASS…] --serial NUMBER",
		Short: "Make an overlay of a built copy from scale readings",
		Long: `Weigh takes what a scale read of one copy of the kit: BAT1=301g for one piece, PEN1="12.3 g / 3" for pieces that were
weighed together, TET1="1.42 g/m" or TET1="84 g / 60 m" for the line. With --readings it takes a table of several copies: "ref" and the
serial numbers in the first row, then a row for each part. With --ask it asks for one part after the other.

It prints the readings against the design, and what the copy's masses do to every margin; with -o it writes the overlay of the
copy (of a table, one for each into a folder). The exit status is that of the worst copy.`,
		RunE: func(_ *cobra.Command, args []string) error { return o.weigh(w, args) },
	}
	f := c.Flags()
	f.StringVar(&w.serial, "serial", "", "the serial `NUMBER` of the copy")
	f.StringVar(&w.sheet, "readings", "", "take the readings from this `FILE` (CSV)")
	f.BoolVar(&w.ask, "ask", false, "ask for the readings")
	f.BoolVar(&w.sure, "sure", false, "take readings that are far from the design")
	f.StringVarP(&w.output, "output", "o", "", "write the overlay into this `FILE`, or the overlays into this folder")
	return c
}

func (o *options) weigh(w weighing, args []string) error {
	names, readings := apart(args)
	if len(names) > 1 {
		return fmt.Errorf("%q are several manifests; weigh takes one, and readings as REF=MASS", names)
	}
	base, overlays, err := o.sources(manifestOf(names))
	if err != nil {
		return err
	}
	m, err := manifest.Load(base, overlays...)
	if err != nil {
		return err
	}
	copies, err := o.readings(m, w, readings)
	if err != nil {
		return err
	}
	packs, err := o.rulePacks()
	if err != nil {
		return err
	}
	design := change.Judge(manifestOf(names), m, packs, o.system.value)
	report := asbuilt.Report{Format: asbuilt.Format, Parts: asbuilt.ReportLines(asbuilt.Design(design.Facts, copies))}
	var out bytes.Buffer
	style := terminal.Style{Colour: o.streams.Colour, System: o.system.value}
	terminal.Weighed(&out, asbuilt.Design(design.Facts, copies), len(copies), style)
	verdict := rules.Go
	files := make([]whole.File, len(copies))
	for i, c := range copies {
		overlay, err := c.Overlay(m)
		if err != nil {
			return err
		}
		built, err := manifest.Load(base, append(overlays[:len(overlays):len(overlays)], overlay)...)
		if err != nil {
			return err
		}
		compared := change.Between(design, change.Judge("copy "+c.Serial, built, packs, o.system.value), packs, o.system.value)
		if compared.After.Verdict != rules.Go {
			verdict = compared.After.Verdict
		}
		unweighed := texts(asbuilt.Unweighed(design.Facts, c))
		terminal.Copy(&out, c, unweighed, compared, style)
		report.Copies = append(report.Copies, asbuilt.ReportedCopy{Serial: c.Serial, Unweighed: unweighed, Comparison: compared.Report()})
		files[i] = whole.File{Path: w.path(c, len(copies) > 1 || w.sheet != ""), Data: overlay.Data}
	}
	if err := w.write(files); err != nil {
		return err
	}
	if w.output == "" {
		fmt.Fprintln(&out, "\nNothing is written; name a file with -o to keep the overlay.")
	}
	for _, f := range files {
		if w.output != "" {
			fmt.Fprintln(&out, f.Path)
		}
	}
	if o.json {
		text, err := json.Marshal(report)
		if err != nil {
			return err
		}
		out.Reset()
		out.Write(append(text, '\n'))
	}
	if _, err := o.streams.Out.Write(out.Bytes()); err != nil {
		return err
	}
	if verdict != rules.Go {
		return errNoGo
	}
	return nil
}

// apart tells manifests from readings, which have an equals sign.
func apart(args []string) (names, readings []string) {
	for _, a := range args {
		if strings.Contains(a, "=") {
			readings = append(readings, a)
		} else {
			names = append(names, a)
		}
	}
	return names, readings
}

func texts[T ~string](list []T) []string {
	all := make([]string, len(list))
	for i, t := range list {
		all[i] = string(t)
	}
	return all
}

// readings gathers the copies from a table, from the command line or from a person.
func (o *options) readings(m *manifest.Manifest, w weighing, given []string) ([]asbuilt.Copy, error) {
	if w.sheet != "" {
		if len(given) > 0 || w.serial != "" || w.ask {
			return nil, errors.New("a table of readings has the serial numbers and the readings; leave --serial, --ask and REF=MASS out")
		}
		data, err := os.ReadFile(w.sheet)
		if err != nil {
			return nil, err
		}
		return asbuilt.ReadSheet(m, w.sheet, data, w.sure)
	}
	if err := asbuilt.CheckSerial(w.serial); err != nil {
		return nil, fmt.Errorf("%w (--serial)", err)
	}
	c := asbuilt.Copy{Serial: w.serial}
	var problems diag.Problems
	for _, text := range given {
		ref, mass, _ := strings.Cut(text, "=")
		r, err := asbuilt.Read(m, ref, mass, diag.Place{}, w.sure)
		problems.Join(err)
		c.Readings = append(c.Readings, r)
	}
	if err := problems.Err(); err != nil {
		return nil, err
	}
	if w.ask {
		c.Readings = append(c.Readings, o.askReadings(m, c, w.sure)...)
	}
	if len(c.Readings) == 0 {
		return nil, errors.New("nothing was weighed; write readings as REF=MASS, name a table with --readings, or say --ask")
	}
	return []asbuilt.Copy{c}, nil
}

// askReadings asks for every part aloft that has no reading yet. An empty line leaves a part out; the end of the input ends it.
func (o *options) askReadings(m *manifest.Manifest, c asbuilt.Copy, sure bool) []asbuilt.Reading {
	in := bufio.NewReader(o.streams.In)
	var readings []asbuilt.Reading
	for ref, p := range manifest.Sorted(m.Parts) {
		known := p.Place != manifest.Aloft && p.Tether == nil
		for _, r := range c.Readings {
			known = known || r.Ref == ref
		}
		for !known {
			fmt.Fprintf(o.streams.Err, "%s, %s%s: ", ref, p.Name, statedAs(p))
			text, err := in.ReadString('\n')
			if text = strings.TrimSpace(text); text == "" {
				if errors.Is(err, io.EOF) {
					fmt.Fprintln(o.streams.Err)
					return readings
				}
				break
			}
			r, wrong := asbuilt.Read(m, string(ref), text, diag.Place{}, sure)
			if wrong == nil {
				readings = append(readings, r)
				break
			}
			fmt.Fprintln(o.streams.Err, "  "+wrong.Error())
			if err != nil {
				return readings
			}
		}
	}
	return readings
}

func statedAs(p manifest.Part) string {
	text := ""
	if p.Quantity != nil && *p.Quantity > 1 {
		text = fmt.Sprintf(", one of %d", *p.Quantity)
	}
	if p.Mass != nil {
		text += ", " + p.Mass.String() + " stated"
	}
	return text
}

// path is where the overlay of a copy goes.
func (w weighing) path(c asbuilt.Copy, folder bool) string {
	if folder {
		return filepath.Join(w.output, asbuilt.FileName(c.Serial))
	}
	info, err := os.Stat(w.output)
	if err == nil && info.IsDir() || strings.HasSuffix(w.output, "/") || strings.HasSuffix(w.output, string(filepath.Separator)) {
		return filepath.Join(w.output, asbuilt.FileName(c.Serial))
	}
	return w.output
}

// write writes the overlays. The readings of another copy are not written over.
func (w weighing) write(files []whole.File) error {
	if w.output == "" {
		return nil
	}
	for _, f := range files {
		if data, err := os.ReadFile(f.Path); err == nil {
			if old, new := serialIn(data), serialIn(f.Data); old != new {
				return fmt.Errorf("%s is there already and is not of copy %s; name another file", f.Path, new)
			}
		}
		if err := os.MkdirAll(filepath.Dir(f.Path), 0o755); err != nil {
			return err
		}
	}
	return whole.Write(files...)
}

func serialIn(overlay []byte) string {
	var o struct {
		Kit struct {
			Serial string `json:"serial"`
		} `json:"kit"`
	}
	_ = json.Unmarshal(overlay, &o) // what cannot be read has no serial number
	return o.Kit.Serial
}
