package cli

import (
	"bytes"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/kits"
	"hoistbook/kits/diag"
	"hoistbook/rules"
)

func checkCommand(o *options) *cobra.Command {
	c := &cobra.Command{
		Use:   "check [MANIFEST…|DIR…]",
		Short: "Compute, apply the rules, and say GO or NO-GO",
		Long: `Check validates each manifest, computes what its design does, applies the rules and prints what they say with
value, limit and margin, then GO or NO-GO. With --json it prints one report a line, in the order given.
Of a folder it prints one table of all manifests in it, with every core at work.
The exit status is that of the worst manifest.`,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				args = []string{demoPrefix + kits.FirstDemo}
			}
			if anyFolder(args) {
				return o.checkShelf(args)
			}
			return check(o, args)
		},
	}
	c.Flags().BoolVarP(&o.verbose, "verbose", "v", false, "name the rule, its level and its source also where all is well")
	return c
}

// check prints nothing of any manifest unless all of them can be read.
func check(o *options, names []string) error {
	packs := o.reading()
	var out bytes.Buffer
	var problems diag.Problems
	worst := rules.Go
	for _, name := range names {
		a, err := o.assess(name, packs)
		problems.Join(err)
		if err != nil {
			continue
		}
		if a.Verdict != rules.Go {
			worst = a.Verdict
		}
		if err := o.show(&out, a); err != nil {
			return err
		}
	}
	if err := problems.Err(); err != nil {
		return err
	}
	if _, err := o.streams.Out.Write(out.Bytes()); err != nil {
		return err
	}
	if worst != rules.Go {
		return errNoGo
	}
	return nil
}

// kit reads and assesses the one manifest that a command works on.
func (o *options) kit(name string) (*assess.Assessment, error) { return o.assess(name, o.reading()) }

// assess reads a manifest while the packs are being read, and assesses it.
func (o *options) assess(name string, packs func() (rules.Packs, error)) (*assess.Assessment, error) {
	m, wrong := o.load(name)
	ready, err := packs()
	if err != nil {
		return nil, err
	}
	if wrong != nil {
		return nil, wrong
	}
	return assess.Of(m, ready, o.system.value)
}

func (o *options) show(out *bytes.Buffer, a *assess.Assessment) error {
	if o.json {
		text, err := a.JSON()
		if err != nil {
			return err
		}
		out.Write(append(text, '\n'))
		return nil
	}
	terminal.Check(out, a, terminal.Style{Colour: o.streams.Colour, System: o.system.value, Verbose: o.verbose})
	return nil
}
