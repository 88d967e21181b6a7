package cli

import (
	"bytes"
	"encoding/json"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/size"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/rules"
)

func sizeCommand(o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "size [MANIFEST]",
		Short: "Find what can be changed to make it fly, or how much room there is",
		Long: `Size changes one thing at a time and lets the rules judge: the least and the greatest fill, the greatest payload, the
greatest wind, and the line that gives the most coverage, each with the rule that binds. Every answer is a value that is
GO beside its neighbour that is not. Tables follow, and which value of the manifest matters most for the thinnest margin.
The exit status is that of the kit as designed.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			a, err := o.kit(manifestOf(args))
			if err != nil {
				return err
			}
			return o.size(a)
		},
	}
}

func (o *options) size(a *assess.Assessment) error {
	var out bytes.Buffer
	report := size.Of(a, o.system.value)
	if o.json {
		text, err := json.Marshal(report)
		if err != nil {
			return err
		}
		out.Write(append(text, '\n'))
	} else {
		terminal.Size(&out, a, report, terminal.Style{Colour: o.streams.Colour, System: o.system.value})
	}
	if _, err := o.streams.Out.Write(out.Bytes()); err != nil {
		return err
	}
	if a.Verdict != rules.Go {
		return errNoGo
	}
	return nil
}
