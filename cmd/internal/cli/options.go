package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"sync"

	"github.com/spf13/pflag"

	"hoistbook/kits"
	"hoistbook/kits/diag"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/doc"
	"hoistbook/render/page"
	"hoistbook/render/pdf"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// options are the flags that all commands share.
type options struct {
	streams  Streams
	overlays []string
	packs    []string
	system   choice[unit.System]
	paper    choice[page.Paper]
	json     bool
	verbose  bool
	print    printing
}

func (o *options) flags(f *pflag.FlagSet) {
	o.system = choice[unit.System]{value: unit.SI, text: "si", parse: unit.ParseSystem, kind: "si|us"}
	o.paper = choice[page.Paper]{value: page.A4, text: "a4", parse: parsePaper, kind: "a4|letter"}
	f.StringArrayVar(&o.overlays, "with", nil, "lay this `OVERLAY` (a JSON merge patch) over the manifest; repeatable")
	f.StringArrayVar(&o.packs, "rules", nil, "add this rule `PACK`; repeatable")
	f.Var(&o.system, "units", "print in these units")
	f.Var(&o.paper, "paper", "print on this paper")
	f.BoolVar(&o.json, "json", false, "print for programs")
}

func parsePaper(text string) (page.Paper, error) {
	switch text {
	case "a4":
		return page.A4, nil
	case "letter":
		return page.Letter, nil
	}
	return page.Paper{}, fmt.Errorf("there is no paper %q; write a4 or letter", text)
}

// A choice is a flag that takes one of some words.
type choice[T any] struct {
	value T
	text  string
	kind  string
	parse func(string) (T, error)
}

func (c *choice[T]) String() string { return c.text }
func (c *choice[T]) Type() string   { return c.kind }
func (c *choice[T]) Set(text string) (err error) {
	c.text = text
	c.value, err = c.parse(text)
	return err
}

// demoPrefix marks an embedded demonstration kit where a file's name is expected.
const demoPrefix = "demo:"

// source reads a manifest by the name given on the command line; of a book, the one that rides inside.
func source(name string) (manifest.Source, error) {
	if id, ok := strings.CutPrefix(name, demoPrefix); ok {
		s, ok := kits.Demo(id)
		if !ok {
			return s, fmt.Errorf("there is no demonstration kit %q; %s", id, diag.DidYouMean(id, kits.Demos(), "there are "+strings.Join(kits.Demos(), ", ")))
		}
		return s, nil
	}
	data, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return manifest.Source{}, errors.New(worded(err))
	}
	if err == nil && pdf.Is(data) {
		if data, err = pdf.Attachment(data, doc.ManifestName); err != nil {
			err = fmt.Errorf("%s: %w", name, err)
		}
	}
	return manifest.Source{Name: name, Data: data}, err
}

// load reads a manifest with the overlays of the command line.
func (o *options) load(name string) (*manifest.Manifest, error) {
	base, overlays, err := o.sources(name)
	if err != nil {
		return nil, err
	}
	return manifest.Load(base, overlays...)
}

// sources reads a manifest and the overlays of the command line, as they are written.
func (o *options) sources(name string) (base manifest.Source, overlays []manifest.Source, err error) {
	if base, err = source(name); err != nil {
		return base, nil, err
	}
	if err = asManifest(base); err != nil {
		return base, nil, err
	}
	overlays, err = o.readOverlays()
	return base, overlays, err
}

// readOverlays reads the overlays of the command line.
func (o *options) readOverlays() ([]manifest.Source, error) {
	overlays := make([]manifest.Source, len(o.overlays))
	for i, overlay := range o.overlays {
		var err error
		if overlays[i], err = source(overlay); err != nil {
			return nil, err
		}
		if err = asOverlay(overlays[i]); err != nil {
			return nil, err
		}
	}
	return overlays, nil
}

// reading starts to read the packs, and returns the way to wait for them.
func (o *options) reading() func() (rules.Packs, error) {
	read := sync.OnceValues(o.rulePacks)
	go func() { _, _ = read() }()
	return read
}

// rulePacks reads the built-in packs and those of the command line.
func (o *options) rulePacks() (rules.Packs, error) {
	texts := packs.Texts()
	for _, name := range o.packs {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if err := asPack(manifest.Source{Name: name, Data: data}); err != nil {
			return nil, err
		}
		texts = append(texts, rules.Text{Name: name, JSON: data})
	}
	return rules.Load(kits.Catalogue{}, texts...)
}

// manifestOf is the one manifest that a command works on.
func manifestOf(args []string) string {
	if len(args) > 0 {
		return args[0]
	}
	return demoPrefix + kits.FirstDemo
}
