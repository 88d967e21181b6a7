package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/terminal"
	"hoistbook/cmd/internal/whole"
	"hoistbook/kits/manifest"
	"hoistbook/render/change"
	"hoistbook/render/doc"
	"hoistbook/render/page"
	"hoistbook/rules"
)

func compareCommand(o *options) *cobra.Command {
	var base, sheet string
	c := &cobra.Command{
		Use:   "compare A [B]",
		Short: "Say what changed between two kits, and what that does to margins",
		Long: `Compare says what changed from A to B: parts, ratings, prices, steps and cautions, whether each part that was put in
the place of another still fits, and what became of every margin, the worst first, with what each change does by itself.

A and B are manifests, books or demonstration kits. Where one of them is an overlay, it is laid over the other; two overlays are laid over
--base. With A alone, A is compared with A under the overlays of --with; with two, the overlays of --with are laid over both.
The exit status is that of B.`,
		Args: cobra.RangeArgs(1, 2),
		RunE: func(_ *cobra.Command, args []string) error {
			a, b, err := o.pair(args, base)
			if err != nil {
				return err
			}
			return o.compare(a, b, sheet)
		},
	}
	o.printingFlags(c.Flags())
	o.dateFlag(c.Flags())
	c.Flags().StringVar(&base, "base", "", "lay two overlays over this `MANIFEST`")
	c.Flags().StringVarP(&sheet, "output", "o", "", "write the change sheet into this `FILE` (PDF)")
	return c
}

// A named manifest is one side as it was given.
type named struct {
	name     string
	manifest *manifest.Manifest
}

// pair reads the two sides of a comparison.
func (o *options) pair(args []string, base string) (a, b named, err error) {
	with, err := o.readOverlays()
	if err != nil {
		return a, b, err
	}
	if len(args) == 1 {
		if len(with) == 0 {
			return a, b, errors.New("there is one kit and nothing to compare it with; name a second one, or overlays with --with")
		}
		return o.sides(args[0], args[0]+" with "+listNames(o.overlays), args[0], nil, args[0], with)
	}
	first, err := source(args[0])
	if err != nil {
		return a, b, err
	}
	second, err := source(args[1])
	if err != nil {
		return a, b, err
	}
	switch one, two := manifest.IsOverlay(first), manifest.IsOverlay(second); {
	case one && two && base == "":
		return a, b, fmt.Errorf("%s and %s are overlays; name the kit that they are laid over with --base", args[0], args[1])
	case one && two:
		return o.sides(args[0], args[1], base, append([]manifest.Source{first}, with...), base, append([]manifest.Source{second}, with...))
	case two:
		return o.sides(args[0], args[0]+" with "+args[1], args[0], with, args[0], append([]manifest.Source{second}, with...))
	case one:
		return o.sides(args[1]+" with "+args[0], args[1], args[1], append([]manifest.Source{first}, with...), args[1], with)
	}
	return o.sides(args[0], args[1], args[0], with, args[1], with)
}

func (o *options) sides(nameA, nameB, a string, overA []manifest.Source, b string, overB []manifest.Source) (named, named, error) {
	load := func(name string, overlays []manifest.Source) (*manifest.Manifest, error) {
		s, err := source(name)
		if err != nil {
			return nil, err
		}
		return manifest.Load(s, overlays...)
	}
	first, err := load(a, overA)
	if err != nil {
		return named{}, named{}, err
	}
	second, err := load(b, overB)
	return named{nameA, first}, named{nameB, second}, err
}

func listNames(names []string) string {
	text := ""
	for i, name := range names {
		if i > 0 {
			text += " and "
		}
		text += name
	}
	return text
}

func (o *options) compare(a, b named, sheet string) error {
	packs, err := o.rulePacks()
	if err != nil {
		return err
	}
	c := change.Between(change.Judge(a.name, a.manifest, packs, o.system.value), change.Judge(b.name, b.manifest, packs, o.system.value), packs, o.system.value)
	if sheet != "" {
		if err := o.changeSheet(c, packs, sheet); err != nil {
			return err
		}
	}
	var out bytes.Buffer
	if o.json {
		text, err := json.Marshal(c.Report())
		if err != nil {
			return err
		}
		out.Write(append(text, '\n'))
	} else {
		terminal.Compare(&out, c, terminal.Style{Colour: o.streams.Colour, System: o.system.value})
	}
	if _, err := o.streams.Out.Write(out.Bytes()); err != nil {
		return err
	}
	if c.After.Verdict != rules.Go {
		return errNoGo
	}
	return nil
}

// changeSheet writes the comparison as PDF.
func (o *options) changeSheet(c *change.Comparison, packs rules.Packs, path string) error {
	in, err := o.input(c.After.Facts, packs)
	if err != nil {
		return err
	}
	file, err := printOne(strings.TrimSuffix(path, ".pdf"), in, func(in *doc.Input) (*page.Document, error) { return doc.ChangeSheet(in, c) })
	if err != nil {
		return err
	}
	file.Path = path
	return whole.Write(file)
}
