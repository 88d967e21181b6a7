package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"hoistbook/kits/diag"
	"hoistbook/schemas"
)

func schemaCommand(o *options) *cobra.Command {
	return &cobra.Command{
		Use:       "schema [NAME]",
		Short:     "Print the JSON Schema of a kind of file, or list the kinds",
		Long:      "Schema prints the JSON Schema (2020-12) of a kind of file, for editors and other programs: " + strings.Join(schemas.Names(), ", ") + ". Without NAME it lists them.",
		Args:      cobra.MaximumNArgs(1),
		ValidArgs: schemas.Names(),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				_, err := fmt.Fprintln(o.streams.Out, strings.Join(schemas.Names(), "\n"))
				return err
			}
			text, ok := schemas.Text(args[0])
			if !ok {
				return fmt.Errorf("there is no schema %q; %s", args[0], diag.DidYouMean(args[0], schemas.Names(), "there are "+strings.Join(schemas.Names(), ", ")))
			}
			_, err := o.streams.Out.Write(text)
			return err
		},
	}
}
